// SPDX-License-Identifier: AGPL-3.0-or-later
// A ranking with everything that a page can show: retuned strings, moved phrases, what cannot be played.

import { NO_BRIEF } from "../../src/model/brief.js";
import { inScale } from "../../src/model/moments.js";
import { parseTransposition, type Transposition } from "../../src/model/pitch.js";
import { TUNINGS } from "../../src/model/tuning.js";
import { assembleFit } from "../../src/report/assemble-fit.js";
import type { Fit } from "../../src/report/fit.js";
import { rankSettings } from "../../src/search/ranking.js";
import { type InLanguage, inLanguage } from "../../src/words.js";
import { bookFor, settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

/** A low phrase, one that leaves the board, and one between. */
const MELODY = "D3 A3 G3 F3:2 r C6 A5 G5 A5:2 r E6 r D3 F3 A3 D3:2";

/** Ranks the sample melody in five tunings and three octaves, with phrases moved. */
export function sampleFit(): InLanguage<Fit> {
  const score = { ...shortScore(MELODY), title: "Three <phrases>", file: "three phrases.musicxml" };
  const tunings = TUNINGS.slice(0, 5);
  const octaves = [12, 0, 2].map((semitones) => parseTransposition(String(semitones), 0) as Transposition);
  const own = inScale(settingOf(), score);
  const field = { score, tunings, octaves: true, top: 20 };
  const ranking = rankSettings({ ...field, own, transpositions: octaves, brief: NO_BRIEF, bookFor });
  if (ranking.own instanceof Error) throw ranking.own;
  return inLanguage(
    assembleFit({ ...ranking, own: ranking.own }, { ...field, keepKey: false, version: "0.0.0" }),
    "en",
  );
}
