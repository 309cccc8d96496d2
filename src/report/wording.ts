// SPDX-License-Identifier: AGPL-3.0-or-later
// The sentences of the summary.
import { TUNINGS } from "../model/tuning.js";
import type { Severity } from "../rule/types.js";
import { type Phrase, phrase, phraseOf, type Said } from "../words.js";

/** "1 note", "3 notes". */
export function count(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

/** Plain words for effort per note: under 0.2 lies well, under 0.4 playable, under 0.8 laboured, else rewrite (our judgement). */
export function effortReading(perNote: number): Phrase {
  if (perNote < 0.2) return phrase("lies well", "顺手");
  if (perNote < 0.4) return phrase("playable, with some extra moves", "可以演奏，略有多余动作");
  if (perNote < 0.8) return phrase("laboured", "吃力");
  return phrase("better rewritten", "宜改写");
}

/** What the verdict is made from. */
export interface VerdictFacts {
  readonly notes: number;
  readonly blocked: number;
  readonly effortPerNote: number;
  readonly severities: Readonly<Record<Severity, number>>;
  readonly tuning: Said;
  /** null where the melody stays as written */
  readonly transposition: Said | null;
  readonly submitted: boolean;
  /** notes that only the written fingering makes impossible */
  readonly givenBlocked: number;
  /** notes whose written place sounds another note */
  readonly wrongNotes: number;
  /** something was left alone on purpose */
  readonly meant: boolean;
  /** why the fingering does not fit as it is read, in words that follow "The fingering"; null where it is read as it was meant */
  readonly cause: Said | null;
}

/** The answer in one sentence. */
export function verdictSentence(facts: VerdictFacts): Phrase {
  const { notes, blocked, givenBlocked, wrongNotes, cause, effortPerNote } = facts;
  const where = whereWords(facts);
  if (blocked >= notes && notes > 0)
    return phraseOf({
      en: (say) => `Not playable ${say(where)}: none of its ${count(notes, "note")} can be played.`,
      zh: (say) => `${say(where)}无法演奏：${notes}个音没有一个能弹。`,
    });
  if (cause !== null)
    return phraseOf({
      en: (say) =>
        `The fingering ${say(cause)}; read as it stands, ${say(where)}, it does not sound the melody in ${count(wrongNotes + givenBlocked, "place")}.`,
      zh: (say) => `这份指法${say(cause)}；照原样读，${say(where)}，有${wrongNotes + givenBlocked}处弹不出旋律。`,
    });
  const amiss = notAsWritten(facts, where);
  if (amiss !== null) return amiss;
  if (blocked > 0)
    return phraseOf({
      en: (say) => `Not playable ${say(where)}: ${count(blocked, "place")} cannot be played.`,
      zh: (say) => `${say(where)}无法演奏：有${blocked}处不能弹。`,
    });
  const parts = [...placesWords(facts), ...(effortPerNote >= 0.4 ? [wholeWords(effortPerNote)] : [])];
  const apart = facts.meant ? phrase("apart from what is meant, ", "除有意为之处，") : "";
  return phraseOf({
    en: (say) =>
      `Playable ${say(where)}; ${say(apart)}${parts.length === 0 ? say(playsWords(facts)) : parts.map(say).join(", and ")}.`,
    zh: (say) =>
      `${say(where)}可以演奏；${say(apart)}${parts.length === 0 ? say(playsWords(facts)) : parts.map(say).join("，")}。`,
  });
}

function whereWords({ tuning, transposition }: VerdictFacts): Phrase {
  return phraseOf({
    en: (say) => `in ${say(tuning)}${transposition === null ? "" : ` ${say(transposition)}`}`,
    zh: (say) => `用${say(tuning)}${transposition === null ? "" : `、${say(transposition)}`}`,
  });
}

/** A fingering that is written for the right strings but does not sound all notes; null for none such. */
function notAsWritten({ blocked, givenBlocked, wrongNotes }: VerdictFacts, where: Said): Phrase | null {
  const wrong = {
    en: wrongNotes > 0 ? `it sounds another note in ${count(wrongNotes, "place")}` : "",
    zh: wrongNotes > 0 ? `有${wrongNotes}处弹出的是别的音` : "",
  };
  if (givenBlocked > 0 && givenBlocked === blocked)
    return phraseOf({
      en: (say) =>
        `The melody lies on the strings ${say(where)}, but the written fingering cannot be played in ${count(blocked, "place")}${wrong.en === "" ? "" : `, and ${wrong.en}`}.`,
      zh: (say) =>
        `旋律本身${say(where)}都在弦上，但所写指法有${blocked}处不能弹${wrong.zh === "" ? "" : `，另${wrong.zh}`}。`,
    });
  if (blocked > 0 || wrongNotes === 0) return null;
  return phraseOf({
    en: (say) => `The melody lies on the strings ${say(where)}, but as the fingering is written ${wrong.en}.`,
    zh: (say) => `旋律本身${say(where)}都在弦上，但照所写指法${wrong.zh}。`,
  });
}

function placesWords({ severities, submitted }: VerdictFacts): readonly Phrase[] {
  const { problem, caution } = severities;
  if (problem > 0) return [phrase(`a player would ask about ${count(problem, "place")}`, `有${problem}处演奏者会追问`)];
  if (caution === 0) return [];
  const what = submitted ? "the written fingering" : "it";
  return [
    phrase(
      `${what} needs a move in ${count(caution, "place")}`,
      `${submitted ? "所写指法" : ""}有${caution}处需多动一下`,
    ),
  ];
}

function wholeWords(perNote: number): Phrase {
  const reading = effortReading(perNote);
  return phrase(`the whole is ${reading.en}`, `整体${reading.zh}`);
}

function playsWords({ submitted, effortPerNote }: VerdictFacts): Phrase {
  const what = submitted ? phrase("the written fingering", "所写指法") : phrase("it", "弹来");
  return effortPerNote < 0.2
    ? phrase(`${what.en} plays well`, `${what.zh}顺手`)
    : phrase(`${what.en} plays with some extra moves`, `${what.zh}略有多余动作`);
}

const TEMPERAMENTS: Readonly<Record<string, string>> = {
  pythagorean: "五度相生律",
  just: "纯律",
  equal: "十二平均律",
};

/** The name of a temperament. */
export function temperamentName(name: string): Phrase {
  return phrase(name, TEMPERAMENTS[name] ?? name);
}

const HAND_WORDS: Readonly<Record<string, string>> = {
  small: "偏小的手",
  medium: "中等大小的手",
  large: "偏大的手",
  beginner: "初学者的手",
  experienced: "熟练者的手",
};

/** The name of a hand in Chinese; a hand of the user's own keeps its name. */
export function handName(name: string): string {
  return HAND_WORDS[name] ?? name;
}

/** A tempo as a table of settings says it. @param tempo quarter notes a minute */
export function tempoWords(tempo: number, assumed: boolean): Phrase {
  return phrase(
    `${tempo} quarter notes a minute${assumed ? ", assumed" : ""}`,
    `每分钟${tempo}个四分音符${assumed ? "（假定）" : ""}`,
  );
}

/** A tuning's name in simplified characters; pitches typed by hand stay as they are. */
export function tuningInCharacters(name: string): string {
  return TUNINGS.find((tuning) => tuning.name === name)?.simplified ?? name;
}

/** A transposition by semitones. @example shiftInChinese(-12) // "移低12个半音" */
export function shiftInChinese(semitones: number): string {
  if (semitones === 0) return "原谱音高";
  return `移${semitones > 0 ? "高" : "低"}${Math.abs(semitones)}个半音`;
}
