// SPDX-License-Identifier: AGPL-3.0-or-later
// The brief: YAML, every key validated, errors quote the user's own line.
import { type Document, isNode, LineCounter, parseDocument } from "yaml";
import { z } from "zod";
import { type Brief, CHARACTERS, NO_BRIEF, type Pin, type Span } from "../model/brief.js";
import { ARRIVALS, CONTACTS, FINGERS, NOTHING_GIVEN, STROKES, THUMB_STROKE_NAMES } from "../model/fingering.js";
import { didYouMean } from "../model/nearest.js";
import type { Score, ScoreNote } from "../model/score.js";
import { InputProblem } from "../problem.js";
import { shown } from "./shape.js";
import { findBars } from "./span.js";

/** A rule as a brief may name it. */
export interface KnownRule {
  readonly id: string;
  /** names of its parameters, and whether each is a row of numbers and how long */
  readonly parameters: Readonly<Record<string, number | readonly number[]>>;
}

const bar = z.union([z.int(), z.string()]).transform(String);
const text = z.string().min(1);

const PASSAGE = z
  .strictObject({
    bars: bar,
    character: z.enum(CHARACTERS).optional(),
    harmonics: z.boolean().optional(),
    reason: text.optional(),
  })
  .refine((one) => one.character !== undefined || one.harmonics === true, {
    message: "say its character, or harmonics: true",
  })
  .refine((one) => one.character !== "struggling" || one.reason !== undefined, {
    message: "a struggling passage needs its reason",
  });

const PINNED = {
  sound: z.enum(["open", "stopped", "harmonic"]).optional(),
  string: z.int().min(1).max(7).optional(),
  position: z.number().min(1).max(13.99).optional(),
  finger: z.enum(FINGERS).optional(),
  contact: z.enum(CONTACTS).optional(),
  stroke: z.enum(STROKES).optional(),
  arrival: z.enum(ARRIVALS).optional(),
};

const PIN = z
  .strictObject({
    bar,
    beat: z.union([z.number(), z.string()]).transform(Number),
    note: z.int().min(1).optional(),
    grace: z.int().min(1).optional(),
    ...PINNED,
  })
  .refine((one) => Object.keys(PINNED).some((key) => key in one), {
    message: `say what it pins: ${Object.keys(PINNED).join(", ")}`,
  });

const ACCEPT = z.strictObject({ rule: text, bars: bar, reason: text });

const numbers = z.union([z.number(), z.array(z.number())]);

const name = z.union([z.int(), text]).transform(String);

const BRIEF = z.strictObject({
  part: name.optional(),
  voice: name.optional(),
  tuning: text.optional(),
  transpose: z.union([z.int(), text]).transform(String).optional(),
  hand: text.optional(),
  temperament: text.optional(),
  tempo: z.number().positive().max(1000).optional(),
  "string-numbers": z.enum(["musicxml", "guqin"]).optional(),
  "thumb-stroke": z.enum(THUMB_STROKE_NAMES).optional(),
  passages: z.array(PASSAGE).optional(),
  pins: z.array(PIN).optional(),
  accept: z.array(ACCEPT).optional(),
  parameters: z.record(z.string(), z.record(z.string(), numbers)).optional(),
  weights: z.record(z.string(), z.number().min(0).max(100)).optional(),
});

/** A brief before its bars are looked up in a score. */
export interface BriefText {
  readonly file: string;
  readonly values: z.infer<typeof BRIEF>;
  /** "file, line 7" and the line itself, for a path of keys into the document */
  readonly at: (path: readonly PropertyKey[]) => { readonly place: string; readonly line: string };
}

/**
 * Reads and validates a brief.
 *
 * @param source the YAML text
 * @param file   its name, for messages
 * @param rules  the rules that it may name
 * @throws InputProblem naming the line of the first thing that is wrong
 */
export function parseBrief(source: string, file: string, rules: readonly KnownRule[]): BriefText {
  const lines = new LineCounter();
  const document = withinReach(file, () => parseDocument(source, { lineCounter: lines, uniqueKeys: true }));
  const at = locator(document, lines, source, file);
  const broken = document.errors[0];
  if (broken !== undefined) {
    const row = lines.linePos(broken.pos[0]).line;
    throw new InputProblem(
      "bad-brief",
      `${file}, line ${row}`,
      `this is no YAML: ${firstLine(broken.message)}`,
      "compare it with the brief in the README",
    );
  }
  const result = BRIEF.safeParse(withoutEmpty(withinReach(file, () => document.toJS()) ?? {}));
  if (!result.success) throw schemaProblem(result.error.issues[0] as z.core.$ZodIssue, at);
  const brief = { file, values: result.data, at };
  checkRules(brief, rules);
  return brief;
}

/** What nests too deep runs the parser out of its stack; names that stand for too much of the file it refuses itself. */
function withinReach<T>(file: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    if (!(error instanceof RangeError || error instanceof ReferenceError)) throw error;
    const what = error instanceof RangeError ? "it nests too deep" : "its aliases lead nowhere or repeat too much";
    throw new InputProblem("bad-brief", file, what, "compare it with the brief in the README");
  }
}

/** A key with nothing behind it says nothing. */
function withoutEmpty(values: unknown): unknown {
  if (typeof values !== "object" || values === null || Array.isArray(values)) return values;
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== null));
}

const firstLine = (message: string): string => message.split("\n")[0]?.replace(/ at line.*$/, "") ?? message;

/** Finds the line of a value; of a missing key that of what should hold it. */
function locator(document: Document, lines: LineCounter, source: string, file: string): BriefText["at"] {
  const rows = source.split(/\r?\n/);
  return (path) => {
    for (let length = path.length; length >= 0; length--) {
      const node = length === 0 ? document.contents : document.getIn(path.slice(0, length), true);
      const start = isNode(node) ? node.range?.[0] : undefined;
      if (start === undefined) continue;
      const row = lines.linePos(start).line;
      return { place: `${file}, line ${row}`, line: shown((rows[row - 1] ?? "").trim()) };
    }
    return { place: file, line: "" };
  };
}

function schemaProblem(issue: z.core.$ZodIssue, at: BriefText["at"]): InputProblem {
  const unknown = issue.code === "unrecognized_keys" ? issue.keys[0] : undefined;
  const { place, line } = at(unknown === undefined ? issue.path : [...issue.path, unknown]);
  if (unknown === undefined)
    return new InputProblem(
      "bad-brief",
      place,
      `"${line}": ${String(issue.path.at(-1) ?? "the brief")}: ${issue.message}`,
      "correct it",
    );
  const known = keysAt(issue.path);
  return new InputProblem(
    "bad-brief",
    place,
    `"${line}": no such key "${unknown}"`,
    `${didYouMean(unknown, known)}known: ${known.join(", ")}`,
  );
}

/** The keys that are known where a path leads. */
function keysAt(path: readonly PropertyKey[]): string[] {
  const shapes: Readonly<Record<string, object>> = { passages: PASSAGE.shape, pins: PIN.shape, accept: ACCEPT.shape };
  return Object.keys(shapes[String(path[0])] ?? BRIEF.shape);
}

function checkRules(brief: BriefText, rules: readonly KnownRule[]): void {
  const ids = rules.map((rule) => rule.id);
  const { accept = [], weights = {}, parameters = {} } = brief.values;
  const known = (id: string, path: readonly PropertyKey[]): void => {
    if (ids.includes(id)) return;
    const { place, line } = brief.at(path);
    throw new InputProblem(
      "unknown-rule",
      place,
      `"${line}": no rule called "${id}"`,
      `${didYouMean(id, ids)}huipath guide lists all`,
    );
  };
  for (const [i, one] of accept.entries()) known(one.rule, ["accept", i, "rule"]);
  for (const id of Object.keys(weights)) known(id, ["weights", id]);
  for (const [id, values] of Object.entries(parameters)) {
    known(id, ["parameters", id]);
    const own = rules.find((rule) => rule.id === id)?.parameters ?? {};
    for (const [name, value] of Object.entries(values)) checkParameter(brief, own, ["parameters", id, name], value);
  }
}

function checkParameter(
  brief: BriefText,
  own: KnownRule["parameters"],
  path: readonly string[],
  value: number | readonly number[],
): void {
  const name = path.at(-1) as string;
  const { place, line } = brief.at(path);
  const usual = Object.hasOwn(own, name) ? own[name] : undefined;
  if (usual === undefined) {
    const names = Object.keys(own);
    const cure =
      names.length === 0
        ? `the rule ${path[1]} has no parameters`
        : `${didYouMean(name, names)}known: ${names.join(", ")}`;
    throw new InputProblem("unknown-parameter", place, `"${line}": no parameter "${name}"`, cure);
  }
  const wanted = typeof usual === "number" ? "one number" : `${usual.length} numbers`;
  const fits =
    typeof usual === "number" ? typeof value === "number" : Array.isArray(value) && value.length === usual.length;
  if (!fits)
    throw new InputProblem(
      "bad-parameter",
      place,
      `"${line}": ${name} takes ${wanted}`,
      `the book has ${JSON.stringify(usual)}`,
    );
}

/**
 * Finds a brief's bars and notes in a score.
 *
 * @throws InputProblem for a bar that does not exist or that two bars carry, or a pin where no note is
 */
export function resolveBrief(brief: BriefText, score: Score): Brief {
  const { passages = [], pins = [], accept = [], parameters = {}, weights = {}, tempo = null } = brief.values;
  return {
    passages: passages.map((one, i) => ({
      ...span(brief, ["passages", i, "bars"], one.bars, score),
      character: one.character ?? null,
      reason: one.reason ?? null,
      harmonics: one.harmonics ?? false,
    })),
    pins: together(pins.map((_, i) => pin(brief, i, score))),
    accept: accept.map((one, i) => ({
      ...span(brief, ["accept", i, "bars"], one.bars, score),
      rule: one.rule,
      reason: one.reason,
    })),
    parameters,
    weights,
    tempo,
    thumbStroke: brief.values["thumb-stroke"] ?? NO_BRIEF.thumbStroke,
  };
}

function span(brief: BriefText, path: readonly PropertyKey[], bars: string, score: Score): Span {
  const { from, to } = findBars(bars, score.bars, brief.at(path).place);
  return { fromBar: from, toBar: to, text: bars };
}

const lineOf = (place: string): string => place.replace(/^.*, /, "");

/** Pins of one note as one pin. @throws InputProblem where they say different things */
function together(pins: readonly Pin[]): readonly Pin[] {
  const byNote = new Map<string, Pin>();
  for (const pin of pins) {
    const first = byNote.get(pin.note);
    byNote.set(pin.note, first === undefined ? pin : { ...first, given: bothGiven(first, pin) });
  }
  return [...byNote.values()];
}

function bothGiven(first: Pin, second: Pin): Pin["given"] {
  const said = Object.entries(second.given)
    .filter(([key]) => key in PINNED)
    .filter(([, value]) => value !== null);
  for (const [key, value] of said) {
    const before = first.given[key as keyof typeof PINNED];
    if (before !== null && before !== value)
      throw new InputProblem(
        "pins-contradict",
        second.place,
        `"${second.text}": the same note has ${key} ${before} in ${lineOf(first.place)} and ${key} ${value} here`,
        "keep one of them",
      );
  }
  return { ...first.given, ...Object.fromEntries(said) };
}

/** Two beats are the same when they differ by no more than this. */
const SAME_BEAT = 0.002;

function pin(brief: BriefText, index: number, score: Score): Pin {
  const { bar: label, beat, note: nth, grace, ...wish } = (brief.values.pins ?? [])[index] as z.infer<typeof PIN>;
  const { place, line } = brief.at(["pins", index]);
  const { from } = findBars(label, score.bars, place);
  const inBar = score.notes.filter((note) => note.bar === from);
  const onBeat = inBar.filter((note) => Math.abs(Number(note.beat) - beat) <= SAME_BEAT);
  const there = onBeat.filter((note) => note.grace === (grace !== undefined));
  const note = there[(grace ?? nth ?? there.length) - 1];
  if (note === undefined) {
    const beats = [...new Set(inBar.map((one) => one.beat))].join(", ");
    const cure = inBar.length === 0 ? "no note begins in that bar" : `notes begin on beats ${beats}`;
    throw new InputProblem(
      "no-such-note",
      place,
      `"${line}": bar ${label} has no ${grace === undefined ? "" : "such grace "}note on beat ${beat}`,
      cure,
    );
  }
  return { note: note.id, given: pinned(wish, note, line), place, text: line };
}

function pinned(
  wish: Omit<z.infer<typeof PIN>, "bar" | "beat" | "note" | "grace">,
  note: ScoreNote,
  line: string,
): Pin["given"] {
  const fields = Object.fromEntries(Object.entries(wish).filter(([, value]) => value !== undefined));
  const plucks = wish.stroke !== undefined && wish.arrival === undefined ? { arrival: "plucked" as const } : {};
  const stops =
    wish.sound === undefined && (wish.finger !== undefined || wish.position !== undefined)
      ? { sound: "stopped" as const }
      : {};
  return { ...NOTHING_GIVEN, ...stops, ...plucks, ...fields, written: note.given.written, text: line };
}
