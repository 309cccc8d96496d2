// SPDX-License-Identifier: AGPL-3.0-or-later
// A second opinion on what a fingering costs: slow, readable, sharing no table and no pricing with the search. It walks
// the moments and asks every rule itself. Only the rules and the rounding of a charge are the same; what a brief weighs,
// accepts and means is read once more from the brief.
import { centsAt, harmonicCents } from "../../src/model/board.js";
import { type Brief, NO_BRIEF, type Span } from "../../src/model/brief.js";
import { type Moment, type MomentNote, secondsBetween } from "../../src/model/moments.js";
import type { Left, Placed, Right } from "../../src/model/playing.js";
import type { Setting } from "../../src/model/setting.js";
import { centsOf } from "../../src/model/temperament.js";
import { type Cost, effortOf } from "../../src/rule/cost.js";
import type { Line, Rule } from "../../src/rule/types.js";

/** A complete fingering: both hands at every moment. */
export type Fingered = Pick<Line, "moments" | "lefts" | "rights">;

/** What a whole fingering costs by the rules' own numbers and what the brief makes of them. */
export function evaluate(line: Fingered, rules: readonly Rule[], brief: Brief = NO_BRIEF): Cost {
  let blocked = 0;
  let effort = 0;
  for (let at = 0; at < line.moments.length; at++) {
    const cost = costAt(line, at, rules, brief);
    blocked += cost.blocked;
    effort += cost.effort;
  }
  return { blocked, effort };
}

/** What the rules charge for one moment and for getting there from the moment before. Nothing later matters. */
export function costAt(line: Fingered, at: number, rules: readonly Rule[], brief: Brief = NO_BRIEF): Cost {
  const moment = line.moments[at] as Moment;
  const left = line.lefts[at] as Left;
  const right = line.rights[at] as Right;
  let blocked = 0;
  let effort = 0;
  for (const rule of rules) {
    const add = (barred: boolean | undefined, spareMoves: number, since = at): void => {
      if (barred) blocked++;
      effort += effortOf(spareMoves * scaleOf(rule, line.moments[since] as Moment, moment, brief));
    };
    switch (rule.reach) {
      case "place":
        for (const placed of left.placed) {
          const note = moment.notes[placed.note] as MomentNote;
          const measured = rule.measure(placed, null, note, moment, left);
          if (Number.isNaN(measured)) continue;
          add(rule.blocks?.(measured), rule.charge(measured, placed, note, moment, left));
        }
        for (const missing of left.missing) {
          const note = moment.notes[missing.note] as MomentNote;
          if (!Number.isNaN(rule.measure(null, missing, note, moment, left))) blocked++;
        }
        break;
      case "strike":
        if (isPlucked(left) && right.stroke !== null) {
          const measured = rule.measure(right);
          if (!Number.isNaN(measured)) add(rule.blocks?.(measured), rule.charge(measured, right));
        }
        break;
      case "hand-move": {
        const from = line.lefts[at - 1] ?? ANYWHERE;
        const gap = handGap(line, at);
        const measured = rule.measure(from, left, gap);
        if (Number.isNaN(measured)) break;
        add(rule.blocks?.(measured, from, left, gap), rule.charge(measured, from, left, gap), Math.max(0, at - 1));
        break;
      }
      case "stroke-move": {
        if (at === 0 || !isPlucked(left) || right.stroke === null) break;
        const pluck = pluckBefore(line, at);
        const struck = line.rights[pluck] as Right;
        if (struck.stroke === null) break;
        // Of several attacks under one name the last comes before the next note, and the first after the one before.
        const before = struck.figure === null ? struck : struck.figure.last;
        const now = right.figure === null ? right : right.figure.first;
        const gap = strokeGap(line, at, pluck);
        const measured = rule.measure(before, now, gap);
        if (!Number.isNaN(measured)) add(rule.blocks?.(measured), rule.charge(measured, before, now, gap), pluck);
        break;
      }
      case "passage":
        break;
    }
  }
  return { blocked, effort };
}

/** Rules of these kinds are matters of taste: in a struggling passage what the writer asked for is meant. */
const TASTE = ["idiom", "efficiency", "character"];

/** How much heavier or lighter the brief makes a charge between two moments. */
function scaleOf(rule: Rule, since: Moment, now: Moment, brief: Brief): number {
  const bar = (moment: Moment): number => (moment.notes[0] as MomentNote).source.bar;
  const within = (span: Span, moment: Moment): boolean => span.fromBar <= bar(moment) && bar(moment) <= span.toBar;
  const holdsBoth = (span: Span): boolean => within(span, since) && within(span, now);
  if (brief.accept.some((one) => one.rule === rule.id && holdsBoth(one))) return 0;
  const struggles = brief.passages.some((one) => one.character === "struggling" && holdsBoth(one));
  if (struggles && TASTE.includes(rule.kind) && isWritten(since) && isWritten(now)) return 0;
  const flows = brief.passages.some((one) => one.character === "flowing" && within(one, now));
  return (brief.weights[rule.id] ?? 1) * (flows && rule.movement === true ? 1.5 : 1);
}

/** The writer said on which string and with which stroke every note is played, or that it sounds without a pluck. */
function isWritten(moment: Moment): boolean {
  return moment.notes.every(({ given: { string, stroke, arrival } }) => {
    const hangs = arrival !== null && arrival !== "plucked";
    return hangs || (string !== null && stroke !== null);
  });
}

/** The left hand before the first note may be anywhere. */
const ANYWHERE: Left = {
  placed: [],
  first: null,
  second: null,
  missing: [],
  strings: { id: -1, outer: 0, inner: 0 },
  arrival: "plucked",
  chain: 0,
  handFromCm: 0,
  handToCm: Number.MAX_VALUE,
};

const isPlucked = (left: Left): boolean => left.arrival === "plucked";

/** The moment of the last pluck before this moment; a note without a pluck hangs on the one that it was slid from. */
function pluckBefore(line: Fingered, at: number): number {
  let pluck = at - 1;
  while (pluck > 0 && !isPlucked(line.lefts[pluck] as Left)) pluck--;
  return pluck;
}

/** Seconds from one moment's onset to another's. */
function seconds(line: Fingered, from: number, to: number): number {
  return secondsBetween((line.moments[from] as Moment).onsetSeconds, (line.moments[to] as Moment).onsetSeconds);
}

function handGap(line: Fingered, at: number) {
  const { rested, silent, asks } = line.moments[at] as Moment;
  const first = at === 0;
  const ornament = !first && ((line.moments[at - 1] as Moment).notes[0] as MomentNote).source.grace;
  const sinceBefore = first ? Number.POSITIVE_INFINITY : seconds(line, at - 1, at);
  const hangs = !isPlucked(line.lefts[at] as Left);
  const sincePluckSeconds = hangs ? seconds(line, pluckBefore(line, at), at) : sinceBefore;
  return {
    seconds: sinceBefore,
    rested: rested || first,
    silent: silent || first,
    asked: asks === "slide",
    ornament,
    sincePluckSeconds,
  };
}

function strokeGap(line: Fingered, at: number, pluck: number) {
  return {
    seconds: seconds(line, pluck, at),
    rested: (line.moments[at] as Moment).rested,
    ornament: (line.moments[at] as Moment).afterGrace,
    ringsOn: (line.moments[at - 1] as Moment).ringsOn,
  };
}

/** What is wrong with a fingering as such, in words; empty where two hands could do it. */
export function faultsOf(line: Fingered, setting: Setting): readonly string[] {
  return line.moments.flatMap((_, at) => faultsAt(line, at, setting).map((fault) => `moment ${at}: ${fault}`));
}

/** What is wrong at one moment, after the moment before. */
export function faultsAt(line: Fingered, at: number, setting: Setting): readonly string[] {
  const left = line.lefts[at] as Left;
  return [
    ...noteFaults(line.moments[at] as Moment, left, setting),
    ...(isPlucked(left) ? pluckFaults(left, line.rights[at] as Right) : hangFaults(line, at, setting)),
  ];
}

function noteFaults(moment: Moment, left: Left, setting: Setting): string[] {
  const accounted = [...left.placed, ...left.missing].map(({ note }) => note).sort();
  const whole = accounted.join() === moment.notes.map((_, index) => index).join();
  const wrong = left.placed.filter((placed) => !sounds(placed, moment.notes[placed.note] as MomentNote, setting));
  return [
    ...(whole ? [] : [`notes ${accounted.join(" ")} of ${moment.notes.length}`]),
    ...wrong.map(({ string, position }) => `${position} on string ${string} sounds another note`),
  ];
}

/** Whether a place sounds its note within the tolerance of harmonics and microtones, or the score wrote it wrong. */
function sounds(placed: Placed, note: MomentNote, setting: Setting): boolean {
  if (placed.mismatch) return note.source.given.position !== null || note.source.given.sound === "open";
  const open = setting.tuning.semitones[placed.string - 1] as number;
  const sounding = centsOf(open, setting.gong, setting.temperament) + centsAbove(placed);
  return Math.abs(sounding - note.cents) < 50;
}

/** Cents above the open string that a place sounds. */
function centsAbove(placed: Placed): number {
  switch (placed.sound) {
    case "open":
      return 0;
    case "stopped":
      return centsAt(placed.exact);
    case "harmonic":
      return harmonicCents(placed.position ?? 0);
  }
}

/** A pluck strikes exactly the strings that the left hand has placed, two of them by a pinch. */
function pluckFaults(left: Left, right: Right): string[] {
  const strings = left.placed.map(({ string }) => string).sort();
  const struck = [
    ...(right.stroke === null ? [] : [right.strings.outer]),
    ...(right.innerStroke === null ? [] : [right.strings.inner]),
  ];
  const waits = right.planted > 0 && right.stroke !== "mo" && right.stroke !== "tiao";
  return [
    ...(strings.join() === struck.join() ? [] : [`placed on ${strings.join("+")}, struck on ${struck.join("+")}`]),
    ...(waits ? ["the middle finger waits while the index does not play"] : []),
    ...(left.chain === 0 ? [] : ["a pluck within a chain"]),
  ];
}

/** A note without a pluck keeps the stroke, and comes from a stop on the same string. */
function hangFaults(line: Fingered, at: number, setting: Setting): string[] {
  const left = line.lefts[at] as Left;
  const before = line.lefts[at - 1];
  const [to, ...more] = left.placed;
  if (before === undefined || to === undefined || more.length > 0) return ["no single note to sound without a pluck"];
  const [from, ...others] = before.placed;
  if (from === undefined || others.length > 0 || from.sound !== "stopped") return ["it comes from no single stop"];
  const stands = line.rights[at] === line.rights[at - 1];
  return [
    ...(from.string === to.string ? [] : [`string ${to.string} without a pluck after string ${from.string}`]),
    ...(stands ? [] : ["the stroke changes without a pluck"]),
    ...(left.chain === before.chain + 1 ? [] : [`number ${left.chain} of its chain after ${before.chain}`]),
    ...(leads(from, to, left.arrival, setting) ? [] : [`${left.arrival} from ${from.finger} to ${to.finger}`]),
  ];
}

/** Whether the left hand alone gets from one stop to a note on its string in this way. */
function leads(from: Placed, to: Placed, arrival: Left["arrival"], setting: Setting): boolean {
  const stretchCm = setting.hand.spanLimitCm;
  const held = (thumb: Placed, ring: Placed): boolean =>
    thumb.finger === "thumb" &&
    ring.finger === "ring" &&
    thumb.contact === "tip" &&
    ring.contact === "tip" &&
    ring.cm > thumb.cm &&
    ring.cm - thumb.cm <= stretchCm;
  switch (arrival) {
    case "slid":
      return to.sound === "stopped" && from.finger === to.finger && from.contact === to.contact && from.cm !== to.cm;
    case "pulled-off":
      return to.sound === "open" || held(from, to);
    case "hammered":
      return held(to, from);
    case "plucked":
      return false;
  }
}
