// SPDX-License-Identifier: AGPL-3.0-or-later
// A tuning is read on a gong, and some on more than one: the modes for which players know the places of the scale.
import { phrase, type Said } from "../words.js";
import { DEGREES, degreeAbove } from "./note-table.js";
import { parsePitch, semitoneOf } from "./pitch.js";
import { findTuning, TUNINGS, type Tuning } from "./tuning.js";

/** A tuning with the pitch on which its scale is read. */
export interface Mode {
  readonly tuning: Tuning;
  /** pitch class of gong (1, the major tonic), 0 = C */
  readonly gong: number;
  /** whether it is the tuning's own gong; else a second reading */
  readonly own: boolean;
  readonly evidence: "published" | "computed" | "from memory";
  /** who reads it so, or how it was computed */
  readonly source: Said;
}

const OWN_SOURCE = phrase(
  "J. Thompson, silkqin.com, studies of the 1425 and 1525 handbooks and of the 39 tunings; Ling Tingkan, Yanyue kaoyuan",
  "J. Thompson，silkqin.com，对1425年、1525年琴谱和三十九种定弦的研究；凌廷堪《燕乐考原》",
);

/** Gong of tunings of which both pitches and gong are from memory. */
const FROM_MEMORY: ReadonlySet<string> = new Set(["ceshang", "wumei"]);

const SECOND_READINGS: readonly (readonly [tuning: string, gong: string, Mode["evidence"], source: Said])[] = [
  [
    "zhengdiao",
    "C",
    "published",
    phrase("J. Thompson, silkqin.com, 08anal/tuning.htm", "J. Thompson，silkqin.com，08anal/tuning.htm"),
  ],
  [
    "manshang",
    "C",
    "published",
    phrase(
      "J. Thompson, silkqin.com, on the 1425 and 1525 handbooks: degrees counted on C",
      "J. Thompson，silkqin.com，论1425年与1525年琴谱：以C为宫",
    ),
  ],
  [
    "yunu",
    "C",
    "published",
    phrase(
      "J. Thompson, silkqin.com, on the 1525 handbook: degrees counted on C",
      "J. Thompson，silkqin.com，论1525年琴谱：以C为宫",
    ),
  ],
  [
    "qiliang",
    "Eb",
    "computed",
    phrase("as many open strings in the five-note scale as on Bb", "落在五声上的散音与以Bb为宫时一样多"),
  ],
  [
    "qingdiao",
    "Eb",
    "computed",
    phrase("as many open strings in the five-note scale as on Bb", "落在五声上的散音与以Bb为宫时一样多"),
  ],
  [
    "wumei",
    "C",
    "from memory",
    phrase("as many open strings in the five-note scale as on G", "落在五声上的散音与以G为宫时一样多"),
  ],
];

const pitchClass = (name: string): number => {
  const pitch = parsePitch(`${name}4`);
  if (pitch === null) throw new RangeError(`no pitch: ${name}`);
  return semitoneOf(pitch) % 12;
};

/** Every named tuning on its own gong, each followed by its second readings. */
export const MODES: readonly Mode[] = TUNINGS.flatMap((tuning): readonly Mode[] => [
  {
    tuning,
    gong: tuning.gong,
    own: true,
    ...(FROM_MEMORY.has(tuning.name)
      ? { evidence: "from memory", source: phrase("no source read for these pitches", "这些音高未查到出处") }
      : { evidence: "published", source: OWN_SOURCE }),
  },
  ...SECOND_READINGS.filter(([name]) => findTuning(name) === tuning).map(([, gong, evidence, source]) => ({
    tuning,
    gong: pitchClass(gong),
    own: false,
    evidence,
    source,
  })),
]);

/** The scale degree of every open string. @example openDegrees(STANDARD, 5) // ["5", "6", "1", "2", "3", "5", "6"] */
export function openDegrees({ semitones }: Tuning, gong: number): readonly string[] {
  return semitones.map((open) => {
    const above = degreeAbove(open, gong);
    return (DEGREES.find((degree) => degree.semitones === above) as (typeof DEGREES)[number]).degree;
  });
}
