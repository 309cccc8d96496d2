// SPDX-License-Identifier: AGPL-3.0-or-later
// The units of rules as a person reads them: in the rules and in JSON a unit is the English text itself.
import { phrase, type Said } from "../words.js";

/** Chinese of every unit that rules use; it stands right behind a number, as in "2根弦". */
const IN_CHINESE: Readonly<Record<string, string>> = {
  "spare moves": "空动",
  "spare moves per cm": "空动/厘米",
  "spare moves per cm/s": "空动/（厘米/秒）",
  "spare moves per pluck/s": "空动/（次弹弦/秒）",
  "spare moves per string": "空动/弦",
  "spare moves, spare moves per hui": "空动，空动/徽",
  cents: "音分",
  semitones: "个半音",
  hui: "徽",
  "parts of a hui": "等分/徽",
  cm: "厘米",
  "cm/s": "厘米/秒",
  s: "秒",
  "quarter notes a minute": "个四分音符/分",
  notes: "个音",
  "notes/s": "个音/秒",
  tones: "个不同的音",
  pitches: "个不同的音高",
  steps: "个半音",
  places: "处音位",
  zone: "区",
  strings: "根弦",
  moves: "次",
  plucks: "次弹弦",
  "plucks/s": "次弹弦/秒",
  findings: "处",
  share: "（比例）",
  "of the charge": "（比本条代价）",
  "of the plucked time": "（比弹弦的余音）",
  "of the thumb's time": "（比大指的余音）",
  "share of the hand's comfortable plucks a second": "（比从容的弹速）",
};

/** Every unit that has a name in Chinese. */
export const UNITS: readonly string[] = Object.keys(IN_CHINESE);

/** A rule's or a parameter's unit in both languages. @example unitInWords("cents") // phrase("cents", "音分") */
export function unitInWords(unit: string): Said {
  const zh = IN_CHINESE[unit];
  return zh === undefined ? unit : phrase(unit, zh);
}

/** The same where no number stands before it, as in a column of units. @example unitAlone("strings") // "strings", "弦" */
export function unitAlone(unit: string): Said {
  const zh = IN_CHINESE[unit];
  if (zh === undefined) return unit;
  return phrase(unit, zh.replace(/^[个处根](?=.)/u, "").replace(/^（(.+)）$/u, "$1"));
}
