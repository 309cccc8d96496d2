// SPDX-License-Identifier: AGPL-3.0-or-later
// Remedies are what a whole new search would find, and they do away with their finding.
import { describe, expect, test } from "vitest";
import { choicesOf } from "../../src/candidates/candidates.js";
import { changesBetween } from "../../src/check/remedies/words.js";
import { RIGHTS, type Right } from "../../src/model/playing.js";
import { unweigh } from "../../src/rule/cost.js";
import { solve } from "../../src/search/solve.js";
import { inLanguage, inWords } from "../../src/words.js";
import { MELODIES, readMelody } from "../support/melodies.js";
import { play, settingOf } from "../support/playing.js";
import { expectKept, remedied, remedyFor, triedAgainst } from "../support/remedies.js";
import { shortScore } from "../support/shorthand.js";

describe("searching again", () => {
  test("with the same rules finds the same line", () => {
    const { searched, rules } = remedied(readMelody("evening-ferry"));
    for (const index of [0, 1, 20, searched.solution.lefts.length - 1]) {
      const again = searched.excepting(index, rules);
      expect(again.weight).toBe(searched.solution.weight);
      expect(again.lefts).toEqual(searched.solution.lefts);
    }
  });

  test("without open strings at one note costs what a search without them costs", () => {
    const setting = settingOf();
    const { searched, rules, played } = remedied(readMelody("auld-lang-syne"), setting);
    const choices = choicesOf(played.moments, setting, rules);
    const closed = rules.map((rule) =>
      rule.id === "finger-and-place" && rule.reach === "place"
        ? {
            ...rule,
            measure: (...all: Parameters<typeof rule.measure>) =>
              all[0]?.sound === "open" ? 99 : rule.measure(...all),
            blocks: (measured: number) => measured === 99,
          }
        : rule,
    );
    for (const index of [0, 5, 26, 30]) {
      const thinned = choices.map((choice, i) => {
        const lefts = choice.lefts.filter((left) => i !== index || left.first?.sound !== "open");
        return {
          ...choice,
          lefts,
          plucked: lefts.filter((left) => left.chain === 0).length,
          pluckedList: i === index ? -1 : choice.pluckedList,
        };
      });
      expect(searched.excepting(index, closed).weight).toBe(solve(thinned, setting, rules).weight);
    }
  });
});

test("another fingering costs no less than the best line, and no more of it is blocked", () => {
  const { verdicts, tried } = remedied(readMelody("four-walks-round-the-pond"));
  const others = [...tried.values()].flatMap(({ remedy }) =>
    remedy !== null && inWords(remedy.text, "en").startsWith("Another way") ? [remedy] : [],
  );
  expect(others.length).toBeGreaterThanOrEqual(5);
  for (const remedy of others) {
    expect(remedy.after.effort).toBeGreaterThanOrEqual(verdicts.total.effort);
    expect(remedy.after.blocked).toBe(verdicts.total.blocked);
    expect(inWords(remedy.text, "en")).toMatch(/^Another way: bar \d+, beat [\d.]+, .+ instead of .+\./);
  }
});

test("a string that cannot sound its note is put right with every other note as it was", () => {
  const fingering = ["san tiao 4", "<string> 5", "san tiao 4", "-", "-"];
  const line = remedied(shortScore("G2 D2 G2 C2 D2", fingering));
  const remedy = remedyFor(line, "written-place-mismatch");
  expect(inWords(remedy.text, "en")).toMatch(/^String 2 can sound it: san \w+ 2\./);
  expect(remedy.after.blocked).toBe(0);
});

test("a submitted note is set free for its remedy, and the line gets better", () => {
  const line = remedied(shortScore("G2 C2", ["san gou 4", "san gou 1"], 120));
  const remedy = remedyFor(line, "alternate-strokes");
  expect(inWords(remedy.text, "en")).toBe("Another way: bar 1, beat 1, san tiao 4 instead of san gou 4.");
  expect(inWords(remedy.text, "zh")).toBe("另一种弹法：第1小节第1拍“散勾四”改为“散挑四”。");
  expectKept(remedy, remedied(shortScore("G2 C2", ["san tiao 4", "san gou 1"], 120)), "alternate-strokes");
});

test("where only the waiting finger changes, that is the change", () => {
  const { played } = play(shortScore("C3 A2 G2", ["san tiao 6", "san tiao 5", "san gou 4"], 90));
  expect(played.rights.map(({ planted }) => planted)).toEqual([4, 4, 0]);
  const free = RIGHTS.find(({ strings, stroke, planted }) => strings.outer === 6 && stroke === "tiao" && planted === 0);
  const then = { ...played, rights: [free as Right, ...played.rights.slice(1)] };
  const changes = changesBetween(played, then);
  expect(inLanguage([...changes], "en")).toEqual([
    {
      at: 0,
      old: "san tiao 6 with the middle finger waiting on string 4",
      now: "san tiao 6 with no finger waiting",
    },
  ]);
  expect(inLanguage([...changes], "zh")).toEqual([
    { at: 0, old: "“散挑六”（中指停在四弦）", now: "“散挑六”（无停指）" },
  ]);
});

test("what no other fingering avoids is told from what was not looked for", () => {
  const line = remedied(shortScore("C2 G2 C2 G2", ["san gou 1", "san tiao 4", "san gou 1", "san tiao 4"], 480));
  expect(triedAgainst(line, "too-fast", "n2").unavoidable).toBe(true);
  const knot = line.verdicts.findings.find(({ rule }) => rule === "knot");
  expect(knot).toBeDefined();
  expect(knot !== undefined && line.tried.has(knot)).toBe(false);
});

test("a remedy that makes something worse says what, and says nothing else of it", () => {
  const line = remedied(shortScore("D5 A4 F4", [], 60));
  const remedy = remedyFor(line, "thin-register", "n1");
  const then = remedied(shortScore("D5 A4 F4", ["fan 4 tiao 7"], 60));
  expect(inWords(remedy.text, "en")).toContain("But then: A harmonic that nobody asked for");
  expect(then.verdicts.findings.map(({ rule }) => rule)).toContain("unasked-harmonic");
});

test.each(MELODIES)(
  "no remedy of %s leaves more blocked than before, and no blocker gets one that leaves as much",
  (name) => {
    const { verdicts, tried } = remedied(readMelody(name));
    for (const [finding, { remedy, unavoidable }] of tried) {
      const most = verdicts.total.blocked - (finding.severity === "blocker" ? 1 : 0);
      if (remedy !== null) expect(remedy.after.blocked).toBeLessThanOrEqual(most);
      if (unavoidable) expect(inWords(remedy?.text ?? "", "en")).not.toMatch(/^Another way/);
    }
  },
);

test("a line that cannot be played has no effort to compare: blocks count first", () => {
  const line = remedied(readMelody("lark-above-the-roof"));
  const remedy = remedyFor(line, "above-the-board");
  expect(remedy.after.blocked).toBe(0);
  expect(unweigh(line.solution.weight).blocked).toBeGreaterThan(0);
});
