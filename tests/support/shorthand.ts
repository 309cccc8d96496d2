// SPDX-License-Identifier: AGPL-3.0-or-later
// Tiny melodies for rule examples and tests: "G2 C2:2 (D3 F3) C2+C3 ,D3 r". In braces stand other marks, a dynamic
// that holds from there on, or "<" or ">" for a hairpin over that note: "G2{tremolo,ff}". After "|" stands a second voice, left out.
import { type GivenFingering, NOTHING_GIVEN } from "../../src/model/fingering.js";
import { type Pitch, parsePitch } from "../../src/model/pitch.js";
import {
  type Bar,
  NO_MARKS,
  type NoteMarks,
  type OddMark,
  type Score,
  type ScoreNote,
  type Slur,
  type StringMark,
  type StringNumbers,
  type Wedge,
} from "../../src/model/score.js";
import { beatLabel, type Quarters, quarters, ZERO } from "../../src/model/time.js";
import { readTogether } from "../../src/read/context.js";
import { isForm, readSpoken, type SpokenForm } from "../../src/read/fingering.js";
import { heightOf } from "../../src/read/melody.js";
import { type Odd, oddOf, overlay } from "../../src/read/technical.js";

/** One token of the shorthand: pitches, length and marks. */
interface Token {
  readonly pitches: readonly Pitch[];
  readonly length: Quarters;
  readonly grace: boolean;
  readonly marks: NoteMarks;
  readonly opens: boolean;
  readonly closes: boolean;
  /** what stands in braces */
  readonly braced: readonly string[];
}

const HAIRPINS = { "<": "crescendo", ">": "diminuendo" } as const;
const DYNAMIC = /^(p{1,6}|f{1,6}|mp|mf|fp|sf|sfp|sfz|sffz|fz|rfz)$/;

function token(text: string): Token {
  const parts = /^(\(?)(,?)(r|[A-G][#b]*\d(?:\+[A-G][#b]*\d)*)([\^!~%]*)(?:\{([^}]*)\})?(?::([\d/]+))?(\)?)$/.exec(
    text,
  );
  if (parts === null) throw new Error(`no note: "${text}"`);
  const [, opens, comma, names = "", signs = "", inBraces, length = "1", closes] = parts;
  const braced = inBraces?.split(",") ?? [];
  const marks = {
    ...NO_MARKS,
    harmonic: signs.includes("^"),
    letRing: signs.includes("!"),
    vibrato: signs.includes("~"),
    staccato: signs.includes("%"),
    others: braced.filter((word) => !(word in HAIRPINS) && !DYNAMIC.test(word)),
  };
  const pitches = names === "r" ? [] : names.split("+").map((name) => parsePitch(name) as Pitch);
  const grace = comma === ",";
  return {
    pitches,
    length: grace ? ZERO : quarters(length),
    grace,
    marks,
    opens: opens === "(",
    closes: closes === ")",
    braced,
  };
}

/** What stands before a text that is not to be understood. */
const ODD = "? ";

/** A technical mark with the string's number, with a spoken form behind it or alone: "<string> 7, san gou 1". */
const STRING_MARK = /^<string> ([1-7])(?:, (.+))?$/;

/** Reads a spoken form of a test, "-" for none; a text after "? " is an odd mark and gives nothing. */
export function given(text: string): GivenFingering {
  return formOf(text)?.given ?? NOTHING_GIVEN;
}

function formOf(text: string): SpokenForm | null {
  const [, number, behind = "-"] = STRING_MARK.exec(text) ?? [];
  if (number !== undefined) return formOf(behind);
  if (text === "-" || text.startsWith(ODD)) return null;
  const form = readSpoken(text);
  if (!isForm(form)) throw new Error(`not understood: "${text}", nearest "${form.nearest}"`);
  return form;
}

/** A spoken form with the string's mark before it, which counts over it. */
function marked(text: string, numbers: StringNumbers, odd: Odd[]): GivenFingering {
  const number = Number(STRING_MARK.exec(text)?.[1] ?? Number.NaN);
  const spoken = given(text);
  if (Number.isNaN(number)) return spoken;
  const string = numbers === "guqin" ? number : 8 - number;
  const mark = { ...NOTHING_GIVEN, string, written: true, text: spoken.text || `string ${string}` };
  return overlay(mark, spoken, odd);
}

type Together = Pick<Score, "notes" | "oddMarks">;

/** The notes with what stands around their forms, as in a score that is read. */
function together(notes: readonly ScoreNote[], fingering: readonly string[], numbers: StringNumbers): Together {
  const contradicted: Odd[][] = notes.map(() => []);
  const line = readTogether(
    notes.map(({ sounding, chord }, i) => {
      const text = fingering[i] ?? "-";
      const form = formOf(text);
      const own = marked(text, numbers, contradicted[i] as Odd[]);
      return { height: heightOf(sounding), chord, given: own, forms: form === null ? [] : [form] };
    }),
  );
  const fingered = notes.map((note, i) => ({
    ...note,
    given: line.given[i] ?? note.given,
    marks: { ...note.marks, harmonic: note.marks.harmonic || line.harmonics[i] === true },
  }));
  const misfits = line.odd.flatMap((all, i) =>
    [...(contradicted[i] as Odd[]), ...all].map(
      (one): OddMark => ({ note: `n${i + 1}`, trouble: "unreadable", ...one }),
    ),
  );
  const unreadable = fingering.flatMap((text, index) => [
    ...oddMark(text, `n${index + 1}`),
    ...unjudged(text, `n${index + 1}`),
  ]);
  return { notes: fingered, oddMarks: [...unreadable, ...misfits] };
}

/** The notes with the strings counted as MusicXML does, and what their marks say in both ways. */
function counted(notes: readonly ScoreNote[], fingering: readonly string[]): Together & Pick<Score, "stringMarks"> {
  const line = together(notes, fingering, "musicxml");
  const other = together(notes, fingering, "guqin");
  const at = (one: Together, index: number): StringMark["here"] => ({
    given: (one.notes[index] as ScoreNote).given,
    contradicted: one.oddMarks.some(({ note, trouble }) => note === notes[index]?.id && trouble === "contradicted"),
  });
  const stringMarks = notes.flatMap(({ id }, index) =>
    STRING_MARK.test(fingering[index] ?? "-") ? [{ note: id, here: at(line, index), otherwise: at(other, index) }] : [],
  );
  return { ...line, stringMarks };
}

/**
 * A score of one voice in 4/4.
 *
 * @param melody    the shorthand
 * @param fingering spoken forms, one a note; notes beyond it are free
 * @param tempo     quarter notes a minute; null for none
 */
export function shortScore(melody: string, fingering: readonly string[] = [], tempo: number | null = 60): Score {
  const notes: ScoreNote[] = [];
  const slurs: Slur[] = [];
  const wedges: Wedge[] = [];
  let dynamic: string | null = null;
  let now: Quarters = ZERO;
  let slurFrom = -1;
  const [line = "", second] = melody.split("|");
  for (const one of line.trim().split(/\s+/).map(token)) {
    const chord = one.pitches.length > 1 ? `n${notes.length + 1}` : null;
    if (one.opens) slurFrom = notes.length;
    dynamic = one.braced.find((word) => DYNAMIC.test(word)) ?? dynamic;
    const id = `n${notes.length + 1}`;
    for (const [sign, kind] of Object.entries(HAIRPINS))
      if (one.braced.includes(sign)) wedges.push({ from: id, to: id, kind });
    for (const pitch of one.pitches)
      notes.push({ ...noteAt(one, pitch, now, chord, notes.length, fingering), dynamic });
    if (one.closes) slurs.push(slur(notes, slurFrom));
    now = now.add(one.length);
  }
  return {
    file: "example",
    title: null,
    creator: null,
    part: { id: "P1", name: null },
    voice: null,
    bars: barsUntil(now),
    ...counted(notes, fingering),
    stringNumbers: "musicxml",
    tempos: tempo === null ? [] : [{ onset: ZERO, quartersPerMinute: tempo }],
    slurs,
    wedges,
    choice: null,
    leftOut:
      second === undefined
        ? []
        : [{ part: "P1", voice: "2", notes: second.trim().split(/\s+/).length, take: "--voice 2" }],
    unread: [],
  };
}

/** What a form names besides and nothing judges. */
function unjudged(text: string, note: string): readonly OddMark[] {
  const form = formOf(text);
  return form === null ? [] : oddOf(text, form).map((odd) => ({ note, trouble: "unreadable", ...odd }));
}

function oddMark(marked: string, note: string): readonly OddMark[] {
  if (!marked.startsWith(ODD)) return [];
  const text = marked.slice(ODD.length);
  const result = readSpoken(text);
  if (isForm(result)) throw new Error(`understood: "${text}"`);
  return oddOf(text, result).map((odd) => ({ note, trouble: "unreadable", ...odd }));
}

function slur(notes: readonly ScoreNote[], from: number): Slur {
  return { from: (notes[from] as ScoreNote).id, to: (notes.at(-1) as ScoreNote).id, count: notes.length - from };
}

function noteAt(
  one: Token,
  pitch: Pitch,
  onset: Quarters,
  chord: string | null,
  index: number,
  fingering: readonly string[],
): ScoreNote {
  const bar = Math.floor(onset.valueOf() / 4);
  return {
    id: `n${index + 1}`,
    tiedIds: [],
    bar,
    beat: beatLabel(onset.sub(4 * bar).add(1)),
    onset,
    duration: one.length,
    written: pitch,
    sounding: pitch,
    grace: one.grace,
    chord,
    marks: one.marks,
    dynamic: null,
    lyrics: [],
    words: [],
    given: given(fingering[index] ?? "-"),
  };
}

function barsUntil(end: Quarters): readonly Bar[] {
  const count = Math.max(1, Math.ceil(end.valueOf() / 4));
  return Array.from({ length: count }, (_, index) => ({
    index,
    label: String(index + 1),
    onset: quarters(4 * index),
    length: quarters(4),
    firstBeat: quarters(1),
    meter: { beats: 4, beatType: 4 },
    key: { fifths: -1, mode: "major" },
    repeatStart: false,
    repeatTimes: null,
    endings: [],
  }));
}
