// SPDX-License-Identifier: AGPL-3.0-or-later
// The tables of the handbook as a plain value: numbers from the model, facts of the trade with their grounds.
import {
  centsAt,
  cmFromBridge,
  DEFAULT_SCALE_LENGTH_CM,
  HUI_FRACTION,
  HUI_PARTIAL,
  harmonicCents,
  stopPosition,
  writtenPlace,
} from "../../src/model/board.js";
import { toneInWords } from "../../src/model/characters.js";
import { type KeyRank, rankKeys } from "../../src/model/key-ranking.js";
import { type OctaveNeighbours, octavePattern, type ZonePattern, zonePatterns } from "../../src/model/mode-pattern.js";
import { MODES, type Mode, openDegrees } from "../../src/model/modes.js";
import { DEGREES, pitchClassName, placesOnString, type Scale } from "../../src/model/note-table.js";
import { spell } from "../../src/model/pitch.js";
import { type Register, registers } from "../../src/model/registers.js";
import {
  COMPARISON_SOURCES,
  type ComparedBy,
  type Difference,
  HARMONIC_COMPARISONS,
  type HarmonicComparison,
  harmonicAgainstHarmonic,
  pureComparisons,
  RETUNING_COMPARISONS,
  STOP_COMPARISONS,
  type StopComparison,
  stopAgainstOpen,
} from "../../src/model/string-comparison.js";
import { centsOf, TEMPERAMENTS, type Temperament } from "../../src/model/temperament.js";
import { STANDARD, TUNINGS, type Tuning } from "../../src/model/tuning.js";
import { phrase, type Said } from "../../src/words.js";
import { CAUTION_FACTS, type CautionFact, STRING_NAMES } from "./cautions.js";
import { FINGER_FACTS, type FingerFact, SIGN_FACTS, type SignFact } from "./left-hand.js";
import { COMPOUND_FACTS, type CompoundFact, STROKE_FACTS, type StrokeFact } from "./right-hand.js";

/** A hui: where it lies, what a stop and what a touch there sound. Cents count from the open string. */
export interface HuiJson {
  readonly hui: number;
  readonly characters: string;
  /** vibrating part of the string as a fraction */
  readonly fraction: string;
  readonly cmFromBridge: number;
  readonly stoppedCents: number;
  readonly partial: number;
  readonly harmonicCents: number;
  /** cents by which the harmonic sounds above the nearest equal-tempered semitone */
  readonly harmonicOffCents: number;
}

/** Numbers by temperament. */
export type ByTemperament = Readonly<Record<Temperament, number>>;

/** Where a semitone above the open string lies. */
export interface SemitoneJson {
  readonly semitones: number;
  /** hui and tenths as usually written */
  readonly written: number;
  /** cents that the written place sounds above the open string */
  readonly cents: number;
  readonly cmFromBridge: number;
  /** exact place by temperament, counted from the open string as gong */
  readonly exact: ByTemperament;
  /** cents by which the written place sounds above the exact one */
  readonly offCents: ByTemperament;
}

/** A harmonic of the standard tuning; hui with the same partial sound alike. */
export interface HarmonicJson {
  readonly string: number;
  readonly hui: readonly number[];
  readonly pitch: string;
}

/** A row of a note-position table. */
export interface ScaleToneJson {
  readonly degree: string;
  readonly name: Said;
  readonly pitchClass: string;
  /** one of the five tones of the scale */
  readonly core: boolean;
  /** written places on string 1 to 7, from the nut up to hui 4; 14 is the open string */
  readonly places: readonly (readonly number[])[];
}

/** A tuning read on a gong. */
export interface ModeJson {
  readonly gong: string;
  readonly own: boolean;
  readonly evidence: Mode["evidence"];
  readonly source: Said;
  /** degrees of the open strings */
  readonly openDegrees: readonly string[];
  readonly tones: readonly ScaleToneJson[];
  readonly octave: readonly OctaveNeighbours[];
  readonly zones: readonly ZonePattern[];
}

/** A tuning with all its tables. */
export interface TuningJson {
  readonly name: string;
  readonly title: Said;
  readonly characters: Said;
  readonly alsoCalled: readonly string[];
  readonly change: Said;
  readonly note: Said | null;
  readonly strings: readonly string[];
  readonly registers: readonly Register[];
  /** open strings that farther strings sound open or at hui 10, 9, 7 */
  readonly pure: readonly StopComparison[];
  /** what old handbooks compare after the retuning */
  readonly retuning: readonly (StopComparison & { readonly differences: Differences })[];
  readonly keys: readonly KeyRank[];
  readonly modes: readonly ModeJson[];
}

/** Differences with open strings tuned in each temperament. */
export type Differences = Readonly<Record<Temperament, Difference>>;

/** The tables of the handbook. */
export interface HandbookJson {
  readonly scaleLengthCm: number;
  readonly strings: readonly { readonly number: number; readonly name: Said; readonly characters: Said }[];
  readonly hui: readonly HuiJson[];
  readonly semitones: readonly SemitoneJson[];
  readonly harmonics: readonly HarmonicJson[];
  readonly tunings: readonly TuningJson[];
  readonly comparison: {
    readonly sources: Readonly<Record<ComparedBy, Said>>;
    readonly stops: readonly (StopComparison & { readonly differences: Differences })[];
    readonly harmonics: readonly (HarmonicComparison & { readonly differences: Differences })[];
  };
  readonly strokes: readonly StrokeFact[];
  readonly compounds: readonly CompoundFact[];
  readonly fingers: readonly FingerFact[];
  readonly signs: readonly SignFact[];
  readonly cautions: readonly CautionFact[];
}

const HUI_CHARACTERS = ["一", "二", "三", "四", "五", "六", "七", "八", "九", "十", "十一", "十二", "十三"];
const ALL_HUI = HUI_CHARACTERS.map((_, i) => i + 1);

/** The temperament in which places are computed unless a call says otherwise. */
const USUAL: Temperament = "pythagorean";

/** The handbook's tables. Lengths hold for strings of 110 cm. */
export function handbookJson(): HandbookJson {
  return {
    scaleLengthCm: DEFAULT_SCALE_LENGTH_CM,
    strings: STRING_NAMES.map((one, i) => ({ number: i + 1, ...one })),
    hui: ALL_HUI.map(huiJson),
    semitones: Array.from({ length: 36 }, (_, i) => semitoneJson(i + 1)),
    harmonics: harmonicsOf(STANDARD),
    tunings: TUNINGS.map(tuningJson),
    comparison: {
      sources: COMPARISON_SOURCES,
      stops: STOP_COMPARISONS.map((one) => stopJson(STANDARD, one)),
      harmonics: HARMONIC_COMPARISONS.map((one) => ({
        ...one,
        differences: byTemperament((temperament) => rounded(harmonicAgainstHarmonic(STANDARD, one, temperament))),
      })),
    },
    strokes: STROKE_FACTS,
    compounds: COMPOUND_FACTS,
    fingers: FINGER_FACTS,
    signs: SIGN_FACTS,
    cautions: CAUTION_FACTS,
  };
}

const round = (value: number, digits: number): number => Number(value.toFixed(digits)) + 0;

function byTemperament<T>(compute: (temperament: Temperament) => T): Readonly<Record<Temperament, T>> {
  return Object.fromEntries(TEMPERAMENTS.map((one) => [one, compute(one)])) as Record<Temperament, T>;
}

const rounded = ({ octaves, cents }: Difference): Difference => ({ octaves, cents: round(cents, 1) });

/** The vibrating part at a hui as a fraction in lowest terms: all are eighths, sixths or fifths. */
function fractionWords(hui: number): string {
  const part = HUI_FRACTION[hui] as number;
  const under = [2, 3, 4, 5, 6, 8].find((n) => Math.abs(part * n - Math.round(part * n)) < 1e-9) as number;
  return `${Math.round(part * under)}/${under}`;
}

function huiJson(hui: number): HuiJson {
  const touched = harmonicCents(hui);
  return {
    hui,
    characters: HUI_CHARACTERS[hui - 1] as string,
    fraction: fractionWords(hui),
    cmFromBridge: round(cmFromBridge(hui, DEFAULT_SCALE_LENGTH_CM), 2),
    stoppedCents: round(centsAt(hui), 1),
    partial: HUI_PARTIAL[hui] as number,
    harmonicCents: round(touched, 1),
    harmonicOffCents: round(touched - 100 * Math.round(touched / 100), 1),
  };
}

function semitoneJson(semitones: number): SemitoneJson {
  const wanted = byTemperament((temperament) => centsOf(semitones, 0, temperament));
  const exact = byTemperament((temperament) => stopPosition(wanted[temperament]) as number);
  const written = writtenPlace(exact[USUAL], semitones);
  const cents = centsAt(written);
  return {
    semitones,
    written,
    cents: round(cents, 1),
    cmFromBridge: round(cmFromBridge(written, DEFAULT_SCALE_LENGTH_CM), 2),
    exact: byTemperament((temperament) => round(exact[temperament], 3)),
    offCents: byTemperament((temperament) => round(cents - wanted[temperament], 1)),
  };
}

function harmonicsOf(tuning: Tuning): readonly HarmonicJson[] {
  const partials = [...new Set(HUI_PARTIAL.slice(1))].sort((a, b) => a - b);
  return tuning.semitones.flatMap((open, i) =>
    partials.map((partial) => ({
      string: i + 1,
      hui: ALL_HUI.filter((hui) => HUI_PARTIAL[hui] === partial),
      pitch: spell(open + Math.round(12 * Math.log2(partial))),
    })),
  );
}

function stopJson(tuning: Tuning, one: StopComparison): StopComparison & { readonly differences: Differences } {
  return {
    ...one,
    differences: byTemperament((temperament) => rounded(stopAgainstOpen(tuning, one, temperament))),
  };
}

function tuningJson(tuning: Tuning): TuningJson {
  const { name, alsoCalled, change, note, strings } = tuning;
  return {
    name,
    title: phrase(tuning.title, tuning.simplified),
    characters: phrase(tuning.characters, tuning.simplified),
    ...{ alsoCalled, change, note, strings },
    registers: registers(tuning),
    pure: pureComparisons(tuning),
    retuning: (RETUNING_COMPARISONS[name] ?? []).map((one) => stopJson(tuning, one)),
    keys: rankKeys(tuning),
    modes: MODES.filter((mode) => mode.tuning === tuning).map(modeJson),
  };
}

/** Flat keys are spelled with flats. */
const hasFlats = (gong: number): boolean => [5, 10, 3, 8, 1].includes(gong);

function modeJson({ tuning, gong, own, evidence, source }: Mode): ModeJson {
  const scale: Scale = { tuning, gong, temperament: USUAL };
  const flats = hasFlats(gong);
  return {
    gong: pitchClassName(gong, flats),
    ...{ own, evidence, source },
    openDegrees: openDegrees(tuning, gong),
    tones: DEGREES.filter(({ name }) => name !== "" && name !== "rùn").map(({ semitones, degree, name, core }) => {
      const pitchClass = (gong + semitones) % 12;
      return {
        degree,
        name: toneInWords(name),
        core,
        pitchClass: pitchClassName(pitchClass, flats),
        places: tuning.strings.map((_, i) => placesOnString(pitchClass, i + 1, scale)),
      };
    }),
    octave: octavePattern(scale),
    zones: zonePatterns(scale),
  };
}
