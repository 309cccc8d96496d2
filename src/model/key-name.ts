// SPDX-License-Identifier: AGPL-3.0-or-later
// The key of a melody as it sounds, in words.
import { Interval } from "tonal";
import { type Phrase, phrase } from "../words.js";
import { fifthsAboveC } from "./scale-gong.js";
import type { Score } from "./score.js";
import type { Setting } from "./setting.js";

/** Tonics by fifths above C, from Fb up. */
const TONICS = "FCGDAEB";
/** Fifths by which a mode's tonic lies above that of the major key with the same signature. */
const MODE_FIFTHS: Readonly<Record<string, number>> = {
  ...{ major: 0, ionian: 0, lydian: -1, mixolydian: 1, dorian: 2 },
  ...{ minor: 3, aeolian: 3, phrygian: 4, locrian: 5 },
};
/** Names of the modes in Chinese. */
const MODE_NAMES: Readonly<Record<string, string>> = {
  ...{ major: "大调", minor: "小调", ionian: "伊奥尼亚调式", dorian: "多利亚调式", phrygian: "弗里吉亚调式" },
  ...{ lydian: "利底亚调式", mixolydian: "混合利底亚调式", aeolian: "爱奥利亚调式", locrian: "洛克里亚调式" },
};
/** No key is printed with more sharps than this. */
const MOST_ACCIDENTALS = 7;

/**
 * The key at the start as it sounds in a setting. Where the score prints no mode, both keys of the signature are named.
 *
 * @example keyName(score, setting) // "G minor", "F major or D minor"
 */
export function keyName(score: Score, setting: Pick<Setting, "transpose">): Phrase {
  const { fifths, mode } = score.bars[0]?.key ?? { fifths: 0, mode: null };
  const first = score.notes[0];
  const ofPart = first === undefined ? 0 : fifthsAboveC(first.sounding) - fifthsAboveC(first.written);
  const sounding = usual(fifths + ofPart + fifthsOf(setting.transpose.interval));
  const known = mode === null ? undefined : MODE_FIFTHS[mode];
  const [major, minor] = [tonic(sounding), tonic(sounding + 3)];
  if (mode === null || known === undefined)
    return phrase(`${major} major or ${minor} minor`, `${tonicInChinese(major)}大调或${tonicInChinese(minor)}小调`);
  const own = tonic(sounding + known);
  return phrase(`${own} ${mode}`, `${tonicInChinese(own)}${MODE_NAMES[mode] ?? mode}`);
}

/** A tonic with its accidental before it, as keys are named in Chinese. @example tonicInChinese("Eb") // "降E" */
function tonicInChinese(tonic: string): string {
  const [letter, accidental] = [tonic.charAt(0), tonic.slice(1)];
  return (ACCIDENTALS[accidental] ?? "") + letter;
}

const ACCIDENTALS: Readonly<Record<string, string>> = { b: "降", bb: "重降", "#": "升", "##": "重升" };

/** Fifths that an interval adds. */
function fifthsOf(interval: string): number {
  const { step, alt, dir } = Interval.get(interval);
  const steps = [0, 2, 4, -1, 1, 3, 5][step] as number;
  return dir * (steps + 7 * alt);
}

function usual(fifths: number): number {
  if (Math.abs(fifths) <= MOST_ACCIDENTALS) return fifths;
  return fifths > 0 ? fifths - 12 : fifths + 12;
}

function tonic(fifths: number): string {
  const at = fifths + 1;
  const letter = TONICS[((at % 7) + 7) % 7] as string;
  const alter = Math.floor(at / 7);
  return letter + (alter < 0 ? "b".repeat(-alter) : "#".repeat(alter));
}
