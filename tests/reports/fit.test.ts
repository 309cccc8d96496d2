// SPDX-License-Identifier: AGPL-3.0-or-later
// What `fit` says: the value, the terminal, the page.
import { describe, expect, test } from "vitest";
import { renderFitPage } from "../../reports/fit-page.js";
import { fitSummary } from "../../reports/fit-text.js";
import { commandWords } from "../../reports/fit-words.js";
import { sampleFit } from "./sample-fit.js";

const fit = sampleFit();
const AGAIN = { score: "three phrases.musicxml", options: ["--hand", "small"] };

describe("the sample", () => {
  test("holds what the outputs are to show", () => {
    const { settings } = fit.json;
    expect(settings.some(({ octaveMoves }) => octaveMoves.length > 0)).toBe(true);
    expect(settings.some(({ retune }) => retune.length > 0)).toBe(true);
    expect(settings.some(({ total }) => total.blocked > 0)).toBe(true);
  });

  test("is ranked by what cannot be played, then by effort", () => {
    const totals = fit.json.settings.map(({ total }) => total.blocked * 1e6 + total.effort);
    expect(totals).toEqual([...totals].sort((a, b) => a - b));
    expect(fit.json.settings.map(({ rank }) => rank)).toEqual(totals.map((_, i) => i + 1));
  });

  test("names a moved phrase by its bars and its way", () => {
    const moved = fit.json.settings.find(({ octaveMoves }) => octaveMoves.length > 0);
    const [move] = moved?.octaveMoves ?? [];
    expect(move?.octaves).toBe(-1);
    expect(moved?.reasons).toContain(
      `The phrase in ${move?.bars.includes("-") ? "bars" : "bar"} ${move?.bars} is played an octave lower.`,
    );
  });

  test("says what cannot be played and why", () => {
    const stuck = fit.json.settings.find(({ total, octaveMoves }) => total.blocked === 1 && octaveMoves.length === 0);
    const reasons = fit.json.settings.flatMap((setting) => setting.reasons);
    expect(stuck?.reasons[0] ?? reasons.find((reason) => String(reason).includes("cannot be played"))).toMatch(
      /^\d+ notes? cannot be played: \d+ above the highest sound of the board\.$/,
    );
  });
});

test("the terminal has the answer, the order, the command, the page", () => {
  const text = fitSummary(fit, AGAIN, { report: "x.fit.html", json: null });
  const lines = text.trimEnd().split("\n");
  expect(lines[0]).toBe("Three <phrases>");
  expect(lines[1]).toBe(`${fit.sentence} ${fit.beside}`);
  expect(lines.at(-1)).toBe("Page: x.fit.html");
  expect(text).toContain(`huipath check 'three phrases.musicxml' --tuning ${fit.json.settings[0]?.tuning}`);
  expect(text).toContain("--hand small");
  expect(text).toContain("left out");
});

test("a command quotes what a shell would take apart", () => {
  const [first] = fit.entries;
  if (first === undefined) throw new Error("no settings");
  expect(commandWords(first, { score: "it's.xml", options: [] }).join(" ")).toMatch(
    /^huipath check 'it'\\''s\.xml' --tuning \w+ --transpose -?\d+$/,
  );
});

test("the page shows every setting, with a picture for each, and prints no text of the score as markup", async () => {
  const page = await renderFitPage(fit, AGAIN);
  expect(page).toContain("Three &lt;phrases&gt;");
  expect(page).not.toContain("<phrases>");
  const pictures = page.match(/<svg class="range"/g) ?? [];
  expect(pictures.length).toBe(fit.entries.length + 1);
  const ids = [...page.matchAll(/\sid="([^"]+)"/g)].map((match) => match[1]);
  expect(new Set(ids).size).toBe(ids.length);
  for (const { reasons } of fit.json.settings)
    for (const reason of reasons) expect(page).toContain(String(reason).replaceAll("'", "&#x27;"));
  expect(page).toContain("Move the phrases named above by their octaves in the score first.");
});
