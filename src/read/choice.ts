// SPDX-License-Identifier: AGPL-3.0-or-later
// Which line of a score is read: the one that a call or the score names, else the one that looks like the melody.
import type { LeftOutLine, LineChoice } from "../model/line-choice.js";
import { didYouMean } from "../model/nearest.js";
import { InputProblem } from "../problem.js";
import { type Phrase, phrase } from "../words.js";
import type { MusicDocument, PartElements } from "./document.js";
import { preferred } from "./looks.js";
import { folded } from "./part-names.js";
import { type Line, surveyPart } from "./survey.js";
import type { XmlElement } from "./xml.js";

/** What a call, a brief or the score says of the line. */
export interface LineWish {
  readonly part?: string | undefined;
  readonly voice?: string | undefined;
}

/** The line to read, and what is left out. */
export interface ChosenLine {
  readonly part: PartElements;
  readonly voice: string | null;
  /** the voice of every note element of the part */
  readonly voices: ReadonlyMap<XmlElement, string | null>;
  /** null where there was nothing to choose */
  readonly choice: LineChoice | null;
  readonly leftOut: readonly LeftOutLine[];
  /** a sentence on lines that go on where this one rests; null without one */
  readonly goesOn: Phrase | null;
}

/** A line is one of chords where this share of its moments or more are. */
const OF_CHORDS = 0.25;

/**
 * Chooses the line.
 *
 * @param kept the line that an annotated score keeps; where it is not there, it does not count
 * @throws InputProblem when the wish names no line, or several, listing those that exist; or when there are no notes
 */
export function chooseLine(document: MusicDocument, wish: LineWish, kept: LineWish | null, file: string): ChosenLine {
  const surveyed = new Map(document.parts.map((part) => [part, surveyPart(part)]));
  const all = [...surveyed.values()].flatMap(({ lines }) => lines);
  if (all.length === 0) throw new InputProblem("no-notes", file, "it holds no notes", "choose a score with a melody");
  const own = wish.part === undefined && wish.voice === undefined && kept !== null ? keptLine(all, kept) : null;
  const wished = own === null ? wishedLines(document, all, wish, file) : [own];
  const { line, because } = preferred(wished, all);
  const looked = own === null && wished.length > 1;
  const sounding = all.filter((other) => other !== line && !other.part.drums && other.percussionClef < 1);
  const choice: LineChoice = {
    lines: looked ? wished.length : all.length,
    by: looked ? "looks" : "kept",
    because,
    highest: sounding.every((other) => other.height <= line.height),
    chords: line.chords >= OF_CHORDS * line.onsets,
  };
  return {
    part: line.part,
    voice: line.voice,
    voices: surveyed.get(line.part)?.voices ?? new Map(),
    choice: looked || (own !== null && all.length > 1) ? choice : null,
    leftOut: leftOutLines(line, all),
    goesOn: goesOnSentence(line, all),
  };
}

/** The line that a score keeps; null where an editor has changed what it is called. */
function keptLine(all: readonly Line[], kept: LineWish): Line | null {
  return all.find(({ part, voice }) => part.id === kept.part && (voice ?? undefined) === kept.voice) ?? null;
}

/** All lines that a wish leaves open. */
function wishedLines(document: MusicDocument, all: readonly Line[], wish: LineWish, file: string): readonly Line[] {
  const part = wish.part === undefined ? null : partNamed(document, all, wish.part.trim(), file);
  const lines = part === null ? all : all.filter((line) => line.part === part);
  if (wish.voice === undefined) return lines;
  const within = part === null ? preferred(all, all).line.part : part;
  return voicesNamed(all, within, wish.voice.trim(), file);
}

/**
 * The part by its id, name, abbreviation or number, or by how one of these begins; in this order where they clash.
 *
 * @throws InputProblem when there is none such, or several, or it holds no notes
 */
function partNamed(document: MusicDocument, all: readonly Line[], wish: string, file: string): PartElements {
  const sounding = [...new Set(all.map(({ part }) => part))];
  const list = (parts: readonly PartElements[]): string => parts.map(partTitle).join(", ");
  const found = partsNamed(document.parts, wish);
  const fit = found.filter((part) => sounding.includes(part));
  const [part, ...more] = fit;
  if (part === undefined && found.length > 0) {
    const cure = `choose one with --part: ${list(sounding)}`;
    throw new InputProblem("no-notes", file, `the part "${wish}" holds no notes`, cure);
  }
  if (part === undefined) {
    const known = sounding.flatMap(({ id, name }) => [id, name ?? id]);
    const cure = `${didYouMean(wish, known)}the parts with notes are ${list(sounding)}`;
    throw new InputProblem("no-part", file, `there is no part "${wish}"`, cure);
  }
  if (more.length > 0) {
    const cure = `say the id or the number of one: ${fit.map((one) => `${partTitle(one)} is ${one.number}`).join(", ")}`;
    throw new InputProblem("many-parts", file, `${fit.length} parts answer to "${wish}"`, cure);
  }
  return part;
}

function partsNamed(parts: readonly PartElements[], wish: string): readonly PartElements[] {
  const wanted = folded(wish);
  const is = (text: string | null): boolean => text !== null && folded(text) === wanted;
  const begins = (text: string | null): boolean => text !== null && wanted !== "" && folded(text).startsWith(wanted);
  const ways: readonly ((part: PartElements) => boolean)[] = [
    ({ id }) => id === wish,
    ({ id }) => is(id),
    ({ name }) => is(name),
    ({ abbreviation }) => is(abbreviation),
    ({ number }) => String(number) === wish,
    ({ id, name, abbreviation }) => begins(name) || begins(abbreviation) || begins(id),
  ];
  for (const way of ways) {
    const found = parts.filter(way);
    if (found.length > 0) return found;
  }
  return [];
}

/** A voice on a staff, or all of a staff: "1 (staff 2)", "1 staff 2", "staff 2". */
const ON_STAFF = /^(?:(?<voice>.+?) )?\(?staff (?<staff>[^)]+)\)?$/;

/**
 * The voices by the file's name, by their number in order, or by their staff; in this order where they clash.
 *
 * @throws InputProblem when there is none such
 */
function voicesNamed(all: readonly Line[], part: PartElements, wish: string, file: string): readonly Line[] {
  const lines = all.filter((line) => line.part === part);
  const wanted = folded(wish);
  const is = (line: Line, name: string): boolean => folded(line.voice ?? "1") === name;
  const { voice, staff } = ON_STAFF.exec(wanted)?.groups ?? {};
  const ways: readonly ((line: Line, index: number) => boolean)[] = [
    (line) => is(line, wanted),
    (_, index) => String(index + 1) === wanted,
    (line) => folded(line.staff) === staff && (voice === undefined || is(line, voice)),
  ];
  for (const way of ways) {
    const found = lines.filter(way);
    if (found.length > 0) return found;
  }
  const voices = lines.map((line) => line.voice ?? "1").join(", ");
  const parts = new Set(all.map((line) => line.part)).size;
  const elsewhere = parts > 1 ? "; for one of another part say --part too" : "";
  throw new InputProblem(
    "no-voice",
    file,
    `part ${partTitle(part)} has no voice "${wish}"`,
    `its voices are ${voices}${elsewhere}`,
  );
}

/** The part as messages name it. */
function partTitle(part: PartElements): string {
  return part.name === null ? part.id : `${part.id} (${part.name})`;
}

/** What a shell takes as it stands. */
const PLAIN = /^[\p{L}\p{N}_.-]+$/u;
/** What a shell takes between double quotes. */
const QUOTABLE = /^[\p{L}\p{N} _.,:()/+'-]+$/u;

/** Nobody types more characters than this. */
const LONGEST_TYPED = 60;

/** A word as it is typed; null where that takes more than quotes. */
function typed(word: string): string | null {
  if (word.length > LONGEST_TYPED) return null;
  if (PLAIN.test(word) && !word.startsWith("-")) return word;
  return QUOTABLE.test(word) && !word.startsWith("-") ? `"${word}"` : null;
}

function leftOutLines(line: Line, all: readonly Line[]): readonly LeftOutLine[] {
  const byPart = new Map<PartElements, number>();
  const order = new Map<Line, number>();
  for (const one of all) {
    const before = byPart.get(one.part) ?? 0;
    byPart.set(one.part, before + 1);
    order.set(one, before + 1);
  }
  return all
    .filter((one) => one !== line)
    .map((one) => {
      const { part, notes } = one;
      const voice = byPart.get(part) === 1 ? null : (one.voice ?? "1");
      const options = [
        ...(byPart.size > 1 ? [`--part ${typed(part.id) ?? part.number}`] : []),
        ...(voice === null ? [] : [`--voice ${typed(voice) ?? order.get(one)}`]),
      ];
      return { part: partTitle(part), voice, notes, take: options.join(" ") };
    });
}

/** A line that begins this much before another ends does not sound with it, in quarters: durations are rounded. */
const TOUCH = 0.01;

/** Tells other voices of the part that sound only where this one rests: one line may be written over them in turn. */
function goesOnSentence(line: Line, all: readonly Line[]): Phrase | null {
  const inTurn = all.filter((other) => other.part === line.part && other !== line && takesTurns(line, other));
  const [first] = inTurn;
  if (first === undefined) return null;
  const voices = inTurn.map(({ voice }) => voice ?? "1");
  const named = voices.join(" and ");
  const sound = inTurn.length === 1 ? `voice ${named} sounds` : `voices ${named} sound`;
  const own = line.voice ?? "1";
  return phrase(
    `${sound} only where voice ${own} rests, so that one line may be written over both; only voice ${own} is read: write the line in one voice to have all of it`,
    `线${voices.join("、线")}只在线${own}休止处有音，可能是一条旋律轮流写在几条线上；这里只读线${own}：要读全曲，请把旋律写进一条线`,
  );
}

function takesTurns(line: Line, other: Line): boolean {
  if (other.onsets === 0) return false;
  return [...other.sounds].every(([bar, theirs]) => !meet(line.sounds.get(bar) ?? [], theirs));
}

type Spans = Line["sounds"] extends ReadonlyMap<number, infer S> ? S : never;

/** Whether a span of one voice overlaps one of another; spans of one voice follow each other. */
function meet(own: Spans, theirs: Spans): boolean {
  const inTime = (spans: Spans): Spans => [...spans].sort((a, b) => a[0] - b[0]);
  const [a, b] = [inTime(own), inTime(theirs)];
  for (let i = 0, j = 0; i < a.length && j < b.length; ) {
    const [first, second] = [a[i] as Spans[number], b[j] as Spans[number]];
    if (first[0] < second[1] - TOUCH && first[1] > second[0] + TOUCH) return true;
    if (first[1] < second[1]) i++;
    else j++;
  }
  return false;
}
