// SPDX-License-Identifier: AGPL-3.0-or-later
// Principles of practice that rules encode. All of them: common practice, no source. What the search finds for short
// phrases was judged by us alone, no outside player has seen it.
import { describe, expect, test } from "vitest";
import { RULES } from "../../rules/index.js";
import { readingAt } from "../../src/check/check.js";
import { closes, STROKES, type Stroke } from "../../src/model/fingering.js";
import { RIGHTS, type Right, type StrokeGap } from "../../src/model/playing.js";
import { chargesOf } from "../../src/search/charges.js";
import { bookFor, play, settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

/** Notes of a phrase on which a rule speaks, counted from 1, with the whole fingering given. */
function found(rule: string, melody: string, fingering: readonly string[], tempo = 120): readonly string[] {
  const { verdicts } = play(shortScore(melody, fingering, tempo));
  return verdicts.findings.filter((finding) => finding.rule === rule).map(({ notes }) => notes.at(-1) ?? "");
}

describe("closing and opening", () => {
  test("mo, gou, da and tuo close the hand; tiao, ti, zhai and bo open it", () => {
    expect(STROKES.filter(closes).sort()).toEqual(["da", "gou", "mo", "tuo"]);
    expect(STROKES.filter((stroke) => !closes(stroke)).sort()).toEqual(["bo", "ti", "tiao", "zhai"]);
  });

  test("gou 4 then gou 1 breaks it", () => {
    expect(found("alternate-strokes", "G2 C2", ["san gou 4", "san gou 1"])).toEqual(["n2"]);
  });

  test("tiao 4 then gou 1 keeps it", () => {
    expect(found("alternate-strokes", "G2 C2", ["san tiao 4", "san gou 1"])).toEqual([]);
  });
});

describe("travelling strokes", () => {
  test("gou 1, 2, 3 goes its own way", () => {
    expect(found("alternate-strokes", "C2 D2 F2", ["san gou 1", "san gou 2", "san gou 3"])).toEqual([]);
  });

  test("gou 3, 2, 1 goes against it", () => {
    expect(found("alternate-strokes", "F2 D2 C2", ["san gou 3", "san gou 2", "san gou 1"])).toEqual(["n2", "n3"]);
  });

  test("tiao 7, 6, 5, as in a li, goes its own way, and back again against it", () => {
    const tiao = (...strings: number[]) => strings.map((string) => `san tiao ${string}`);
    expect(found("alternate-strokes", "D3 C3 A2", tiao(7, 6, 5))).toEqual([]);
    expect(found("alternate-strokes", "A2 C3 D3", tiao(5, 6, 7))).toEqual(["n2", "n3"]);
  });
});

describe("the retained finger", () => {
  const rule = RULES.find(({ prose }) => prose.id === "retained-finger")?.make(settingOf());
  if (rule?.reach !== "stroke-move") throw new Error("no rule of that name sees strokes");
  const gap: StrokeGap = { seconds: 0.5, rested: false, ornament: false, ringsOn: false };

  /** A single stroke, with the middle finger waiting on a string or none. */
  const stroke = (name: Stroke, string: number, planted = 0): Right => {
    const right = RIGHTS.find(
      (one) =>
        one.innerStroke === null && one.stroke === name && one.strings.outer === string && one.planted === planted,
    );
    if (right === undefined) throw new Error(`no ${name} ${string} with the middle finger on ${planted}`);
    return right;
  };

  /** Spare moves of three strokes in a row. */
  const cost = (...strokes: readonly Right[]): number =>
    strokes.slice(1).reduce((sum, right, i) => {
      const measured = rule.measure(strokes[i] as Right, right, gap);
      return Number.isNaN(measured) ? sum : sum + rule.charge(measured, strokes[i] as Right, right, gap);
    }, 0);

  test("tiao 6, tiao 5, gou 4: it waits on string 4 from the first tiao on", () => {
    const { played } = play(shortScore("C3 A2 G2", ["san tiao 6", "san tiao 5", "san gou 4"]));
    expect(played.rights.map(({ planted }) => planted)).toEqual([4, 4, 0]);
  });

  test("waiting costs next to nothing; planted on 5 first it costs one spare move", () => {
    const waits = cost(stroke("tiao", 6, 4), stroke("tiao", 5, 4), stroke("gou", 4));
    const moves = cost(stroke("tiao", 6, 5), stroke("tiao", 5, 4), stroke("gou", 4));
    expect(waits).toBeLessThan(0.05);
    expect(moves).toBeGreaterThanOrEqual(1);
    expect(moves).toBeLessThan(1.2);
  });

  test("the string of the gou itself is the one that counts", () => {
    expect(cost(stroke("tiao", 6, 5), stroke("gou", 4))).toBe(1);
    expect(cost(stroke("tiao", 6, 4), stroke("gou", 4))).toBe(0);
  });

  test("it reaches one to four strings outside the index, never an inner one", () => {
    for (const right of RIGHTS.filter(({ planted }) => planted > 0)) {
      expect(["mo", "tiao"]).toContain(right.stroke);
      expect(right.strings.outer - right.planted).toBeGreaterThanOrEqual(1);
      expect(right.strings.outer - right.planted).toBeLessThanOrEqual(4);
    }
  });
});

describe("tip and joint", () => {
  test("thumb joint on 7, then its tip on 6 at one position: no break, no move of the hand", () => {
    const fingering = ["da jie 9 tiao 7", "da 9 mo 6"];
    expect(found("tip-and-joint", "A3 G3", fingering)).toEqual([]);
    expect(found("hand-shift", "A3 G3", fingering)).toEqual([]);
  });

  test("tip on 7, then tip on 6: a break", () => {
    expect(found("tip-and-joint", "A3 G3", ["da 9 tiao 7", "da 9 mo 6"])).toEqual(["n2"]);
  });

  test("the ring finger does it over up to three strings", () => {
    expect(found("tip-and-joint", "F3 C3", ["ming jie 10 tiao 6", "ming 10 gou 4"])).toEqual([]);
  });
});

/** The line that the search finds, as it is said aloud; the waiting string of the middle finger in brackets. */
function spokenLine(melody: string, tempo: number): readonly string[] {
  const { played } = play(shortScore(melody, [], tempo));
  return played.lefts.map((_, at) => {
    const planted = played.rights[at]?.planted ?? 0;
    return readingAt(played, at) + (planted > 0 ? ` [${planted}]` : "");
  });
}

/** Effort of the cheapest line in thousandths of a spare move. */
function effort(melody: string, fingering: readonly string[], tempo: number): number {
  const { played } = play(shortScore(melody, fingering, tempo));
  return chargesOf(played, bookFor(settingOf())).reduce((sum, { cost }) => sum + cost.effort, 0);
}

describe("lines that the book leads to", () => {
  test("open strings downward: tiao, tiao, and gou where the middle finger waits", () => {
    expect(spokenLine("C3 A2 G2", 60)).toEqual(["san tiao 6 [4]", "san tiao 5 [4]", "san gou 4"]);
    expect(effort("C3 A2 G2", [], 120)).toBeLessThanOrEqual(150);
  });

  test("a slurred step is slid, and the thumb takes the note above", () => {
    expect(spokenLine("(C3 D3) F3", 66)).toEqual(["ming 10 gou 4", "shang 9", "da 8.5 tiao 5"]);
  });

  test("Auld Lang Syne, traditional, opening in F: ring at 10, thumb joint and tip at 9", () => {
    expect(spokenLine("C3 F3:3/2 F3:1/2 F3 A3 G3:3/2 F3:1/2", 80)).toEqual([
      "san tiao 6",
      "ming 10 mo 6",
      "ming 10 tiao 6",
      "ming 10 mo 6",
      "da jie 9 tiao 7",
      "da 9 mo 6",
      "ming 10 tiao 6",
    ]);
  });

  test("an own phrase in D minor stays around hui 9 with ring finger and thumb", () => {
    expect(spokenLine("D3 F3 A3 A3 Bb3 A3 G3 F3 E3 F3 G3 E3 D3", 80).slice(0, 9)).toEqual([
      "san tiao 7 [5]",
      "ming 8.5 gou 5",
      "da 7.9 tiao 6",
      "da 7.9 mo 6",
      "ming 8.5 tiao 7",
      "da 7.9 mo 6",
      "ming 9 tiao 6 [5]",
      "da 8.5 gou 5",
      "ming 9 tiao 5",
    ]);
  });

  test("a climb to A4 is stopped all the way: no stray harmonic", () => {
    const { played } = play(shortScore("A3 C4 D4 F4 G4 A4", [], 60));
    expect(played.lefts.map(({ first }) => first?.sound)).toEqual(Array(6).fill("stopped"));
    expect(played.lefts.slice(2).every(({ first }) => first?.finger === "thumb")).toBe(true);
  });

  test("two open strings by turns: tiao and gou, not gou and gou", () => {
    expect(spokenLine("G2 C2 G2 C2", 120)).toEqual(["san tiao 4 [1]", "san gou 1", "san tiao 4 [1]", "san gou 1"]);
    const forced = ["san gou 4", "san gou 1", "san gou 4", "san gou 1"];
    expect(effort("G2 C2 G2 C2", forced, 120)).toBeGreaterThanOrEqual(2000);
  });
});
