// SPDX-License-Identifier: AGPL-3.0-or-later
// What the pictures of a report draw: both hands moment by moment, the odd strings of the mode, and the bill bar by bar.
import { strokesOf } from "../model/compounds.js";
import { type Compound, closes, type Finger, type Sound, type Stroke } from "../model/fingering.js";
import { handDistanceCm } from "../model/hand-distance.js";
import { gongAt } from "../model/melody-gong.js";
import { ZONES, type Zone, type ZonePattern, zonePatterns } from "../model/mode-pattern.js";
import type { Moment } from "../model/moments.js";
import type { Scale } from "../model/note-table.js";
import type { Left, Placed, Right } from "../model/playing.js";
import type { Score, ScoreNote } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import type { RuleKind } from "../rule/types.js";
import type { Charge, Played } from "../search/charges.js";

/** A note where the left hand has it. */
export interface PicturePlace {
  readonly string: number;
  readonly sound: Sound;
  /** written hui and tenths, the hui of a harmonic, null for an open string */
  readonly position: number | null;
  /** exact place in cm from the bridge; the string's length for an open string */
  readonly cm: number;
  /** null where no finger stops the string */
  readonly finger: Finger | null;
}

/** Which way a stroke moves the hand: toward a fist, out of it, or both at once or in turn. */
export type Direction = "closing" | "opening" | "both";

/** The one movement that the right hand makes at a moment, a compound stroke as a whole. */
export interface PictureStroke {
  /** the single strokes that it consists of, in order */
  readonly strokes: readonly Stroke[];
  readonly compound: Compound | null;
  readonly direction: Direction;
  /** spare moves that this stroke costs because the one before moved the hand the same way */
  readonly breakEffort: number;
}

/** All that begins at one time. */
export interface PictureMoment {
  /** ids of its notes, lowest first */
  readonly notes: readonly string[];
  /** index of its bar */
  readonly bar: number;
  /** quarter notes from the start of its bar, as printed */
  readonly onset: number;
  readonly grace: boolean;
  /** none where nothing can be placed */
  readonly places: readonly PicturePlace[];
  /** how far the left hand has come since it last touched a string, in cm; 0 for open strings */
  readonly travelCm: number;
  /** null where the left hand sounds the note alone, or nothing does */
  readonly stroke: PictureStroke | null;
  /** the string on which the right middle finger waits meanwhile */
  readonly planted: number | null;
}

/** What one bar costs. */
export interface BarEffort {
  readonly blocked: number;
  /** spare moves in all */
  readonly effort: number;
  /** spare moves by kind of rule; kinds that charge nothing are not named */
  readonly kinds: readonly { readonly kind: RuleKind; readonly effort: number }[];
}

/** A part of the board with what most strings have there, and the odd ones. */
export type PictureZone = ZonePattern & Pick<Zone, "from" | "to">;

/** The zones of a scale with their ends. */
export function pictureZones(scale: Scale): readonly PictureZone[] {
  return zonePatterns(scale).flatMap((pattern) =>
    ZONES.filter(({ name }) => name === pattern.zone).map(({ from, to }) => ({ ...pattern, from, to })),
  );
}

/** All that the pictures draw. */
export interface Pictures {
  /** cm from bridge to nut */
  readonly scaleLengthCm: number;
  /** a travel beyond this is more than the span of a relaxed hand, in cm */
  readonly spanCm: number;
  /** what most strings have in each part of the board, and the odd ones */
  readonly zones: readonly PictureZone[];
  readonly moments: readonly PictureMoment[];
  /** one a bar */
  readonly bars: readonly BarEffort[];
}

/** The rule that charges a break in the turns of closing and opening strokes. */
const BREAK_RULE = "alternate-strokes";

/** Gathers what the pictures draw. @param bill all that is charged */
export function picturesOf(score: Score, setting: Setting, played: Played, bill: readonly Charge[]): Pictures {
  const sources = new Map(score.notes.map((note) => [note.id, note]));
  const { hand, scaleLengthCm, tuning, temperament } = setting;
  const byBar = score.bars.map((): Charge[] => []);
  for (const charge of bill) byBar[sources.get(charge.notes.at(-1) ?? "")?.bar ?? -1]?.push(charge);
  return {
    scaleLengthCm,
    spanCm: hand.comfortableSpanCm,
    zones: pictureZones({ tuning, temperament, gong: gongAt(score, setting) }),
    moments: pictureMoments(score, setting, played, breaksIn(bill)),
    bars: byBar.map(barEffort),
  };
}

/** Effort in thousandths by the note that a break leads to. */
function breaksIn(bill: readonly Charge[]): ReadonlyMap<string, number> {
  return new Map(
    bill
      .filter(({ rule, cost }) => rule.id === BREAK_RULE && cost.effort > 0)
      .map(({ notes, cost }) => [notes.at(-1) as string, cost.effort]),
  );
}

function pictureMoments(
  score: Score,
  setting: Setting,
  played: Played,
  breaks: ReadonlyMap<string, number>,
): readonly PictureMoment[] {
  let touched: Left | null = null;
  return played.moments.map((moment, at) => {
    const left = played.lefts[at] as Left;
    const right = played.rights[at] as Right;
    const touches = left.placed.some(({ sound }) => sound !== "open");
    const travelCm = touches && touched !== null ? handDistanceCm(touched, left, setting) : 0;
    if (touches) touched = left;
    const owners = moment.notes.map(({ source }) => breaks.get(source.id) ?? 0);
    const { source } = moment.notes[0] as Moment["notes"][number];
    return {
      notes: moment.notes.map((note) => note.source.id),
      bar: source.bar,
      onset: onsetInBar(score, source),
      grace: source.grace,
      places: left.placed.map((placed) => placeOf(placed, setting)),
      travelCm: tenths(travelCm),
      stroke: left.chain > 0 || right.stroke === null ? null : strokeOf(right, Math.max(...owners) / 1000),
      planted: right.planted === 0 ? null : right.planted,
    };
  });
}

function onsetInBar(score: Score, { bar, onset }: ScoreNote): number {
  const start = score.bars[bar]?.onset;
  return start === undefined ? 0 : onset.sub(start).valueOf();
}

function placeOf({ string, sound, position, cm, finger }: Placed, { scaleLengthCm }: Setting): PicturePlace {
  return { string, sound, position, cm: sound === "open" ? scaleLengthCm : tenths(cm), finger };
}

/** More than a tenth of a centimetre no hand can tell. */
const tenths = (cm: number): number => Math.round(cm * 10) / 10;

function strokeOf(right: Right, breakEffort: number): PictureStroke {
  const single = right.stroke === null ? [] : [right.stroke];
  const inner = right.innerStroke === null ? [] : [right.innerStroke];
  const strokes = right.figure === null ? [...single, ...inner] : strokesOf(right.figure.name);
  const compound = right.pinch ?? right.figure?.name ?? null;
  return { strokes, compound, direction: directionOf(strokes), breakEffort };
}

/** Which way some strokes move the hand, taken together. */
export function directionOf(strokes: readonly Stroke[]): Direction {
  if (strokes.every(closes)) return "closing";
  return strokes.some(closes) ? "both" : "opening";
}

function barEffort(charges: readonly Charge[]): BarEffort {
  const sums = new Map<RuleKind, number>();
  let blocked = 0;
  for (const { rule, cost } of charges) {
    blocked += cost.blocked;
    if (cost.effort > 0) sums.set(rule.kind, (sums.get(rule.kind) ?? 0) + cost.effort);
  }
  const total = [...sums.values()].reduce((sum, effort) => sum + effort, 0);
  return {
    blocked,
    effort: total / 1000,
    kinds: [...sums].map(([kind, effort]) => ({ kind, effort: effort / 1000 })),
  };
}
