// SPDX-License-Identifier: AGPL-3.0-or-later
// Reading takes time in proportion to the score's length, and not much more than building its element tree. Processor
// time with wide margins: what is to be seen is work that grows with the square of the notes.
import { expect, test } from "vitest";
import { readScore } from "../../src/read/score.js";
import { parseXml } from "../../src/read/xml.js";
import { cpuMs, lengthened } from "../support/long-scores.js";
import { fixture } from "./helpers.js";

const FILE = "four-walks-round-the-pond.musicxml";
const SOURCE = new TextDecoder().decode(fixture(`melodies/${FILE}`));
const RUNS = 5;
const [SHORT_MB, LONG_MB] = [0.25, 1];

test("four times the score takes about four times as long, and a few times the element tree", () => {
  const [short, long] = [SHORT_MB, LONG_MB].map((size) => lengthened(SOURCE, size)) as [string, string];
  const reading = (text: string): number => {
    const bytes = new TextEncoder().encode(text);
    return cpuMs(() => readScore(bytes, FILE, { bars: "#1-#64" }), RUNS);
  };
  const [ofShort, ofLong] = [reading(short), reading(long)];
  // A step that compares every note with every other would make it sixteen times.
  expect(ofLong / ofShort).toBeLessThan(9);
  expect(ofLong / cpuMs(() => parseXml(long, FILE), RUNS)).toBeLessThan(8);
});
