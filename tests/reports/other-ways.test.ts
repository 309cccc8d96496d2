// SPDX-License-Identifier: AGPL-3.0-or-later
// What the page says of other ways to play each note, without a script.
import { gzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { renderCheckPage } from "../../reports/check-page.js";
import { packPins, unpackPins } from "../../reports/pin-pack.js";
import { engraveReport } from "../../src/engrave/music.js";
import type { Report } from "../../src/report.js";
import { judge } from "../../src/run/judge.js";
import { LANGUAGES, type Language } from "../../src/words.js";
import { readMelody } from "../support/melodies.js";
import { settingOf } from "../support/playing.js";

const pageOf = async (report: Report, language: Language = "en"): Promise<string> =>
  renderCheckPage(report, await engraveReport(report), language);

const decoded = (text: string): string =>
  text
    .replace(/&quot;/g, '"')
    .replace(/&#x27;/g, "'")
    .replace(/&#x3D;/g, "=")
    .replace(/&amp;/g, "&");

interface Listed {
  readonly pins: readonly (string | null)[];
  /** readings with their costs, other places first */
  readonly ways: readonly string[];
  readonly codes: readonly string[];
}

/** What the page lists of each note, by id. */
function listed(page: string): ReadonlyMap<string, Listed> {
  const parts = [...page.matchAll(/<details data-of="([^"]*)" data-pins="([^"]*)">([\s\S]*?)<\/details>/g)];
  return new Map(
    parts.map(([, id = "", pins = "", body = ""]) => [
      id,
      {
        pins: unpackPins(decoded(pins)),
        ways: [...body.matchAll(/<li>([^<]*)/g)].map(([, text = ""]) => text.trim().replace("\t", " ")),
        codes: [...body.matchAll(/<code>([^<]*)<\/code>/g)].map(([, text = ""]) => decoded(text)),
      },
    ]),
  );
}

describe("a melody with notes struck together", () => {
  const report = judge(readMelody("two-bells"), settingOf(), "0");
  const { notes, total } = report.json.fingering;

  test("has every way of every note, with its cost in words and its pin", async () => {
    const page = await pageOf(report);
    const found = listed(page);
    for (const note of notes) {
      const { pins = [], ways = [], codes = [] } = found.get(note.id) ?? {};
      const isHere = (way: (typeof note.alternatives)[number]): boolean =>
        way.sound === note.sound && way.string === note.string && way.position === note.position;
      const sorted = note.alternatives.toSorted((a, b) => Number(isHere(a)) - Number(isHere(b)));
      expect(pins).toEqual(sorted.map((way) => way.pin));
      for (const [i, way] of sorted.entries()) {
        expect(ways[i]).toContain(way.spoken);
        const cost = way.blockedMore > 0 ? `blocks ${way.blockedMore} more` : `+${way.effortMore}`;
        expect(ways[i]?.endsWith(` ${cost}`), `${ways[i]}: ${cost}`).toBe(true);
      }
      // So short a melody has room for the line of every other place, and for the cheapest at its own.
      const places = sorted.filter((way) => !isHere(way)).map((way) => way.pin);
      expect(codes).toEqual([...places, ...sorted.filter(isHere).map((way) => way.pin)].slice(0, places.length + 1));
    }
    expect(found.size).toBe(notes.length);
    expect(decoded(page)).toContain(`of the line's ${total.effort}`);
  });

  test("has as many in Chinese, and the same pins", async () => {
    const [en, zh] = await Promise.all(LANGUAGES.map(async (language) => listed(await pageOf(report, language))));
    for (const [id, { ways, pins }] of en ?? []) {
      expect(zh?.get(id)?.ways).toHaveLength(ways.length);
      expect(zh?.get(id)?.pins).toEqual(pins);
    }
    expect([...(zh?.values() ?? [])].flatMap(({ ways }) => ways).join()).not.toMatch(/[a-z]/i);
  });
});

test("a way without a pluck names its string, a given note what is given", async () => {
  const report = judge(readMelody("willow-bend"), settingOf(), "0");
  const { notes } = report.json.fingering;
  const given = notes.map((note, i) => (i === 0 ? { ...note, given: ["string", "stroke"] } : note));
  const json = { ...report.json, fingering: { ...report.json.fingering, notes: given } };
  const page = await pageOf({ ...report, json });
  expect(page).toContain("Given by the score or the brief: string, stroke.");
  const unplucked = [...listed(page).values()].flatMap(({ ways }) =>
    ways.filter((way) => /^(shang|xia|qia)/.test(way)),
  );
  expect(unplucked.length).toBeGreaterThan(3);
  for (const way of unplucked) expect(way).toMatch(/, string [1-7] [+−]/);
});

// Budgets of the project, not of any outside source.
test("64 bars stay within 900 KB, 200 KB as they travel, with every way of every note", async () => {
  const report = judge(readMelody("four-walks-round-the-pond"), settingOf(), "0");
  const page = await pageOf(report);
  expect(Buffer.byteLength(page)).toBeLessThan(900_000);
  expect(gzipSync(page).length).toBeLessThan(200_000);
  const found = listed(page);
  const { notes } = report.json.fingering;
  expect(notes.map(({ id }) => found.get(id)?.ways.length)).toEqual(notes.map((one) => one.alternatives.length));
  const most = notes.reduce((sum, one) => sum + one.alternatives.length, 0);
  expect(most).toBeGreaterThan(5000);

  // Twice as many would not fit: the cheapest stay, and the page says so.
  const long = notes.map((note) => ({ ...note, alternatives: [...note.alternatives, ...note.alternatives] }));
  const fingering = { ...report.json.fingering, notes: long };
  const cut = await pageOf({ ...report, json: { ...report.json, fingering } });
  const each = Math.floor(7000 / notes.length);
  expect(cut).toContain(`room for the ${each} cheapest ways of each note`);
  for (const { ways } of listed(cut).values()) expect(ways.length).toBeLessThanOrEqual(each);
});

test("pins are packed without loss, none among them, and quoted labels too", () => {
  const pins = [
    '- { bar: "#12", beat: 2.333, grace: 2, sound: open, string: 3, arrival: pulled-off }',
    null,
    '- { bar: "#12", beat: 2.333, grace: 2, string: 4, position: 7.6, finger: thumb, contact: joint, stroke: tiao }',
    '- { bar: "#12", beat: 2.333, grace: 2, sound: harmonic, string: 4, position: 7, stroke: ti }',
  ];
  expect(packPins(pins)).toBe('bar: "#12", beat: 2.333, grace: 2|O3p||S4P7.6TJi|H4P7t');
  expect(unpackPins(packPins(pins))).toEqual(pins);
  expect(unpackPins(packPins([null, null]))).toEqual([null, null]);
});
