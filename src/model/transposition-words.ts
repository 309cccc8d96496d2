// SPDX-License-Identifier: AGPL-3.0-or-later
import { Interval, Note } from "tonal";
import type { Transposition } from "./pitch.js";

const NUMBER_WORDS = ["", "unison", "second", "third", "fourth", "fifth", "sixth", "seventh", "octave"] as const;
const QUALITY_WORDS: Readonly<Record<string, string>> = {
  m: "minor ",
  M: "major ",
  P: "",
  A: "augmented ",
  d: "diminished ",
};

/** What leads from one pitch to another, both scientific. @example intervalBetween("D4", "D3") // { semitones: -12, interval: "-8P" } */
export function intervalBetween(from: string, to: string): Transposition {
  const interval = Interval.distance(from, to);
  return { interval, semitones: (Note.midi(to) ?? 0) - (Note.midi(from) ?? 0) };
}

/** A transposition in plain words. @example transpositionWords({ semitones: -7, interval: "-5P" }) // "a fifth lower" */
export function transpositionWords(transposition: Transposition): string {
  const { semitones } = transposition;
  if (semitones === 0) return "as written";
  const interval = Interval.get(transposition.interval);
  const number = Math.abs(interval.num);
  const octaves = Math.floor((number - 1) / 7);
  const rest = number - 7 * octaves;
  const parts = [
    ...(octaves === 0 ? [] : [octaves === 1 ? "an octave" : `${octaves === 2 ? "two" : octaves} octaves`]),
    ...(rest === 1 ? [] : [intervalWords(rest, interval.q)]),
  ];
  return `${parts.join(" and ")} ${semitones < 0 ? "lower" : "higher"}`;
}

function intervalWords(number: number, quality: string): string {
  const plain = `${number}${quality}`;
  if (plain === "2m") return "a semitone";
  if (plain === "2M") return "a whole tone";
  const words = `${QUALITY_WORDS[quality] ?? ""}${NUMBER_WORDS[number]}`;
  return `${/^[aeiou]/.test(words) ? "an" : "a"} ${words}`;
}
