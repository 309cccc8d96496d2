// SPDX-License-Identifier: AGPL-3.0-or-later
// Every rule's own examples, run through the very pipeline that users run.
import { readdirSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { RULES } from "../rules/index.js";
import { type Brief, NO_BRIEF } from "../src/model/brief.js";
import type { Score } from "../src/model/score.js";
import { type Example, RULE_KINDS } from "../src/rule/types.js";
import { inWords } from "../src/words.js";
import { bookFor, play, settingOf } from "./support/playing.js";
import { shortScore } from "./support/shorthand.js";

describe("the rule book", () => {
  test("holds every rule file, once, under its own name", () => {
    const files = RULE_KINDS.flatMap((kind) => {
      const folder = new URL(`../rules/${kind}/`, import.meta.url);
      try {
        return readdirSync(folder).map((file) => `${kind}/${file.replace(/\.ts$/, "")}`);
      } catch {
        return [];
      }
    });
    const listed = RULES.map(({ prose }) => `${prose.kind}/${prose.id}`);
    expect(files.filter((file) => !SHARED.has(file)).sort()).toEqual([...listed].sort());
  });

  test("says of every rule that may charge or block what it is about, each in its own few words", () => {
    const local = bookFor(settingOf()).filter((rule) => rule.reach !== "passage" && !FREE_OF_CHARGE.has(rule.id));
    const topics = local.map((rule) => inWords(rule.topic ?? `nothing for ${rule.id}`, "en"));
    for (const topic of topics) expect(topic).toMatch(/^[a-z][a-z -]{8,40}$/);
    expect(new Set(topics).size).toBe(topics.length);
  });
});

/** Rules that see one note and only inform. */
const FREE_OF_CHARGE = new Set(["harmonic-off-pitch"]);

/** Modules that rules share: not rules themselves. */
const SHARED = new Set(["idiom/ring-time"]);

describe.each(RULES.map(({ prose }) => [prose.id, prose] as const))("%s", (_, prose) => {
  test("has an example that passes, one that breaks and an exception", () => {
    expect(new Set(prose.examples.map((example) => example.kind))).toEqual(new Set(["passes", "breaks", "exception"]));
  });

  test.each(prose.examples.map((example) => [inWords(example.shows, "en"), example] as const))(
    "%s",
    (_shows, example) => {
      const score = shortScore(example.melody, example.fingering, example.tempo === undefined ? 60 : example.tempo);
      const { verdicts } = play(score, settingOf(example), briefOf(example, score));
      const found = verdicts.findings
        .filter((finding) => finding.rule === prose.id)
        .map((finding) => [
          score.notes.findIndex((note) => note.id === finding.notes.at(-1)) + 1,
          finding.severity,
          finding.message,
        ]);
      expect(found).toEqual(example.finds);
    },
  );
});

/** The brief that an example asks for: over the whole melody. */
function briefOf(example: Example, score: Score): Brief {
  const whole = {
    fromBar: 0,
    toBar: score.bars.length - 1,
    text: score.bars.length === 1 ? "1" : `1-${score.bars.length}`,
  };
  const passages = example.flowing ? [{ ...whole, character: "flowing", reason: null, harmonics: false } as const] : [];
  return {
    ...NO_BRIEF,
    passages,
    accept: (example.accepts ?? []).map((rule) => ({ ...whole, rule, reason: "meant" })),
  };
}
