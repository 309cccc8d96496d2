// SPDX-License-Identifier: AGPL-3.0-or-later
// The bars of findings: parts of the lines of music that the page shows, with the finding's own notes marked.
import { describe, expect, it } from "vitest";
import { type ExcerptView, excerptsFrom } from "../../reports/check-excerpts.js";
import { MOST_BYTES, renderCheckPage } from "../../reports/check-page.js";
import { type EngravedMusic, engraveReport } from "../../src/engrave/music.js";
import type { FindingJson, Report } from "../../src/report.js";
import { judge } from "../../src/run/judge.js";
import { inWords } from "../../src/words.js";
import { readMelody } from "../support/melodies.js";
import { settingOf } from "../support/playing.js";
import { sampleReport } from "./sample.js";

const sample = sampleReport();
const drawn = await engraveReport(sample);
const melody = judge(readMelody("auld-lang-syne"), settingOf(), "0.0.0");
const melodyDrawn = await engraveReport(melody);
const open = ({ json }: Report): readonly FindingJson[] =>
  json.findings.filter((finding) => finding.status === "open" && finding.followsFrom === null);

/** Where each note's cell stands in the drawing of a line, read from its markup. */
function cellsIn(music: EngravedMusic, line: string): ReadonlyMap<string, { readonly x: number; readonly y: number }> {
  const svg = music.systems.find(({ svg }) => svg.includes(`id="${line.slice(1)}"`))?.svg ?? "";
  return new Map(
    [...svg.matchAll(/<use class="cell" data-note="([^"]+)" href="[^"]+" x="([-\d.]+)" y="([-\d.]+)"/g)].map(
      ([, note, x, y]) => [note as string, { x: Number(x), y: Number(y) }],
    ),
  );
}

/** The notes of a line whose cells lie in a frame of a picture. */
function framed(music: EngravedMusic, { frames, windows }: ExcerptView): readonly string[] {
  const row = windows.at(-1) as ExcerptView["windows"][number];
  const [left, top] = row.viewBox.split(" ").map(Number) as [number, number];
  return [...frames.matchAll(/M(\d+) (\d+)h(\d+)v(\d+)/g)].flatMap(([, ...box]) => {
    const [x, y, width, height] = box.map(Number) as [number, number, number, number];
    const [fromX, fromY] = [x - row.x + left, y - row.y + top];
    return [...cellsIn(music, row.line)].flatMap(([note, cell]) =>
      cell.x >= fromX && cell.x < fromX + width && cell.y >= fromY && cell.y < fromY + height ? [note] : [],
    );
  });
}

describe.each([
  ["the sample", sample, drawn],
  ["a melody", melody, melodyDrawn],
] as const)("of %s", (_, report, music) => {
  const excerptsOf = excerptsFrom(report, music);
  const barOf = new Map(report.score.notes.map(({ id, bar }) => [id, bar]));

  it.each(open(report).map((finding) => [finding.id, finding] as const))("%s: its bars, its notes", (_id, finding) => {
    const excerpts = excerptsOf(finding);
    const bars = [...new Set(finding.notes.map((note) => barOf.get(note) as number))];
    expect(excerpts.map(({ number }) => number)).toEqual(bars.map((bar) => report.score.bars[bar]?.label));
    expect(excerpts.flatMap((one) => framed(music, one)).sort()).toEqual([...finding.notes].sort());
    expect(excerpts.flatMap(({ shapes }) => shapes.map(({ severity }) => severity))).toEqual(
      finding.notes.length === 0 ? [] : [finding.severity],
    );
    for (const { label, number } of excerpts) {
      expect(inWords(label, "en")).toMatch(new RegExp(`^Bar ${number}: .+\\. Marked: beat [\\d.]+`));
      expect(inWords(label, "zh")).toMatch(new RegExp(`^第${number}小节：.+。标出：第[\\d.]+拍`));
    }
  });
});

it("a clef stands before a bar that has none of its own, not before one that follows on", () => {
  const [first, second, third] = ["4", "5", "6"].map(
    (bar) => sample.score.notes.find((note) => sample.score.bars[note.bar]?.label === bar)?.id ?? "",
  ) as [string, string, string];
  const base = open(sample)[0] as FindingJson;
  const excerpts = excerptsFrom(sample, drawn)({ ...base, notes: [first, second, third] });
  const isStart = (bar: number): boolean => drawn.systems.some((system) => system.bars[0]?.bar === bar);
  expect(excerpts.map(({ windows }) => windows.length)).toEqual([isStart(3) ? 2 : 3, 2, 2]);
});

it("a long finding is shown by its last three bars", () => {
  const base = open(sample)[0] as FindingJson;
  const notes = sample.score.notes.filter(({ bar }) => bar < 9).map(({ id }) => id);
  expect(excerptsFrom(sample, drawn)({ ...base, notes }).map(({ number }) => number)).toEqual(["7", "8", "9"]);
});

it("without a staff there is none", () => {
  const excerptsOf = excerptsFrom(sample, { ...drawn, systems: [] });
  expect(open(sample).flatMap(excerptsOf)).toEqual([]);
});

it("ids of the lines stand once on the page, and all links to them lead there", async () => {
  const page = await renderCheckPage(sample, drawn);
  const ids = [...page.matchAll(/id="(line-\d+)"/g)].map(([, id]) => id);
  expect(ids).toEqual(drawn.systems.map((_, i) => `line-${i + 1}`));
  const used = [...page.matchAll(/<use href="#(line-\d+)"/g)].map(([, id]) => id as string);
  expect(used.length).toBeGreaterThan(10);
  expect(used.filter((id) => !ids.includes(id))).toEqual([]);
});

it("a page that would be too large goes without, and says so", async () => {
  const whole = await renderCheckPage(sample, drawn);
  const said = "this page would be too large to mail";
  expect(whole).not.toContain(said);
  const bare = await renderCheckPage(sample, drawn, "en", Buffer.byteLength(whole) - 1);
  expect(bare).toContain(said);
  expect(bare).not.toContain('class="excerpt"');
  expect(await renderCheckPage(sample, drawn, "zh", 1)).toContain("本页会大得难以邮寄");
  expect(MOST_BYTES).toBe(2_000_000);
});

it("64 bars with all their findings stay within 900 KB", async () => {
  const long = sampleReport(4);
  const page = await renderCheckPage(long, await engraveReport(long));
  expect(page).toContain('class="excerpt"');
  expect(Buffer.byteLength(page)).toBeLessThan(900_000);
});
