// SPDX-License-Identifier: AGPL-3.0-or-later
// How far our reading of a file and an independent one agree: onset, duration and sounding pitch of every note of every
// voice of every part.

import { microtoneCents, semitoneOf } from "../../src/model/pitch.js";
import type { Score, ScoreNote } from "../../src/model/score.js";
import { type Quarters, quarters, ZERO } from "../../src/model/time.js";
import { musicDocument } from "../../src/read/document.js";
import { type ReadResult, readScore } from "../../src/read/score.js";
import { unpack } from "../../src/read/unpack.js";
import { child, parseXml, type XmlElement } from "../../src/read/xml.js";
import type { DocumentFile } from "./documents.js";
import { forVerovio, type Hearing, type IndependentReader, isGrace } from "./verovio-reading.js";

/** One voice of a file as the reader takes it. */
export interface VoiceReading {
  readonly part: string;
  readonly voice: string;
  readonly result: ReadResult;
}

/** Reads every voice that can be chosen of every part that holds notes. */
export function readEveryVoice({ name, bytes }: DocumentFile): readonly VoiceReading[] {
  const { parts } = musicDocument(parseXml(unpack(bytes, name).text, name), name);
  const sounding = parts.filter(({ bars }) => bars.some(({ element }) => element.children.some(isPitched)));
  return sounding.flatMap(({ id: part }) => {
    const first = readScore(bytes, name, { part });
    const title = first.score.part.name === null ? part : `${part} (${first.score.part.name})`;
    const others = first.score.leftOut.flatMap((left) => (left.part === title ? [left.voice ?? "1"] : []));
    return [
      { part, voice: first.score.voice ?? "1", result: first },
      ...others.map((voice) => ({ part, voice, result: readScore(bytes, name, { part, voice }) })),
    ].sort((a, b) => a.voice.localeCompare(b.voice));
  });
}

/** Whether an element is a note that belongs to a line: cues only show what others play. */
function isPitched(element: XmlElement): boolean {
  return element.nodeName === "note" && child(element, "pitch") !== null && child(element, "cue") === null;
}

/** How many notes were compared, and how many of them agree. */
export interface Tally {
  voices: number;
  notes: number;
  pitches: number;
  /** notes whose time is compared: all but grace notes, which have none of their own */
  timed: number;
  onsets: number;
  durations: number;
}

/** Where two readings of a voice part. */
export interface VoiceDifferences {
  readonly part: string;
  readonly voice: string;
  /**
   * `BAR:BEAT what`, for several notes in a row `BAR:BEAT-BAR:BEAT (count) what`; what is Verovio's value less ours, in
   * quarter notes and semitones
   */
  readonly differences: readonly string[];
}

/** Compares every voice of a file; counts into the tally. */
export function compareFile(file: DocumentFile, verovio: IndependentReader, tally: Tally): readonly VoiceDifferences[] {
  const voices = readEveryVoice(file);
  if (voices.length === 0) return [];
  tally.voices += voices.length;
  const { text } = unpack(file.bytes, file.name);
  const root = parseXml(text, file.name);
  const shifts = voices.map((): Shift[] => []);
  const each = (compare: (voice: VoiceReading, shift: Shift[]) => void): void => {
    for (const [i, voice] of voices.entries()) compare(voice, shifts[i] as Shift[]);
  };
  const asItStands = forVerovio(text, root, []);
  // Time is compared without what moves notes off their printed moments.
  const inTime = forVerovio(text, root, ["grace", "arpeggiate"]);
  const compareTime = (hearing: Hearing): void => each((voice, shift) => addTimeShifts(voice, hearing, shift, tally));
  verovio.hear(asItStands, (hearing) => {
    each((voice, shift) => shift.push(...pitchShifts(voice, hearing, tally)));
    if (inTime === asItStands) compareTime(hearing);
  });
  if (inTime !== asItStands) verovio.hear(inTime, compareTime);
  return voices
    .map(({ part, voice, result }, i) => ({ part, voice, differences: runs(result.score, shifts[i] as Shift[]) }))
    .filter(({ differences }) => differences.length > 0);
}

/** What Verovio says of a note beyond what we say. */
type Shift = string[];

function elementOf({ result }: VoiceReading, { id }: ScoreNote): XmlElement {
  return (result.source.notes.get(id) as { readonly element: XmlElement }).element;
}

function pitchShifts(voice: VoiceReading, hearing: Hearing, tally: Tally): Shift[] {
  const { notes } = voice.result.score;
  return notes.map((note, i) => {
    tally.notes++;
    const theirs = hearing(elementOf(voice, note));
    if (theirs === null) return ["not known"];
    const ours = quarters(String(semitoneOf(note.sounding) + microtoneCents(note.sounding) / 100));
    const shift = signed("pitch", quarters(theirs.semitone).sub(ours));
    if (shift.length === 0) tally.pitches++;
    const next = notes[i + 1];
    const after = next !== undefined && note.grace ? hearing(elementOf(voice, next)) : null;
    // Verovio gives grace notes time of their own, so only their order can be compared.
    return after !== null && after.onset.compare(theirs.onset) < 0 ? [...shift, "order"] : shift;
  });
}

function addTimeShifts(voice: VoiceReading, hearing: Hearing, shifts: Shift[], tally: Tally): void {
  for (const [i, note] of voice.result.score.notes.entries()) {
    const element = elementOf(voice, note);
    if (isGrace(element)) continue;
    tally.timed++;
    const shift = shifts[i] as Shift;
    const theirs = hearing(element);
    if (theirs === null) {
      if (!shift.includes("not known")) shift.push("not known without grace notes");
      continue;
    }
    const onset = signed("onset", theirs.onset.sub(note.onset));
    const duration = theirs.continues
      ? ["tied to the note before"]
      : signed("duration", theirs.duration.sub(note.duration));
    if (onset.length === 0) tally.onsets++;
    if (duration.length === 0) tally.durations++;
    shift.push(...onset, ...duration);
  }
}

function signed(what: string, value: Quarters): Shift {
  const sign = value.compare(ZERO);
  return sign === 0 ? [] : [`${what} ${sign > 0 ? "+" : ""}${value.toFraction()}`];
}

/** Notes in a row that differ alike, as one line. */
function runs({ bars, notes }: Score, shifts: readonly Shift[]): string[] {
  const lines: string[] = [];
  const place = (i: number): string => {
    const { bar, beat } = notes[i] as ScoreNote;
    return `${bars[bar]?.label}:${beat}`;
  };
  for (let from = 0; from < notes.length; ) {
    const what = (shifts[from] as Shift).join(", ");
    let to = from + 1;
    while (to < notes.length && (shifts[to] as Shift).join(", ") === what) to++;
    if (what !== "")
      lines.push(to - from === 1 ? `${place(from)} ${what}` : `${place(from)}-${place(to - 1)} (${to - from}) ${what}`);
    from = to;
  }
  return lines;
}
