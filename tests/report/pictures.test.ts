// SPDX-License-Identifier: AGPL-3.0-or-later
// What the pictures draw, against the notes and the bill of the same report, and against the handbook's tables.
import { describe, expect, test } from "vitest";
import { handbookJson } from "../../reports/handbook/json.js";
import { PINCHES } from "../../src/model/fingering.js";
import { MODES } from "../../src/model/modes.js";
import { pitchClassName } from "../../src/model/note-table.js";
import { pictureZones } from "../../src/report/pictures.js";
import { judge } from "../../src/run/judge.js";
import { readMelody } from "../support/melodies.js";
import { settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

const thousandths = (effort: number): number => Math.round(1000 * effort);
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** Strokes that close the hand and strokes that open it (common practice, no source). */
const CLOSING = ["mo", "gou", "da", "tuo"];

describe.each(["market-morning", "lark-above-the-roof", "rattling-shutters"])("the pictures of %s", (name) => {
  const report = judge(readMelody(name), settingOf(), "0.0.0");
  const { pictures, json, score } = report;
  const { notes, bill, total } = json.fingering;
  const noteOf = new Map(notes.map((note) => [note.id, note]));
  const barOf = new Map(score.notes.map((note) => [note.id, note.bar]));
  const kindOf = new Map(report.rules.map(({ id, kind }) => [id, kind]));

  test("have every note once, in order", () => {
    expect(pictures.moments.flatMap((moment) => moment.notes)).toEqual(notes.map(({ id }) => id));
  });

  test("cost bar by bar what the bill says, to the thousandth", () => {
    expect(sum(pictures.bars.map(({ effort }) => thousandths(effort)))).toBe(thousandths(total.effort));
    expect(sum(pictures.bars.map(({ blocked }) => blocked))).toBe(total.blocked);
    expect(pictures.bars).toHaveLength(score.bars.length);
    for (const [bar, { effort, kinds }] of pictures.bars.entries()) {
      const own = bill.filter((charge) => barOf.get(charge.notes.at(-1) as string) === bar);
      expect(thousandths(effort)).toBe(sum(own.map((charge) => thousandths(charge.effort))));
      for (const { kind, effort: part } of kinds) {
        const charges = own.filter(({ rule }) => kindOf.get(rule) === kind);
        expect(thousandths(part)).toBe(sum(charges.map((charge) => thousandths(charge.effort))));
      }
      expect(sum(kinds.map((one) => thousandths(one.effort)))).toBe(thousandths(effort));
    }
  });

  test("have a stroke wherever a string is plucked, of the kind that players say", () => {
    for (const { notes: ids, stroke } of pictures.moments) {
      const first = noteOf.get(ids[0] as string);
      expect(stroke !== null).toBe(first?.arrival === "plucked");
      if (stroke === null || stroke.compound !== null) continue;
      expect(stroke.strokes).toEqual([first?.stroke]);
      expect(stroke.direction).toBe(CLOSING.includes(first?.stroke ?? "") ? "closing" : "opening");
    }
  });

  test("have a break wherever the bill has one, and nowhere else", () => {
    const charged = new Map(
      bill
        .filter(({ rule, effort }) => rule === "alternate-strokes" && effort > 0)
        .map((one) => [one.notes.at(-1), one]),
    );
    const broken = pictures.moments.filter(({ stroke }) => (stroke?.breakEffort ?? 0) > 0);
    expect(broken).toHaveLength(charged.size);
    for (const { notes: ids, stroke } of broken) {
      const charge = ids.map((id) => charged.get(id)).find((one) => one !== undefined);
      expect(stroke?.breakEffort).toBe(charge?.effort);
    }
  });

  test("let the middle finger wait where the notes say so", () => {
    for (const { notes: ids, planted } of pictures.moments)
      for (const id of ids) expect(noteOf.get(id)?.planted ?? planted).toBe(planted);
    expect(pictures.moments.filter(({ planted }) => planted !== null).flatMap((moment) => moment.notes)).toEqual(
      notes.filter(({ planted }) => planted !== null).map(({ id }) => id),
    );
  });
});

test("a hand that goes from hui 9 to hui 7 with one finger travels a sixth of the string", () => {
  // Hui 9 at two thirds and hui 7 at half of the string: Zhu Fengjie, Yuguzhai qinpu (1855), section v29.
  const score = shortScore("G3 C3 C4", ["da 9 tiao 6", "san gou 6", "da 7 tiao 6"]);
  const { moments } = judge(score, settingOf(), "0.0.0").pictures;
  expect(moments.map(({ travelCm }) => travelCm)).toEqual([0, 0, Math.round(1100 / 6) / 10]);
});

test("a slide has no stroke, a compound stroke and a pinch have one", () => {
  const score = shortScore("G3 A3 C3 C2+C3", ["da 9 tiao 6", "shang 8.5", "san lun 6", "san cuo 1", "san cuo 6"]);
  const { moments } = judge(score, settingOf(), "0.0.0").pictures;
  expect(moments.map(({ stroke }) => stroke?.strokes ?? [])).toEqual([
    ["tiao"],
    [],
    ["zhai", "ti", "tiao"],
    ["gou", "tuo"],
  ]);
  expect(moments.map(({ stroke }) => stroke?.direction)).toEqual(["opening", undefined, "opening", "closing"]);
  expect(PINCHES).toContain(moments[3]?.stroke?.compound);
});

test("the odd strings of every tuning and mode are those of the handbook", () => {
  const book = handbookJson();
  for (const { tuning, gong } of MODES) {
    const zones = pictureZones({ tuning, gong, temperament: "pythagorean" });
    const pitches = [pitchClassName(gong, true), pitchClassName(gong, false)];
    const mode = book.tunings.find(({ name }) => name === tuning.name)?.modes.find((one) => pitches.includes(one.gong));
    expect(zones.map(({ from: _, to: __, ...zone }) => zone)).toEqual(mode?.zones);
  }
});
