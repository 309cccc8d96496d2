// SPDX-License-Identifier: AGPL-3.0-or-later
// The brief that is written to start from: it changes nothing as it stands, and each answer in it is a valid one.
import { expect, test } from "vitest";
import { briefText } from "../../reports/brief-text.js";
import { RULES } from "../../rules/index.js";
import { parseBrief, resolveBrief } from "../../src/read/brief.js";
import { judge } from "../../src/run/judge.js";
import { readMelody } from "../support/melodies.js";
import { settingOf } from "../support/playing.js";

const KNOWN = RULES.map(({ prose }) => ({ id: prose.id, parameters: {} }));

test.each(["auld-lang-syne", "rattling-shutters", "two-bells"])("%s", (name) => {
  const score = readMelody(name);
  const text = briefText(judge(score, settingOf(), "0.0.0"));
  const plain = resolveBrief(parseBrief(text, "b.yaml", KNOWN), score);
  expect(plain).toMatchObject({ passages: [], pins: [], accept: [] });
  const answered = text.replace(/^# (?=(passages|accept|pins):)/gm, "").replace(/^# (?= {2}[-#])/gm, "");
  const brief = resolveBrief(parseBrief(answered, "b.yaml", KNOWN), score);
  expect(brief.pins).toHaveLength(1);
  expect(brief.passages.length).toBeGreaterThan(0);
});
