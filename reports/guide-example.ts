// SPDX-License-Identifier: AGPL-3.0-or-later
// An example's melody and fingering, note by note, from the shorthand in which rules write them.
import { inCharacters, readingInWords, stringInCharacters } from "../src/model/characters.js";
import { joined, type Phrase, phrase, type Said } from "../src/words.js";
import type { ExampleJson } from "./guide-json.js";
import { count } from "./words.js";

/** One sound (or rest) of an example. */
export interface ExampleNote {
  /** "D3", "C2 + C3", "rest" */
  readonly note: Said;
  /** length and marks in words; empty for a plain note of one beat */
  readonly marks: Phrase;
  /** the spoken form; "free" where the search chooses, empty for a rest */
  readonly spoken: Said;
  /** number of its last note within the melody, as findings count; 0 for a rest */
  readonly number: number;
}

const MARK_WORDS: Readonly<Record<string, Phrase>> = {
  "^": phrase("printed as a harmonic", "谱上印作泛音"),
  "!": phrase("let ring", "任其延续"),
  "~": phrase("vibrato", "吟猱"),
  "%": phrase("staccato", "断奏"),
  accent: phrase("accent", "重音"),
  tenuto: phrase("tenuto", "保持音"),
  tremolo: phrase("tremolo", "震音"),
  "<": phrase("crescendo over it", "渐强"),
  ">": phrase("diminuendo over it", "渐弱"),
};

/** How the shorthand stands for something that could not be read in a score. */
const ODD_MARK = "? ";

/**
 * An example's notes in order.
 *
 * @throws Error for a melody that is no shorthand
 */
export function exampleNotes({ melody, fingering }: ExampleJson): readonly ExampleNote[] {
  let sounded = 0;
  return firstVoice(melody).map((token) => {
    const parts = /^(\(?)(,?)(r|[A-G][^:^!~%),{]*)([\^!~%]*)(?:\{([^}]*)\})?(?::([\d/]+))?(\)?)$/.exec(token);
    if (parts === null) throw new Error(`no note of the shorthand: "${token}"`);
    const [, opens, grace, name = "", signs = "", braced, beats, closes] = parts;
    const marks = joined(
      [
        ...(grace === "" ? [] : [phrase("grace note", "倚音")]),
        ...(beats === undefined ? [] : [beatWords(beats)]),
        ...[...signs].map(markWords),
        ...(braced?.split(",") ?? []).map(markWords),
        ...(opens === "" ? [] : [phrase("slur begins", "圆滑线起")]),
        ...(closes === "" ? [] : [phrase("slur ends", "圆滑线止")]),
      ],
      phrase(", ", "，"),
    );
    if (name === "r") return { note: phrase("rest", "休止"), marks, spoken: "", number: 0 };
    const pitches = name.split("+");
    const spoken = pitches.map((_, index) => spokenWords(fingering[sounded + index]));
    sounded += pitches.length;
    return { note: pitches.join(" + "), marks, spoken: chordWords(spoken), number: sounded };
  });
}

/** A sign of the shorthand, or what it writes in braces. */
function markWords(mark: string): Said {
  return MARK_WORDS[mark] ?? mark;
}

/** A second voice of the melody, which the check leaves out; empty without one. */
export function secondVoice(melody: string): string {
  return melody.split("|")[1]?.trim() ?? "";
}

function firstVoice(melody: string): readonly string[] {
  return (melody.split("|")[0] ?? "").trim().split(/\s+/);
}

function beatWords(beats: string): Phrase {
  return phrase(beats.includes("/") ? `${beats} beat` : count(Number(beats), "beat"), `${beats}拍`);
}

/** Where the search chooses. */
const FREE = phrase("free", "不指定");

function spokenWords(text: string | undefined): Said {
  if (text === undefined || text === "-") return FREE;
  if (text.startsWith(ODD_MARK)) return `“${text.slice(ODD_MARK.length)}”`;
  const element = /^<string> (?<string>\d)(?:, (?<reading>.+))?$/.exec(text)?.groups;
  if (element === undefined) return readingInWords(text);
  const reading = element.reading === undefined ? "" : `，${inCharacters(element.reading)}`;
  return phrase(text, `<string>记${stringInCharacters(Number(element.string))}${reading}`);
}

/** A chord of which nothing is given is free as a whole. */
function chordWords(spoken: readonly Said[]): Said {
  return spoken.every((text) => text === FREE) ? FREE : joined(spoken, phrase(" + ", "+"));
}
