// SPDX-License-Identifier: AGPL-3.0-or-later
// From the bytes of a MusicXML file to one melody.
import { NOTHING_GIVEN } from "../model/fingering.js";
import type { Bar, Score, ScoreNote, StringNumbers, Tempo } from "../model/score.js";
import { beatLabel, quarters } from "../model/time.js";
import { InputProblem } from "../problem.js";
import { type Reaches, readBars } from "./bars.js";
import { chooseLine } from "./choice.js";
import { type DirectionFacts, readDirections } from "./directions.js";
import { type MusicDocument, musicDocument, type PartElements } from "./document.js";
import { readGiven } from "./given.js";
import { NoteIds } from "./ids.js";
import {
  dynamicsOf,
  lyricsOf,
  marksOf,
  slursOf,
  tellElements,
  tellLooseSlides,
  underWavyLines,
  wordsByNote,
} from "./marks.js";
import { type MelodyNote, melodyOf } from "./melody.js";
import { readNotes } from "./notes.js";
import { alignedLengths } from "./other-parts.js";
import type { OwnElements } from "./own.js";
import { tellEmptyRepeats } from "./repeat-signs.js";
import { readSetting, type SourceSetting } from "./setting.js";
import { guardLength, guardPart, guardShape, guardTogether, shortened } from "./shape.js";
import { type BarSpan, findBars } from "./span.js";
import { type CountedLine, countedBothWays } from "./string-numbers.js";
import { isMelodic, staffOf } from "./survey.js";
import { readTechnical, type TechnicalFacts } from "./technical.js";
import { type TextEncoding, unpack } from "./unpack.js";
import { UnreadList } from "./unread.js";
import { type Placed, walkPart } from "./walk.js";
import { wedgesOf } from "./wedges.js";
import { parseXml, type XmlElement } from "./xml.js";

/** What of a file to read. */
export interface ReadOptions {
  /** a part's id, name, abbreviation or number from 1, or how one begins; the one that looks like the melody without */
  readonly part?: string;
  /** a voice as the file names it, by its order in the part, or by its staff; that of the melody without */
  readonly voice?: string;
  /** `FROM-TO` by printed labels, or `#N` for the Nth bar in order; all without */
  readonly bars?: string;
  /** how `<string>` counts; by the standard without */
  readonly stringNumbers?: StringNumbers;
}

/** The document that was read, for splicing into it. */
export interface SourceText {
  /** decoded, without a byte order mark */
  readonly text: string;
  readonly encoding: TextEncoding;
  readonly byteOrderMark: boolean;
  /** the document's root; every element knows its offsets in the text */
  readonly root: XmlElement;
  /** each note of the melody, ties' continuations included, by its id */
  readonly notes: ReadonlyMap<string, SourceNote>;
}

/** A note of the melody as it stands in the document. */
export interface SourceNote {
  readonly element: XmlElement;
  /** what huipath put into it when it annotated the document */
  readonly own: OwnElements;
}

/** A score as it was read. */
export interface ReadResult {
  readonly score: Score;
  readonly source: SourceText;
  /** the setting that huipath stored in the document; null in others */
  readonly setting: SourceSetting | null;
}

/**
 * Reads one voice of one part.
 *
 * @param bytes a MusicXML document, plain or packed
 * @param file  its name, for messages
 * @throws InputProblem on everything that is no usable score, with the place and what would work
 */
export function readScore(bytes: Uint8Array, file: string, options: ReadOptions = {}): ReadResult {
  const unpacked = unpack(bytes, file);
  const root = parseXml(unpacked.text, file);
  guardShape(root, file);
  const document = musicDocument(root, file);
  for (const one of document.parts) guardPart(one, file);
  const setting = readSetting(root, file);
  const unread = new UnreadList();
  const chosen = chooseLine(document, options, setting?.stored.line ?? null, file);
  const { part, voice, choice, leftOut } = chosen;
  if (chosen.goesOn !== null) unread.addWhole(chosen.goesOn);
  const walked = walkPart(part, file, unread);
  const voices = walked.placed.map(({ element }) => chosen.voices.get(element) ?? null);
  const staff = homeStaff(walked.placed, voices, voice);
  const aligned: Reaches = (wanted) => alignedLengths(document, part, walked, wanted, file);
  const bars = readBars(part, walked, staff, aligned, unread);
  const span = options.bars === undefined ? { from: 0, to: bars.length - 1 } : findBars(options.bars, bars, file);
  guardLength(
    walked.placed.filter(
      (one, i) => voices[i] === voice && isMelodic(one.element) && one.bar >= span.from && one.bar <= span.to,
    ).length,
    file,
  );
  const directions = readDirections(walked.placed, unread);
  const ids = new NoteIds(document, part, unread);
  const annotated = setting !== null;
  const all = readNotes({ file, part, walked, bars, voices, directions, ids, annotated, unread }, voice);
  const melody = melodyOf(
    all.filter((note) => note.voice === voice),
    unread,
  );
  guardTogether(melody, file);
  tellElements(walked.placed, unread);
  tellEmptyRepeats(walked.placed, all, { staff, voice, voices, bars: bars.length }, unread);
  tellLooseSlides(melody, unread);
  const stringNumbers = options.stringNumbers ?? "musicxml";
  const { notes, oddMarks, stringMarks } = scoreNotes(melody, directions, bars, voice, unread, stringNumbers);
  const whole: Score = {
    file: file.split(/[\\/]/).at(-1) ?? file,
    title: document.title,
    creator: document.creator,
    part: { id: part.id, name: part.name },
    ...{ voice, bars, notes, choice, leftOut, oddMarks, stringMarks, stringNumbers },
    tempos: temposOf(directions, document, part, bars, file),
    slurs: slursOf(melody, unread),
    wedges: wedgesOf(melody, directions, bars, unread),
    unread: [],
  };
  const score = cut(shortened(whole, unread), span, unread, file);
  return { score, source: { ...unpacked, root, notes: sourceNotes(melody, span) }, setting };
}

/** The staff on which the voice begins: its key and meter count. */
function homeStaff(placed: readonly Placed[], voices: readonly (string | null)[], voice: string | null): string {
  const first = placed.find(
    ({ element }, index) => element.nodeName === "note" && voices[index] === voice && isMelodic(element),
  );
  return first === undefined ? "1" : staffOf(first.element);
}

function scoreNotes(
  melody: readonly MelodyNote[],
  directions: readonly DirectionFacts[],
  bars: readonly Bar[],
  voice: string | null,
  unread: UnreadList,
  stringNumbers: StringNumbers,
): Pick<Score, "notes" | "oddMarks" | "stringMarks"> {
  const words = wordsByNote(melody, directions, bars, voice, unread);
  const lyrics = melody.map(lyricsOf);
  const counted = (numbers: StringNumbers): CountedLine => {
    const technical = readTechnical(
      melody.map(({ head }) => head),
      numbers,
    );
    return { technical, ...readGiven(melody, technical, lyrics, words) };
  };
  const { line, stringMarks } = countedBothWays(melody, stringNumbers, counted);
  const { technical, given, harmonics, oddMarks } = line;
  const wavy = underWavyLines(melody);
  const dynamics = dynamicsOf(melody, directions, bars);
  const notes = melody.map((note, index): ScoreNote => {
    const { head } = note;
    const own = words.get(head.id) ?? [];
    const facts = technical[index] as TechnicalFacts;
    return {
      id: head.id,
      tiedIds: note.tied.map((one) => one.id),
      bar: head.bar,
      beat: beatOf(note, bars[head.bar] as Bar),
      onset: head.onset,
      duration: note.duration,
      written: head.written,
      sounding: head.sounding,
      grace: note.grace,
      chord: note.chord,
      marks: marksOf(note, harmonics[index] === true ? { ...facts, harmonic: true } : facts, own, wavy),
      dynamic: dynamics[index] ?? null,
      lyrics: lyrics[index] ?? [],
      words: own,
      given: given[index] ?? NOTHING_GIVEN,
    };
  });
  return { notes, oddMarks, stringMarks };
}

function beatOf({ head }: MelodyNote, bar: Bar): string {
  const within = head.onset.sub(bar.onset);
  const beatType = bar.meter?.beatType ?? 4;
  return beatLabel((beatType === 4 ? within : within.mul(quarters(beatType, 4))).add(bar.firstBeat));
}

/** The tempos of the part; where it gives none, those of the first part that does, since a tempo holds for all. */
function temposOf(
  directions: readonly DirectionFacts[],
  document: MusicDocument,
  part: PartElements,
  bars: readonly Bar[],
  file: string,
): Tempo[] {
  const own = temposIn(directions, bars);
  if (own.length > 0) return own;
  for (const other of document.parts.filter((one) => one !== part)) {
    const elsewhere = new UnreadList();
    const found = temposIn(readDirections(walkPart(other, file, elsewhere).placed, elsewhere), bars);
    if (found.length > 0) return found;
  }
  return [];
}

function temposIn(directions: readonly DirectionFacts[], bars: readonly Bar[]): Tempo[] {
  const tempos: Tempo[] = [];
  for (const direction of directions) {
    const { quartersPerMinute } = direction;
    if (quartersPerMinute === null || direction.bar >= bars.length) continue;
    const onset = (bars[direction.bar] as Bar).onset.add(direction.tempoAt);
    tempos.push({ onset, quartersPerMinute });
  }
  tempos.sort((a, b) => a.onset.compare(b.onset));
  // Of several at one moment the last counts.
  return tempos.filter((tempo, index) => !tempos[index + 1]?.onset.equals(tempo.onset));
}

/** Keeps the bars of a span and what stands in them; moments stay as they are. */
function cut(whole: Score, span: BarSpan, unread: UnreadList, file: string): Score {
  const within = (bar: number): boolean => bar >= span.from && bar <= span.to;
  const notes = whole.notes.filter((note) => within(note.bar));
  const bars = whole.bars.slice(span.from, span.to + 1);
  if (notes.length === 0)
    throw new InputProblem("no-notes", file, "the bars asked for hold no notes", "choose others with --bars");
  const kept = new Set(notes.map((note) => note.id));
  const end = bars.reduce((_, bar) => bar.onset.add(bar.length), quarters(0));
  const start = (bars[0] as Bar).onset;
  const inTime = whole.tempos.filter((tempo) => tempo.onset.compare(end) < 0);
  return {
    ...whole,
    notes: notes.map((note) => ({ ...note, bar: note.bar - span.from })),
    bars: bars.map((bar, index) => ({ ...bar, index })),
    // The tempo in force when the span begins still holds in it.
    tempos: inTime.filter(
      (tempo, index) => tempo.onset.compare(start) >= 0 || !((inTime[index + 1]?.onset.compare(start) ?? 1) <= 0),
    ),
    slurs: whole.slurs.filter((slur) => kept.has(slur.from) && kept.has(slur.to)),
    wedges: whole.wedges.filter((wedge) => kept.has(wedge.from) && kept.has(wedge.to)),
    oddMarks: whole.oddMarks.filter((odd) => kept.has(odd.note)),
    stringMarks: whole.stringMarks.filter((mark) => kept.has(mark.note)),
    unread: unread.lines(whole.bars, within),
  };
}

function sourceNotes(melody: readonly MelodyNote[], span: BarSpan): SourceText["notes"] {
  const notes = new Map<string, SourceNote>();
  for (const { head, tied } of melody)
    if (head.bar >= span.from && head.bar <= span.to)
      for (const { id, element, own } of [head, ...tied]) notes.set(id, { element, own });
  return notes;
}
