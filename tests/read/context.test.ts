// SPDX-License-Identifier: AGPL-3.0-or-later
// What the notes around a form add to it, from the text of a score to the hands: common practice, no source. (That san
// holds until the next sign is also said on a player's notation page on the web, which names no author.)
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { readingAt } from "../../src/check/check.js";
import type { Right } from "../../src/model/playing.js";
import type { CheckJson } from "../../src/report.js";
import { runCheck } from "../../src/run/check.js";
import type { Played } from "../../src/search/charges.js";
import { play } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";
import { documentOf, quarter, readBar, readText } from "./helpers.js";

function playedFrom(melody: string, fingering: readonly string[], tempo = 60): Played {
  return play(shortScore(melody, fingering, tempo)).played;
}

function readings(melody: string, fingering: readonly string[]): readonly string[] {
  const played = playedFrom(melody, fingering);
  return played.moments.map((_, at) => readingAt(played, at));
}

const oddOf = (melody: string, fingering: readonly string[]) =>
  shortScore(melody, fingering).oddMarks.map(({ note, trouble, nearest }) => [note, trouble, nearest]);

describe("what is left out holds where the note lies there", () => {
  test.each<[string, string, readonly string[], readonly string[]]>([
    ["san holds until the next sign", "C2 G2 C2", ["散勾一", "挑四", "勾一"], ["san gou 1", "san tiao 4", "san gou 1"]],
    ["finger and place hold on another string", "C3 D3", ["大九勾三", "挑四"], ["da 9 gou 3", "da 9 tiao 4"]],
    ["the place holds under another finger", "C3 C3", ["da 9 gou 3", "ming tiao 3"], ["da 9 gou 3", "ming 9 tiao 3"]],
    ["the finger holds at another place", "C3 D3", ["ming 10 gou 4", "9 tiao 4"], ["ming 10 gou 4", "ming 9 tiao 4"]],
    [
      "what stood before a slide holds behind it",
      "C3 D3 D3",
      ["ming 10 gou 4", "shang 9", "tiao 4"],
      ["ming 10 gou 4", "shang 9", "ming 9 tiao 4"],
    ],
    ["a harmonic holds until the next sign", "C4 D4", ["fan 7 tiao 6", "tiao 7"], ["fan 7 tiao 6", "fan 7 tiao 7"]],
  ])("%s", (_, melody, fingering, spoken) => {
    expect(readings(melody, fingering)).toEqual(spoken);
  });

  test("what would change the note is left open instead", () => {
    // Hui 9 on string 5 is E3; G3 lies elsewhere on it.
    const [, second] = readings("C3 G3", ["大九勾三", "挑五"]);
    expect(second).toMatch(/ tiao 5$/);
    expect(second).not.toContain(" 9 ");
  });

  test("a note without a form, or a chord, ends what holds", () => {
    const held = shortScore("C3 D3 D3 C2+C3 D3", ["大九勾三", "-", "挑四", "san gou 1", "san tiao 6", "挑四"]).notes;
    expect(held.map(({ given }) => given.held)).toEqual([null, null, null, null, null, null]);
  });

  test("in a setting where the strings are others, the same text may hold or not", () => {
    const notes = shortScore("C3 D3", ["大九勾三", "挑四"]).notes;
    expect(notes[1]?.given).toMatchObject({ sound: null, held: { sound: "stopped", position: 9, finger: "thumb" } });
  });
});

describe("harmonics between two signs", () => {
  const between = ["泛起九挑五", "-", "da 7 tiao 7", "fan 7 tiao 6 fan zhi", "大七挑六"];
  test("are harmonics by their place, whichever finger touches", () => {
    const score = shortScore("E4 A3 D4 C4 C4", between);
    expect(score.notes.map(({ given }) => given.sound)).toEqual(["harmonic", null, "harmonic", "harmonic", "stopped"]);
    expect(score.notes.map(({ marks }) => marks.harmonic)).toEqual([true, true, true, true, false]);
  });

  test("are played so", () => {
    expect(readings("D4 C4", ["泛起7 tiao 7", "tiao 6 泛止"])).toEqual(["fan 7 tiao 7", "fan 7 tiao 6"]);
  });

  test("keep their hui where the string is a slip: the writer is not credited with a stop", () => {
    expect(readings("A3 G3 A3", ["泛起七勾五", "挑五", "抹五泛止"])).toEqual([
      "fan 7 gou 5",
      "fan 7 tiao 5",
      "fan 7 mo 5",
    ]);
  });
});

describe("slides named by one word", () => {
  test("er shang and jin fu name the notes after them", () => {
    expect(readings("C3 D3 F3", ["ming 10 gou 4", "er shang 9 7.6"])).toEqual([
      "ming 10 gou 4",
      "shang 9",
      "shang 7.6",
    ]);
    expect(readings("C3 D3 C3", ["ming 10 gou 4 jin fu 9"])).toEqual(["ming 10 gou 4", "shang 9", "xia 10"]);
    expect(readings("D3 C3 D3", ["ming 9 gou 4", "退復"])).toEqual(["ming 9 gou 4", "xia 10", "shang 9"]);
  });

  test("against the notes they are odd", () => {
    expect(oddOf("C3 D3", ["ming 10 gou 4", "xia 9"])).toEqual([["n2", "direction", "shang 9"]]);
    expect(oddOf("C3 D3 F3", ["ming 10 gou 4", "jin fu"])).toEqual([["n3", "direction", "shang"]]);
    expect(oddOf("C3 D3", ["ming 10 gou 4", "shang 9"])).toEqual([]);
  });

  test("beyond the last note they are odd", () => {
    expect(oddOf("C3 D3", ["ming 10 gou 4", "er shang"])).toEqual([["n2", "misfit", "shang"]]);
    expect(oddOf("C3", ["ming 10 gou 4 shang 9"])).toEqual([["n1", "misfit", "ming 10 gou 4"]]);
  });

  test("a form of the note's own counts over what was named for it", () => {
    expect(oddOf("C3 D3", ["ming 10 gou 4 shang 9", "san tiao 7"])).toEqual([["n2", "contradicted", "san tiao 7"]]);
  });
});

describe("compounds and the notes that they stand at", () => {
  const pinchOf = (fingering: readonly string[]): Right | undefined => playedFrom("C2+C3", fingering).rights[0];

  test("a cuo at one note of two is that of both", () => {
    for (const fingering of [["大撮一六"], ["-", "san cuo 1 6"], ["da cuo"], ["san cuo 1", "san cuo 6"]])
      expect(pinchOf(fingering), fingering.join()).toMatchObject({
        pinch: "large-cuo",
        strings: { outer: 1, inner: 6 },
      });
    expect(pinchOf(["反撮一六"])).toMatchObject({ pinch: "reverse-cuo", stroke: "ti", innerStroke: "bo" });
    expect(playedFrom("G2+C3", ["撮四六"]).rights[0]).toMatchObject({ pinch: "small-cuo" });
  });

  test("a compound at a wrong number of notes is odd", () => {
    expect(oddOf("C2", ["cuo 1 6"])).toEqual([["n1", "misfit", "gou 1"]]);
    expect(oddOf("C2+C3", ["lun 1"])).toEqual([["n1", "misfit", "cuo"]]);
    expect(shortScore("C2+C3", ["lun 1"]).notes[0]?.given).toMatchObject({ compound: null, stroke: null, string: 1 });
  });

  test("a figure is said with its name, begins with its first attack and leaves with its last", () => {
    const { rights } = playedFrom("C3 D3", ["ming 10 lun 4", "ming 9 gou 4"]);
    expect(readings("C3 D3", ["chuo ming 10 lun 4", "名九勾四"])).toEqual(["chuo ming 10 lun 4", "ming 9 gou 4"]);
    expect(rights[0]).toMatchObject({ stroke: "zhai", figure: { last: { stroke: "tiao", strings: { outer: 4 } } } });
  });

  test("a sweep sounds its note on one of its strings", () => {
    const played = playedFrom("A2 C2", ["san li 7 5", "san gou 1"]);
    expect(readingAt(played, 0)).toBe("san li 7 5");
    expect(played.lefts[0]?.first?.string).toBe(5);
    expect(played.rights[0]?.figure).toMatchObject({
      first: { stroke: "tiao", strings: { outer: 7 } },
      last: { stroke: "tiao", strings: { outer: 5 } },
    });
  });
});

describe("what a figure costs", () => {
  const found = (melody: string, fingering: readonly string[], tempo: number): readonly string[] =>
    play(shortScore(melody, fingering, tempo)).verdicts.findings.map(({ rule }) => rule);

  test("the next stroke follows its last attack: gou after gou ti is prepared, after mo gou it is not", () => {
    expect(found("G2 G2", ["san gou ti 4", "san gou 4"], 120)).not.toContain("alternate-strokes");
    expect(found("G2 G2", ["san mo gou 4", "san gou 4"], 120)).toContain("alternate-strokes");
    expect(found("G2 G2", ["san gou 4", "san ti 4"], 120)).not.toContain("alternate-strokes");
    expect(found("G2 G2", ["san ti 4", "san ban lun 4"], 120)).toContain("alternate-strokes");
  });

  test("the hand is where the sweep ended", () => {
    expect(found("A2 D2", ["san li 7 3", "san mo 2"], 120)).not.toContain("string-leap");
    expect(found("D3 D2", ["san tiao 7", "san mo 2"], 120)).toContain("string-leap");
  });

  test("rolls and sweeps are as quick as the hand", () => {
    expect(found("G2 A2 G2", ["san lun 4", "san lun 5", "san lun 4"], 600)).not.toContain("too-fast");
    expect(found("D3 C3 A2", ["san li 7", "san li 6", "san li 5"], 600)).not.toContain("too-fast");
    expect(found("D3 C3 A2", ["san tiao 7", "san tiao 6", "san tiao 5"], 600)).toContain("too-fast");
  });

  test("a figure stays when its note is set free", () => {
    const { played } = play(shortScore("C3 D3", ["ming 10 lun 4", "-"]));
    expect(played.rights[0]?.figure?.name).toBe("lun");
  });
});

describe("in a score", () => {
  const lyric = (text: string): string => `<lyric><text>${text}</text></lyric>`;

  test("left-out places, slides and signs are read from a lyric line", () => {
    const { notes, oddMarks } = readBar(
      quarter("C", 2, lyric("散勾一")) + quarter("G", 2, lyric("挑四")) + quarter("C", 4, lyric("泛七挑六 泛止")),
    );
    expect(notes.map(({ given }) => [given.sound, given.held?.sound ?? null, given.string])).toEqual([
      ["open", null, 1],
      [null, "open", 4],
      ["harmonic", null, 6],
    ]);
    expect(oddMarks).toEqual([]);
  });

  test("technical marks that leave something out are partial: nothing holds for them", () => {
    const marks = (string: number): string =>
      `<notations><technical><string>${string}</string><pluck>tiao</pluck></technical></notations>`;
    const { notes } = readBar(quarter("C", 2, lyric("san gou 1")) + quarter("G", 2, marks(4)));
    expect(notes[1]?.given).toMatchObject({ string: 4, stroke: "tiao", sound: null, held: null });
  });

  test("a pluck may name a compound, a fingering its characters", () => {
    const marks =
      "<notations><technical><string>5</string><pluck>lun</pluck><fingering>名節</fingering></technical></notations>";
    const { notes, oddMarks } = readBar(quarter("C", 3, marks));
    expect(notes[0]?.given).toMatchObject({
      compound: "lun",
      stroke: "zhai",
      finger: "ring",
      contact: "joint",
      string: 3,
    });
    expect(oddMarks).toEqual([]);
  });

  test("strings may count as players do, if the brief says so", () => {
    const mark = "<notations><technical><string>1</string></technical></notations>";
    const text = documentOf(
      `<measure number="1"><attributes><divisions>1</divisions></attributes>${quarter("C", 3, mark)}</measure>`,
    );
    expect(readText(text).notes[0]?.given.string).toBe(7);
    expect(readText(text, { stringNumbers: "guqin" }).notes[0]?.given.string).toBe(1);
  });

  test("the whole way: what is read is said again, with its compound", async () => {
    const score = fileURLToPath(new URL("../../fixtures/musicxml/written-as-players-do.musicxml", import.meta.url));
    const json: CheckJson = JSON.parse(String((await runCheck({ score, report: "none", json: "-" }, "0.0.0")).text));
    expect(json.fingering.notes.map(({ spoken }) => spoken)).toEqual([
      ...["san gou 1", "san tiao 4", "ming 10 lun 4", "shang 9"],
      ...["san gou 1", "san tuo 6", "san li 7 5"],
      ...["fan 7 tiao 6", "fan 7 tiao 7", "chuo da 8.5 tiao 5", "san mo gou 3"],
    ]);
    expect(json.fingering.notes.map(({ compound }) => compound)).toEqual([
      ...[null, null, "lun", null],
      ...["large-cuo", "large-cuo", "li"],
      ...[null, null, null, "mo-gou"],
    ]);
    expect(json.fingering.source).toBe("submitted");
    expect(json.verdict.playable).toBe(true);
    expect(json.findings.filter(({ rule }) => rule === "unread-fingering")).toEqual([]);
    expect(json.fingering.notes[9]?.given).toContain("entry");
  });
});
