// SPDX-License-Identifier: AGPL-3.0-or-later
// One finding about the whole line explains those that only follow from it; what is meant is listed, knots among it.
import { describe, expect, test } from "vitest";
import { type Brief, NO_BRIEF } from "../../src/model/brief.js";
import { parseTransposition, UNTRANSPOSED } from "../../src/model/pitch.js";
import type { Setting } from "../../src/model/setting.js";
import { transpositionWords } from "../../src/model/transposition-words.js";
import { play, settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

describe("places that fit an octave away", () => {
  const fingering = ["san gou 4", "san tiao 5", "san mo 6", "ming 10 gou 1"];
  const HIGH = "G3 A3 C4 F3";
  const lowered = (): Setting => ({ ...settingOf(), transpose: parseTransposition("-12", 0) ?? UNTRANSPOSED });

  test("explain every place that does not fit", () => {
    const { findings } = play(shortScore(HIGH, fingering)).verdicts;
    const misplaced = findings.filter(({ rule }) => rule === "written-place-mismatch");
    expect(misplaced.map(({ followsFrom }) => followsFrom)).toEqual(Array(4).fill("tuned-otherwise"));
    const cause = findings.find(({ rule }) => rule === "tuned-otherwise");
    expect(String(cause?.explains?.cause)).toBe("is written for the melody an octave lower (transpose: -12)");
    expect(cause?.followsFrom).toBeNull();
  });

  test("fit when the melody is transposed as the finding says", () => {
    const setting = lowered();
    expect(String(transpositionWords(setting.transpose))).toBe("an octave lower");
    const { findings } = play(shortScore(HIGH, fingering), setting).verdicts;
    expect(findings.filter(({ kind }) => kind === "intonation")).toEqual([]);
    expect(findings.filter(({ rule }) => rule === "tuned-otherwise")).toEqual([]);
  });

  test("lie higher where the melody was taken down for nothing", () => {
    const { findings } = play(shortScore("G2 A2 C3 F2", fingering), lowered()).verdicts;
    const cause = findings.find(({ rule }) => rule === "tuned-otherwise");
    expect(String(cause?.message)).toContain("sounds an octave higher: say transpose: 0 in the brief");
  });
});

describe("a knot that is meant", () => {
  const score = shortScore("G2 C2 G2 C2", ["san gou 4", "san gou 1", "san gou 4", "san gou 1"], 120);
  const bar1 = { fromBar: 0, toBar: 0, text: "1" };
  const reason = "the sleeper cannot rest";
  const knotsUnder = (brief: Partial<Brief>) =>
    play(score, settingOf(), { ...NO_BRIEF, ...brief })
      .verdicts.findings.filter(({ rule }) => rule.startsWith("knot"))
      .map(({ rule, status, reason: why, message }) => ({
        rule,
        status,
        why,
        answer: String(message).split(". ").at(-1),
      }));

  test("is left alone in a struggling passage, and listed", () => {
    const passages = [{ ...bar1, character: "struggling", reason, harmonics: false }] as const;
    const answer = "The brief says that it is meant.";
    expect(knotsUnder({ passages })).toEqual([{ rule: "knot", status: "accepted", why: reason, answer }]);
  });

  test("is left alone where it is accepted", () => {
    const [knot, ...others] = knotsUnder({ accept: [{ ...bar1, rule: "knot", reason }] });
    expect(knot).toMatchObject({ rule: "knot", status: "accepted", why: reason });
    expect(others).toEqual([]);
  });

  test("is left alone in a flowing passage where it is accepted as such", () => {
    const passages = [{ ...bar1, character: "flowing", reason: null, harmonics: false }] as const;
    const accept = [{ ...bar1, rule: "knot-in-song", reason }];
    expect(knotsUnder({ passages, accept })).toMatchObject([{ rule: "knot-in-song", status: "accepted", why: reason }]);
  });
});
