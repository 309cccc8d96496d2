// SPDX-License-Identifier: AGPL-3.0-or-later
// Awkwardness that is meant: accepted, or in a passage that struggles; and the same where the music flows
// (common practice, no source: domain "meaning of awkwardness").
import { expect, test } from "vitest";
import { choicesOf } from "../../src/candidates/candidates.js";
import { check } from "../../src/check/check.js";
import { type Brief, NO_BRIEF } from "../../src/model/brief.js";
import { momentsOf } from "../../src/model/moments.js";
import { weightingOf } from "../../src/rule/weighting.js";
import { solve } from "../../src/search/solve.js";
import { bookFor, settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

/** Gou twice against its way, in the first of two bars. */
const score = shortScore("G2 C2 r:2 C2:4", ["san gou 4", "san gou 1", "san gou 1"], 120);

function judged(wish: Partial<Brief>) {
  const brief = { ...NO_BRIEF, ...wish };
  const setting = settingOf();
  const rules = bookFor(setting);
  const moments = momentsOf(score, setting, brief);
  const weighting = weightingOf(brief, moments, rules);
  const { lefts, rights, weight } = solve(choicesOf(moments, setting, rules), setting, rules, { weighting });
  const wishes = { brief, weighting, crashed: new Map<string, string>() };
  const verdicts = check({ moments, lefts, rights }, score, setting, rules, wishes);
  expect(verdicts.total.effort).toBe(weight);
  const alternate = verdicts.findings.filter(({ rule }) => rule === "alternate-strokes");
  const charged = verdicts.bill.filter((charge) => charge.rule.id === "alternate-strokes");
  return {
    found: alternate.map(({ severity, status, reason }) => ({ severity, status, reason })),
    effort: charged.reduce((sum, charge) => sum + charge.cost.effort, 0),
  };
}

const bar1 = { fromBar: 0, toBar: 0, text: "1" };

test("unmarked, the charge is the book's", () => {
  expect(judged({})).toEqual({ found: [{ severity: "problem", status: "open", reason: null }], effort: 1000 });
});

test("flowing, it is raised", () => {
  const passages = [{ ...bar1, character: "flowing", reason: null, harmonics: false }] as const;
  expect(judged({ passages })).toEqual({
    found: [{ severity: "problem", status: "open", reason: null }],
    effort: 1500,
  });
});

test("struggling, nothing is charged, and it is left alone for the reason given", () => {
  const passages = [{ ...bar1, character: "struggling", reason: "a sleepless night", harmonics: false }] as const;
  const found = [{ severity: "problem", status: "accepted", reason: "a sleepless night" }];
  expect(judged({ passages })).toEqual({ found, effort: 0 });
});

test("accepted by name over its bars", () => {
  const accept = [{ ...bar1, rule: "alternate-strokes", reason: "an echo" }];
  expect(judged({ accept })).toEqual({
    found: [{ severity: "problem", status: "accepted", reason: "an echo" }],
    effort: 0,
  });
});

test("an acceptance elsewhere, or of another rule, changes nothing", () => {
  const open = { found: [{ severity: "problem", status: "open", reason: null }], effort: 1000 };
  expect(judged({ accept: [{ fromBar: 1, toBar: 1, text: "2", rule: "alternate-strokes", reason: "x" }] })).toEqual(
    open,
  );
  expect(judged({ accept: [{ ...bar1, rule: "string-leap", reason: "x" }] })).toEqual(open);
});

test("a weight scales the charge", () => {
  expect(judged({ weights: { "alternate-strokes": 0.5 } }).effort).toBe(500);
});
