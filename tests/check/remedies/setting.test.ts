// SPDX-License-Identifier: AGPL-3.0-or-later
// Another tuning or transposition: the melody checked in it costs what the remedy says.
import { expect, test } from "vitest";
import { inScale } from "../../../src/model/moments.js";
import { parseTransposition, type Transposition } from "../../../src/model/pitch.js";
import type { Score } from "../../../src/model/score.js";
import type { Setting } from "../../../src/model/setting.js";
import { transpositionWords } from "../../../src/model/transposition-words.js";
import { TUNINGS } from "../../../src/model/tuning.js";
import { inWords } from "../../../src/words.js";
import { readMelody } from "../../support/melodies.js";
import { play, settingOf } from "../../support/playing.js";
import { expectKept, remedied, remedyFor, triedAgainst } from "../../support/remedies.js";
import { shortScore } from "../../support/shorthand.js";

/** The setting that a remedy's words name. */
function named(text: string, score: Score): Setting {
  const change = text.split(" But then:")[0] as string;
  const tuning = TUNINGS.find(({ title }) => change.toLowerCase().includes(`tune to ${title}`))?.name ?? "zhengdiao";
  const transposes = Array.from({ length: 97 }, (_, i) =>
    parseTransposition(String(i - 48), score.bars[0]?.key.fifths ?? 0),
  );
  const moved = transposes.find(
    (one) => one !== null && change.includes(`whole melody ${inWords(transpositionWords(one), "en")}`),
  );
  const none: Transposition = { semitones: 0, interval: "1P" };
  return inScale({ ...settingOf({ tuning }), transpose: moved ?? none }, score);
}

const DULL = shortScore(Array.from({ length: 4 }, () => "Bb2 Eb3 Bb3 Ab3").join(" "));

test("a melody without open strings goes where they are", () => {
  const line = remedied(DULL);
  const remedy = remedyFor(line, "few-open-strings");
  expect(inWords(remedy.text, "en")).toMatch(/^(Tune to|Play the whole melody) .+\.$/);
  expectKept(remedy, play(DULL, named(inWords(remedy.text, "en"), DULL)), "few-open-strings");
});

test.each(["auld-lang-syne", "lark-above-the-roof", "frere-jacques"])("what is named for %s holds", (name) => {
  const score = readMelody(name);
  const rule = name === "lark-above-the-roof" ? "above-the-board" : "few-open-strings";
  const remedy = remedyFor(remedied(score), rule);
  expectKept(remedy, play(score, named(inWords(remedy.text, "en"), score)), rule);
});

test("a line that can be played does not move for a matter of taste where that costs more", () => {
  const { tried, verdicts } = remedied(readMelody("four-walks-round-the-pond"));
  for (const [finding, { remedy }] of tried)
    if (finding.severity !== "blocker" && /^(Tune to|Play the whole melody)/.test(inWords(remedy?.text ?? "", "en")))
      expect(remedy?.after.effort).toBeLessThanOrEqual(verdicts.total.effort);
});

test("what was written for the old setting is set free in the new one", () => {
  const given = Array.from({ length: 16 }, (_, i) => ["da 8.5 tiao 4", "da 7.6 mo 6"][i % 2] as string);
  const melody = Array.from({ length: 8 }, () => "Eb3 Bb3").join(" ");
  const score = shortScore(melody, given);
  const remedy = remedyFor(remedied(score), "few-open-strings");
  expectKept(remedy, play(shortScore(melody), named(inWords(remedy.text, "en"), score)), "few-open-strings");
});

test("a range that no setting holds has none", () => {
  const line = remedied(shortScore("C2 C7 D7"));
  expect(inWords(triedAgainst(line, "above-the-board").remedy?.text ?? "", "en")).not.toMatch(/whole melody|Tune to/);
});
