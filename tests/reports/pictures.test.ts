// SPDX-License-Identifier: AGPL-3.0-or-later
// How the pictures draw what they are given.

import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { barAnchors } from "../../reports/anchors.js";
import { renderCheckPage } from "../../reports/check-page.js";
import { viewPictures } from "../../reports/check-pictures.js";
import { axisRows, momentsByBar, ROW_LEFT, ROW_WIDTH } from "../../reports/check-pictures-axis.js";
import { boardX, radius, usedPlaces } from "../../reports/check-pictures-board.js";
import { waits } from "../../reports/check-pictures-lanes.js";
import { Sketch } from "../../reports/sketch.js";
import { engraveReport } from "../../src/engrave/music.js";
import { cmFromBridge } from "../../src/model/board.js";
import { readScore } from "../../src/read/score.js";
import { judge } from "../../src/run/judge.js";
import { inLanguage } from "../../src/words.js";
import { lengthened } from "../support/long-scores.js";
import { readMelody } from "../support/melodies.js";
import { settingOf } from "../support/playing.js";
import { sampleReport } from "./sample.js";

/** The section of the pictures out of a page. */
function sectionOf(html: string): string {
  const from = html.indexOf('<section id="pictures"');
  return html.slice(from, html.indexOf("</section>", from));
}

/** Points at which the marks of a kind begin. */
function marks(paths: readonly { readonly kind: string; readonly d: string }[], kind: string): readonly number[] {
  const path = paths.find((one) => one.kind === kind)?.d ?? "";
  return [...path.matchAll(/M([\d.]+)/g)].map(([, x]) => Number(x));
}

describe("the board", () => {
  // Zhu Fengjie, Yuguzhai qinpu (1855), section v29: eighths, sixths and fifths of the string.
  const HUI = [1 / 8, 1 / 6, 1 / 5, 1 / 4, 1 / 3, 2 / 5, 1 / 2, 3 / 5, 2 / 3, 3 / 4, 4 / 5, 5 / 6, 7 / 8];

  test("has the hui where the string is divided, hui 1 at the right", () => {
    const [nut, bridge] = [boardX(110, 110), boardX(0, 110)];
    expect(bridge).toBeGreaterThan(nut);
    HUI.forEach((fraction, i) => {
      const x = boardX(cmFromBridge(i + 1, 110), 110);
      expect((bridge - x) / (bridge - nut)).toBeCloseTo(fraction, 10);
    });
  });

  test("counts every placed note once and draws areas as the uses", () => {
    const { pictures, json } = sampleReport();
    const places = usedPlaces(pictures);
    const placed = json.fingering.notes.filter(({ sound }) => sound !== null);
    expect(places.reduce((sum, { uses }) => sum + uses, 0)).toBe(placed.length);
    const areas = places.map(({ uses }) => radius(uses, places) ** 2 / uses);
    for (const area of areas) expect(area).toBeCloseTo(areas[0] as number, 10);
  });

  test("lists the bars of every place", () => {
    const report = sampleReport();
    for (const { string, sound, position, bars } of usedPlaces(report.pictures)) {
      const own = report.json.fingering.notes.filter(
        (note) => note.string === string && note.sound === sound && note.position === position,
      );
      expect(bars.map((bar) => report.score.bars[bar]?.label)).toEqual([...new Set(own.map(({ bar }) => bar))]);
    }
  });
});

describe.each([1, 4, 25])("the strip of %i times sixteen bars", (times) => {
  const report = sampleReport(times);
  const rows = axisRows(report.score, momentsByBar(report.score, report.pictures.moments));

  test("has every bar once, in order, within its row, wide enough to be hit", () => {
    expect(rows.flatMap(({ bars }) => bars.map(({ index }) => index))).toEqual(
      report.score.bars.map(({ index }) => index),
    );
    for (const { bars } of rows) {
      expect(bars[0]?.x).toBe(ROW_LEFT);
      for (const { x, width } of bars) {
        expect(width).toBeGreaterThanOrEqual(24);
        expect(x + width).toBeLessThanOrEqual(ROW_WIDTH);
      }
    }
  });

  test("has every moment in its bar, none on another", () => {
    for (const { bars, moments } of rows) {
      for (const { moment, x } of moments) {
        const bar = bars.find(({ index }) => index === moment.bar);
        expect(x).toBeGreaterThan(bar?.x ?? Number.NaN);
        expect(x).toBeLessThanOrEqual((bar?.x ?? 0) + (bar?.width ?? 0));
      }
      moments.slice(1).forEach(({ x }, i) => {
        expect(x - (moments[i]?.x ?? 0)).toBeGreaterThan(4);
      });
    }
  });

  test("links every bar above its row and in the table", () => {
    const { strip } = viewPictures(report);
    const hrefs = barAnchors(report.score).map((anchor) => `#${anchor}`);
    expect(
      strip.parts.flatMap(({ rows: drawn }) => drawn).flatMap(({ links }) => links.map(({ href }) => href)),
    ).toEqual(hrefs);
    expect(strip.bars.map(({ href }) => href)).toEqual(hrefs);
  });

  test("draws one mark a stroke and one cross a break", () => {
    const { strip } = viewPictures(report);
    const paths = strip.parts.flatMap(({ rows: drawn }) => drawn).map(({ drawing }) => drawing.paths);
    const drawn = (kind: string): number => paths.reduce((sum, one) => sum + marks(one, kind).length, 0);
    const strokes = report.pictures.moments.flatMap(({ stroke }) => stroke ?? []);
    const single = strokes.filter(({ compound }) => compound === null);
    expect(drawn("closing")).toBe(single.filter(({ direction }) => direction === "closing").length);
    expect(drawn("opening")).toBe(single.filter(({ direction }) => direction === "opening").length);
    expect(drawn("ball") + drawn("ball-closing")).toBe(strokes.length - single.length);
    expect(drawn("break")).toBe(strokes.filter(({ breakEffort }) => breakEffort > 0).length);
    expect(drawn("pluck")).toBe(
      report.pictures.moments.reduce((sum, { stroke, places }) => sum + (stroke === null ? 0 : places.length), 0),
    );
  });

  test("lets the finger wait over every stroke during which the notes have it wait", () => {
    for (const { moments } of rows) {
      const plucks = moments.filter(({ moment }) => moment.stroke !== null);
      const found = waits(plucks);
      for (const { moment, x } of plucks) {
        const over = found.filter(({ string, fromX, toX }) => string === moment.planted && fromX < x && x < toX);
        expect(over).toHaveLength(moment.planted === null ? 0 : 1);
      }
    }
  });

  test("draws columns as high as the effort of their bars", () => {
    const { strip } = viewPictures(report);
    const sums = strip.parts
      .flatMap(({ rows: drawn }) => drawn)
      .flatMap(({ drawing }) =>
        drawing.texts
          .filter(({ kind }) => kind === "sum")
          .flatMap(({ words }) => words.map(({ text }) => Number(text))),
      );
    const efforts = report.pictures.bars.map(({ effort }) => effort).filter((effort) => effort > 0);
    expect(sums).toEqual(efforts.map((effort) => Math.round(100 * effort) / 100));
  });
});

test("the rows of a long piece are folded, none is lost", () => {
  const { strip } = viewPictures(sampleReport(25));
  const [open, folded] = strip.parts;
  expect([open?.folded, open?.rows.length, folded?.folded]).toEqual([false, 8, true]);
  const first = Number(open?.rows.at(-1)?.links.at(-1)?.label) + 1;
  expect(inLanguage({ bars: folded?.label }, "zh").bars).toBe(`第${first}至400小节`);
});

test("a sketch joins what is drawn in one line", () => {
  const sketch = new Sketch();
  sketch.line("way", 0, 0, 10, 0);
  sketch.line("way", 10, 0, 20, 5);
  sketch.line("way", 30, 5, 40.04, 5.06);
  sketch.dot("point", 1, 2);
  expect(sketch.drawing(["point"])).toEqual({
    paths: [
      { kind: "point", d: "M1 2h0" },
      { kind: "way", d: "M0 0H10L20 5M30 5L40 5.1" },
    ],
    texts: [],
  });
});

describe("in the page", () => {
  const render = async (language: "en" | "zh"): Promise<string> => {
    const report = sampleReport();
    return sectionOf(await renderCheckPage(report, await engraveReport(report), language));
  };

  test.each(["en", "zh"] as const)(
    "every picture has a title, a description and a table behind it: %s",
    async (language) => {
      const section = await render(language);
      const pictures = [...section.matchAll(/<svg [^>]*role="img" aria-labelledby="(\S+) (\S+)">/g)];
      expect(pictures.length).toBeGreaterThan(2);
      for (const [, title, description] of pictures) {
        expect(section).toMatch(
          new RegExp(`<title id="${title}">[^<]{4,}</title><desc id="${description}">[^<]{20,}</desc>`),
        );
      }
      expect(section.split("<table")).toHaveLength(4);
      expect(section).not.toMatch(/undefined|NaN|null/);
    },
  );

  test("says the odd strings and the worst bars in words", async () => {
    const section = await render("en");
    expect(section).toContain("string 3: 10.8");
    const { bars } = sampleReport().pictures;
    const dearest = Math.max(...bars.map(({ effort }) => effort));
    const at = bars.findIndex(({ effort }) => effort === dearest);
    expect(section).toContain(`<a href="#bar-${at + 1}">bar ${at + 1}</a> <b>${dearest}</b>`);
  });

  // A budget of the project, not of any outside source: of a real melody, four times over, and of more bars than 64.
  test("takes less than 60 KB for 64 bars", async () => {
    const text = readFileSync(new URL("../../fixtures/melodies/market-morning.musicxml", import.meta.url), "utf8");
    const unending = text.replace(/<(repeat|ending)\b[^>]*\/>/g, "").replace(/<ending\b[^>]*>.*?<\/ending>/g, "");
    const long = lengthened(unending, (4 * unending.length - 2e3) / 1e6);
    const { score } = readScore(new TextEncoder().encode(long), "long.musicxml");
    expect(score.bars.length).toBeGreaterThanOrEqual(64);
    const report = judge(score, settingOf(), "0.0.0");
    const section = sectionOf(await renderCheckPage(report, await engraveReport(report)));
    expect((section.length * 64) / score.bars.length).toBeLessThan(60_000);
  });
});

test("a melody in which nothing can be placed on the board has its pictures, too", () => {
  const melody = readMelody("two-bells");
  const { pictures, ...report } = judge(melody, settingOf(), "0.0.0");
  const moments = pictures.moments.map((moment) => ({
    ...moment,
    places: [],
    stroke: null,
    planted: null,
    travelCm: 0,
  }));
  const { board, strip } = viewPictures({ ...report, pictures: { ...pictures, moments } });
  expect(board.places).toEqual([]);
  expect(strip.parts).toHaveLength(1);
  expect(JSON.stringify([board.drawing, strip.parts])).not.toMatch(/NaN|null/);
});
