// SPDX-License-Identifier: AGPL-3.0-or-later
// The line that pins a note: the reader of briefs takes it, and the whole line then costs what the way was said to cost.
import { describe, expect, test } from "vitest";
import { alternativesOf } from "../../src/check/alternatives.js";
import { type Brief, NO_BRIEF } from "../../src/model/brief.js";
import type { Score } from "../../src/model/score.js";
import { parseBrief, resolveBrief } from "../../src/read/brief.js";
import { noteEntries, spareMoves } from "../../src/report/notes.js";
import type { NoteJson } from "../../src/report.js";
import { weightingOf } from "../../src/rule/weighting.js";
import { MELODIES, readMelody } from "../support/melodies.js";
import { bookFor, play, settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";
import { scatter } from "../support/small-lines.js";

const setting = settingOf();
const rules = bookFor(setting);

function notesOf(score: Score, brief: Brief = NO_BRIEF): { notes: readonly NoteJson[]; total: NoteJson["effort"] } {
  const { played, searched, choices, verdicts } = play(score, setting, brief);
  const weighting = weightingOf(brief, played.moments, rules);
  const ways = alternativesOf({ setting, rules, choices, weighting, played, searched });
  return { notes: noteEntries(score, played, verdicts, ways), total: spareMoves(verdicts.total.effort) };
}

const briefOf = (score: Score, pins: readonly string[]): Brief =>
  resolveBrief(parseBrief(`pins:\n${pins.map((pin) => `  ${pin}\n`).join("")}`, "brief.yaml", []), score);

/** Pins notes one by one, each anew. @returns how many lines were tried */
function compare(score: Score, wanted: (note: NoteJson, way: number) => boolean): number {
  const { notes } = notesOf(score);
  const before = play(score, setting).verdicts.total;
  let tried = 0;
  for (const note of notes)
    for (const [i, way] of note.alternatives.entries()) {
      if (way.pin === null || !wanted(note, i)) continue;
      const brief = briefOf(score, [way.pin]);
      expect(brief.pins.map((pin) => pin.note)).toEqual([note.id]);
      const { verdicts, played } = play(score, setting, brief);
      const { total } = verdicts;
      const more = [total.blocked - before.blocked, spareMoves(total.effort - before.effort)];
      expect(more, `${note.id} ${way.spoken}: ${way.pin}`).toEqual([way.blockedMore, way.effortMore]);
      const now = noteEntries(score, played, verdicts, []).find(({ id }) => id === note.id);
      expect([now?.sound, now?.string, now?.position]).toEqual([way.sound, way.string, way.position]);
      tried += 1;
    }
  return tried;
}

/** One of so many, whichever note and way. */
const oneOf = (many: number) => {
  let asked = 0;
  return () => scatter(asked++, 11) % many === 0;
};

test.each(MELODIES.filter((name) => !name.startsWith("four-walks")))("in %s", (name) => {
  const { notes } = notesOf(readMelody(name));
  const ways = notes.reduce((sum, note) => sum + note.alternatives.length, 0);
  expect(compare(readMelody(name), oneOf(Math.ceil(ways / 8)))).toBeGreaterThan(1);
});

describe("where more than place and stroke is at stake", () => {
  test("two notes at once: each is pinned by itself", () => {
    const score = shortScore("G2 C2+C3 D3 G2+G3:2 A3 C2+A2", [], 72);
    expect(compare(score, oneOf(6))).toBeGreaterThan(10);
    const { notes } = notesOf(score);
    expect(notes[1]?.alternatives[0]?.pin).toMatch(/^- \{ bar: 1, beat: 2, note: 1, /);
    expect(notes[2]?.alternatives[0]?.pin).toMatch(/^- \{ bar: 1, beat: 2, note: 2, /);
  });

  test("two notes at once of which both are given: the other keeps what is given for it", () => {
    const written = ["san gou 4", "san gou 1", "san tuo 6", "san tiao 7"];
    expect(compare(shortScore("G2 C2+A2 C3", written, 72), oneOf(2))).toBeGreaterThan(10);
  });

  test("grace notes, of which several may come before one note", () => {
    const score = shortScore("C3 ,D3 ,E3 F3 G3 ,A3 C4:2", [], 60);
    expect(compare(score, (note, way) => note.grace && way < 6)).toBeGreaterThan(10);
    const pins = notesOf(score).notes.map((note) => note.alternatives[0]?.pin ?? "");
    expect(pins.map((pin) => /beat: \d, grace: \d/.exec(pin)?.[0] ?? "")).toEqual([
      ...["", "beat: 2, grace: 1", "beat: 2, grace: 2", "", ""],
      ...["beat: 4, grace: 1", ""],
    ]);
  });

  test("a line that is written: what is pinned stands in place of what is written", () => {
    const written = ["ming 10 gou 4", "san tiao 7", "-", "ming 9 mo 6", "da 9 mo 7", "xia 10", "gou 5", "fan 5 gou 1"];
    expect(compare(shortScore("C3 D3 F3 G3 (A3 G3) F3 C4", written, 80), oneOf(4))).toBeGreaterThan(20);
  });

  test("slides, pull-offs and hammer-ons", () => {
    const score = shortScore("(C3 D3) (A3 G3) F3 (G3 A3) ,G3 A3 (D3 C3)", [], 60);
    const { notes } = notesOf(score);
    const unplucked = (note: NoteJson, i: number): boolean => note.alternatives[i]?.pin?.includes("arrival") ?? false;
    expect(compare(score, unplucked)).toBeGreaterThan(3);
    expect(notes.some(({ arrival }) => arrival === "slid")).toBe(true);
  });

  test("bars that no number names alone are named by their order", () => {
    const score = shortScore("C3:4 D3:4 F3:4 G3:4 A3:4 C3:4");
    const labels = ["1", "1", "X-1", "04", "a, b", "12a"];
    const bars = score.bars.map((bar, i) => ({ ...bar, label: labels[i] as string }));
    const named = { ...score, bars };
    const pins = notesOf(named).notes.map((note) => note.alternatives[0]?.pin ?? "");
    const heads = ['"#1"', '"#2"', '"X-1"', '"04"', '"#5"', '"12a"'];
    expect(pins.map((pin) => /bar: (.*), beat/.exec(pin)?.[1])).toEqual(heads);
    expect(briefOf(named, pins).pins.map((pin) => pin.note)).toEqual(named.notes.map((note) => note.id));
  });
});
