// SPDX-License-Identifier: AGPL-3.0-or-later
import { Interval, Note } from "tonal";
import { joined, type Phrase, phrase, phraseOf } from "../words.js";
import type { Transposition } from "./pitch.js";

const NUMBER_WORDS = ["", "unison", "second", "third", "fourth", "fifth", "sixth", "seventh", "octave"] as const;
const QUALITY_WORDS: Readonly<Record<string, string>> = {
  m: "minor ",
  M: "major ",
  P: "",
  A: "augmented ",
  d: "diminished ",
};
const NUMBERS_IN_CHINESE = ["", "同度", "二度", "三度", "四度", "五度", "六度", "七度", "八度"] as const;
const QUALITIES_IN_CHINESE: Readonly<Record<string, string>> = { m: "小", M: "大", P: "", A: "增", d: "减" };

/** What leads from one pitch to another, both scientific. @example intervalBetween("D4", "D3") // { semitones: -12, interval: "-8P" } */
export function intervalBetween(from: string, to: string): Transposition {
  const interval = Interval.distance(from, to);
  return { interval, semitones: (Note.midi(to) ?? 0) - (Note.midi(from) ?? 0) };
}

/** A transposition in plain words. @example transpositionWords({ semitones: -7, interval: "-5P" }) // "a fifth lower", "低五度" */
export function transpositionWords(transposition: Transposition): Phrase {
  const { semitones } = transposition;
  if (semitones === 0) return phrase("as written", "原谱音高");
  const interval = Interval.get(transposition.interval);
  const number = Math.abs(interval.num);
  const octaves = Math.floor((number - 1) / 7);
  const rest = number - 7 * octaves;
  const parts = [
    ...(octaves === 0 ? [] : [octaveWords(octaves, rest === 1)]),
    ...(rest === 1 ? [] : [intervalWords(rest, interval.q)]),
  ];
  const far = joined(parts, phrase(" and ", "又"));
  return phraseOf({
    en: (say) => `${say(far)} ${semitones < 0 ? "lower" : "higher"}`,
    zh: (say) => `${semitones < 0 ? "低" : "高"}${say(far)}`,
  });
}

function octaveWords(octaves: number, alone: boolean): Phrase {
  if (octaves === 1) return phrase("an octave", alone ? "八度" : "一个八度");
  return octaves === 2 ? phrase("two octaves", "两个八度") : phrase(`${octaves} octaves`, `${octaves}个八度`);
}

function intervalWords(number: number, quality: string): Phrase {
  const plain = `${number}${quality}`;
  if (plain === "2m") return phrase("a semitone", "半音");
  if (plain === "2M") return phrase("a whole tone", "全音");
  const words = `${QUALITY_WORDS[quality] ?? ""}${NUMBER_WORDS[number]}`;
  const inChinese = `${QUALITIES_IN_CHINESE[quality] ?? ""}${NUMBERS_IN_CHINESE[number]}`;
  return phrase(`${/^[aeiou]/.test(words) ? "an" : "a"} ${words}`, inChinese);
}
