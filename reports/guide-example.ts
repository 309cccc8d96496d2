// SPDX-License-Identifier: AGPL-3.0-or-later
// An example's melody and fingering, note by note, from the shorthand in which rules write them.
import type { ExampleJson } from "./guide-json.js";
import { count } from "./words.js";

/** One sound (or rest) of an example. */
export interface ExampleNote {
  /** "D3", "C2 + C3", "rest" */
  readonly note: string;
  /** length and marks in words; empty for a plain note of one beat */
  readonly marks: string;
  /** the spoken form; "free" where the search chooses, empty for a rest */
  readonly spoken: string;
  /** number of its last note within the melody, as findings count; 0 for a rest */
  readonly number: number;
}

const MARK_WORDS: Readonly<Record<string, string>> = {
  "^": "printed as a harmonic",
  "!": "let ring",
  "~": "vibrato",
  "%": "staccato",
  "<": "crescendo over it",
  ">": "diminuendo over it",
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
    const marks = [
      ...(grace === "" ? [] : ["grace note"]),
      ...(beats === undefined ? [] : [beatWords(beats)]),
      ...[...signs].map((sign) => MARK_WORDS[sign] as string),
      ...(braced?.split(",") ?? []).map((mark) => MARK_WORDS[mark] ?? mark),
      ...(opens === "" ? [] : ["slur begins"]),
      ...(closes === "" ? [] : ["slur ends"]),
    ].join(", ");
    if (name === "r") return { note: "rest", marks, spoken: "", number: 0 };
    const pitches = name.split("+");
    const spoken = pitches.map((_, index) => spokenWords(fingering[sounded + index]));
    sounded += pitches.length;
    return { note: pitches.join(" + "), marks, spoken: chordWords(spoken), number: sounded };
  });
}

/** A second voice of the melody, which the check leaves out; empty without one. */
export function secondVoice(melody: string): string {
  return melody.split("|")[1]?.trim() ?? "";
}

function firstVoice(melody: string): readonly string[] {
  return (melody.split("|")[0] ?? "").trim().split(/\s+/);
}

function beatWords(beats: string): string {
  return beats.includes("/") ? `${beats} beat` : count(Number(beats), "beat");
}

function spokenWords(text: string | undefined): string {
  if (text === undefined || text === "-") return "free";
  return text.startsWith(ODD_MARK) ? `“${text.slice(ODD_MARK.length)}”` : text;
}

/** A chord of which nothing is given is free as a whole. */
function chordWords(spoken: readonly string[]): string {
  return spoken.every((text) => text === "free") ? "free" : spoken.join(" + ");
}
