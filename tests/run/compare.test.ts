// SPDX-License-Identifier: AGPL-3.0-or-later
// `huipath compare`, from the files on disk to the JSON and the page.
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chdir, cwd } from "node:process";
import { fileURLToPath } from "node:url";
import { Ajv2020 } from "ajv/dist/2020.js";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { InputProblem } from "../../src/problem.js";
import type { CompareJson } from "../../src/report/compare.js";
import type { CheckJson } from "../../src/report.js";
import { runCheck } from "../../src/run/check.js";
import { type CompareCall, runCompare } from "../../src/run/compare.js";

const fixture = (name: string): string => fileURLToPath(new URL(`../../fixtures/${name}.musicxml`, import.meta.url));
const WRITTEN = fixture("submissions/ring-past-thumb");
const PLAIN = fixture("melodies/auld-lang-syne");
const SCHEMA = new URL("../../reports/schema/compare.schema.json", import.meta.url);
const validate = new Ajv2020({ strict: true, strictRequired: false, strictTypes: false, allErrors: true }).compile(
  JSON.parse(readFileSync(SCHEMA, "utf8")),
);

async function compared(call: CompareCall): Promise<CompareJson> {
  const { text, code } = await runCompare({ report: "none", json: "-", ...call }, "0.0.0");
  expect(code).toBe(0);
  return JSON.parse(String(text));
}

async function totalOf(score: string, more: object = {}): Promise<CheckJson["fingering"]["total"]> {
  const { text } = await runCheck({ score, report: "none", json: "-", ...more }, "0.0.0");
  return (JSON.parse(String(text)) as CheckJson).fingering.total;
}

/** Spare moves as whole thousandths, so that sums are exact. */
const thousandths = (effort: number): number => Math.round(effort * 1000);
const sum = (list: readonly { readonly difference: { readonly effort: number } }[]): number =>
  list.reduce((all, { difference }) => all + thousandths(difference.effort), 0);

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "huipath-compare-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

function written(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

/** A copy of the written fingering in which something stands for the first match of `found` from bar `bar` on. */
function changed(
  name: string,
  ...changes: readonly (readonly [bar: number, found: string, instead: string])[]
): string {
  const text = changes.reduce(
    (all, [bar, found, instead]) => {
      const at = all.indexOf(found, all.indexOf(`<measure number="${bar}">`));
      if (at < 0) throw new Error(`no ${found} from bar ${bar} on`);
      return all.slice(0, at) + instead + all.slice(at + found.length);
    },
    readFileSync(WRITTEN, "utf8"),
  );
  return written(name, text);
}

const otherStrokes = (): string =>
  changed("other.musicxml", [1, "thumb 9 tiao 6", "thumb 9 gou 6"], [3, "ring 9 mo 6", "thumb 9 mo 6"]);

const CASES: readonly (readonly [string, () => CompareCall])[] = [
  ["a written fingering and the best", () => ({ score: WRITTEN })],
  ["two fingerings", () => ({ score: WRITTEN, scoreB: otherStrokes() })],
  ["two hands", () => ({ score: PLAIN, scoreB: PLAIN, handB: "small" })],
  ["two tunings", () => ({ score: PLAIN, scoreB: PLAIN, tuningB: "ruibin", transposeB: "-7" })],
  [
    "two briefs",
    () => ({
      score: PLAIN,
      scoreB: PLAIN,
      brief: written("a.yaml", "pins:\n  - { bar: 1, beat: 1, string: 4 }\n"),
      briefB: written("b.yaml", "tuning: manjue\n"),
    }),
  ],
];

describe.each(CASES)("%s", (_, call) => {
  test("keep the schema, and no thousandth is lost between notes, rules and the whole", async () => {
    const json = await compared(call());
    validate(json);
    expect(validate.errors ?? []).toEqual([]);
    const whole = thousandths(json.difference.effort);
    expect(thousandths(json.b.total.effort) - thousandths(json.a.total.effort)).toBe(whole);
    expect(json.b.total.blocked - json.a.total.blocked).toBe(json.difference.blocked);
    expect(sum(json.rules)).toBe(whole);
    expect(sum(json.notes)).toBe(whole);
    expect(sum(json.changes)).toBe(whole);
  });
});

test("both sides cost what check says of them", async () => {
  const json = await compared({ score: PLAIN, scoreB: PLAIN, tuningB: "ruibin", transposeB: "-7" });
  expect(json.a.total).toEqual(await totalOf(PLAIN));
  expect(json.b.total).toEqual(await totalOf(PLAIN, { tuning: "ruibin", transpose: "-7" }));
  const against = await compared({ score: WRITTEN });
  expect(against.a.total).toEqual(await totalOf(WRITTEN));
  expect(thousandths(against.b.total.effort)).toBeLessThan(thousandths(against.a.total.effort));
  expect(against.deciding?.sentence).toMatch(/bar/);
});

test("two fingerings are told apart where they differ, and the other way round with the other sign", async () => {
  const other = otherStrokes();
  const there = await compared({ score: WRITTEN, scoreB: other });
  expect(there.a).toMatchObject({ file: "ring-past-thumb.musicxml", source: "submitted" });
  expect(there.b).toMatchObject({ file: "other.musicxml", source: "submitted", total: await totalOf(other) });
  const said = there.notes.filter(({ a, b }) => a.spoken !== b.spoken);
  expect(said.map(({ bar, beat, a, b }) => [bar, beat, a.spoken, b.spoken])).toEqual([
    ["1", "2", "da 9 tiao 6", "da 9 gou 6"],
    ["3", "2", "ming 9 mo 6", "da 9 mo 6"],
  ]);
  const back = await compared({ score: other, scoreB: WRITTEN });
  expect(sum(back.notes)).toBe(-sum(there.notes));
  expect(back.notes.map(({ id, a, b }) => ({ id, a: b, b: a }))).toEqual(
    there.notes.map(({ id, a, b }) => ({ id, a, b })),
  );
});

test("a fingering against itself decides nothing", async () => {
  const json = await compared({ score: WRITTEN, scoreB: WRITTEN });
  expect(json).toMatchObject({ difference: { blocked: 0, effort: 0 }, notes: [], deciding: null });
});

test("the page is huipath's own and is replaced, a stranger's file is not", async () => {
  const page = join(folder, "page.html");
  for (let run = 0; run < 2; run++) await runCompare({ score: WRITTEN, report: page }, "0.0.0");
  expect(readFileSync(page, "utf8")).toContain("Footbridge in the Fog");
  writeFileSync(page, "mine");
  await expect(runCompare({ score: WRITTEN, report: page }, "0.0.0")).rejects.toThrow(/force/);
  expect(readFileSync(page, "utf8")).toBe("mine");
});

test("the page lies in the working folder under the name of A", async () => {
  const before = cwd();
  chdir(folder);
  try {
    const { text } = await runCompare({ score: WRITTEN }, "0.0.0");
    expect(text).toContain("Page: ring-past-thumb.compare.html");
  } finally {
    chdir(before);
  }
  const page = readFileSync(join(folder, "ring-past-thumb.compare.html"), "utf8");
  expect(page).toContain('<meta name="generator" content="huipath">');
});

describe("of other notes the first bar is named", () => {
  test.each<[what: string, changes: Parameters<typeof changed>[1][], message: RegExp]>([
    [
      "pitches, in two bars",
      [
        [7, "<step>F</step>", "<step>E</step>"],
        [5, "<step>A</step>", "<step>B</step>"],
      ],
      /edited\.musicxml, bar 5: it differs from ring-past-thumb\.musicxml there: beat 3 has A2 in A and B2 in B/,
    ],
    [
      "durations",
      [[9, "<duration>4</duration>", "<duration>2</duration>"]],
      /edited\.musicxml, bar 9: it differs from ring-past-thumb\.musicxml there: D3 on beat 1 lasts/,
    ],
  ])("%s", async (_, changes, message) => {
    const scoreB = changed("edited.musicxml", ...changes);
    const refused = runCompare({ score: WRITTEN, scoreB, report: "none" }, "0.0.0");
    await expect(refused).rejects.toBeInstanceOf(InputProblem);
    await expect(refused).rejects.toThrow(message);
  });
});

test("one output at most goes to standard output", async () => {
  const call = { score: WRITTEN, report: "-", json: "-" };
  await expect(runCompare(call, "0.0.0")).rejects.toThrow(/--report, --json: more than one asks for standard output/);
});

describe("what cannot be compared is named, and nothing is written", () => {
  test.each<[Partial<CompareCall>, RegExp]>([
    [{ scoreB: fixture("melodies/willow-bend") }, /willow-bend\.musicxml, bar \d+: it differs/],
    [{ handB: "small" }, /--hand-b: it is for B/],
    [{ score: "-", scoreB: "-" }, /standard input can be read once/],
    [{ scoreB: join("no", "such.musicxml") }, /no such file/],
  ])("%o", async (call, message) => {
    const page = join(folder, "none.html");
    await expect(runCompare({ score: PLAIN, report: page, ...call }, "0.0.0")).rejects.toThrow(message);
    expect(existsSync(page)).toBe(false);
  });
});
