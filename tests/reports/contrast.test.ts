// SPDX-License-Identifier: AGPL-3.0-or-later
// Contrast of the page's colours, by the formula of WCAG 2.2 (relative luminance and contrast ratio, success criteria
// 1.4.3 and 1.4.11; https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio).
import { readFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";

const css = await readFile(new URL("../../reports/style/base.css", import.meta.url), "utf8");

/** Day and night value of every colour variable. */
const palette = new Map(
  [...css.matchAll(/--(\w+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\)/g)].map(([, name, day, night]) => [
    name as string,
    [day as string, night as string] as const,
  ]),
);

function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const channel = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return channel <= 0.04045 ? channel / 12.92 : ((channel + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

describe("contrast", () => {
  it("is computed as WCAG defines it", () => {
    expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 5);
    // #767676 on white is the well-known grey that just passes 4.5 (from memory).
    expect(contrast("#767676", "#ffffff")).toBeCloseTo(4.54, 2);
  });

  const texts = ["text", "soft", "link", "blocker", "problem", "caution", "note"];
  it.each(texts.flatMap((text) => ["ground", "raised"].map((ground) => [text, ground])))(
    "of %s on %s is at least 4.5 by day and by night",
    (text, ground) => {
      for (const theme of [0, 1] as const) {
        const [a, b] = [palette.get(text as string)?.[theme], palette.get(ground as string)?.[theme]];
        if (a === undefined || b === undefined) throw new Error(`no colour ${text} or ${ground}`);
        expect(contrast(a, b)).toBeGreaterThanOrEqual(4.5);
      }
    },
  );
});
