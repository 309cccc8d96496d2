// SPDX-License-Identifier: AGPL-3.0-or-later
// Lines of two bars that a study may consist of: the sign on every second beat, on one string, with what else is left out
// between.
import { centsAt, harmonicCents, NUT_POSITION } from "../../model/board.js";
import { closes, type GivenFingering } from "../../model/fingering.js";
import { isCore } from "../../model/note-table.js";
import type { ShortNote } from "../../model/short-line.js";
import { isStroke, type Sign } from "../../model/sign.js";
import type { Ground } from "./ground.js";
import { leadTo, needsLead } from "./lead.js";
import { type Spot, type StudySetting, spotKey } from "./spot.js";

/** What is left out. */
export interface LeftOut {
  readonly strings: readonly number[];
  readonly before: readonly Sign[];
  readonly after: readonly Sign[];
  /** by their keys */
  readonly spots: readonly string[];
}

/** A line before it is searched. */
export interface Plan {
  readonly string: number;
  readonly positions: readonly number[];
  /** what stands before and after the sign */
  readonly between: readonly Sign[];
  readonly notes: readonly ShortNote[];
  /** the same with nothing asked of the notes between */
  readonly plainly: readonly ShortNote[];
}

/** The sign comes so often in a line. */
const TIMES = 4;
/** Strokes between are at home within so many strings. */
const NEAR_STRINGS = 3;
/** Notes between lie within so many semitones of the notes beside them. */
const NEAR_SEMITONES = 7;

/** Plans in the order of need: strings first, then what stands beside the sign, then places. */
export function* plansFor(ground: Ground, missing: LeftOut, setting: StudySetting): Generator<Plan> {
  const strings = [...ground.strings].sort((a, b) => rank(a, missing) - rank(b, missing));
  const between = [...new Set([...missing.before, ...missing.after])].sort(
    (a, b) => order(a, ground.sign) - order(b, ground.sign),
  );
  const rounds = strings.map((string) => ({ string, groups: groups(string, ground, missing) }));
  const most = Math.max(...rounds.map((one) => one.groups.length));
  for (let round = 0; round < most; round++)
    for (const { string, groups } of rounds) {
      const positions = groups[round];
      if (positions === undefined) continue;
      // What stands between goes round, so that each line takes up where the one before ended.
      const signs =
        between.length === 0 ? [] : Array.from({ length: TIMES }, (_, i) => between[i % between.length] as Sign);
      between.push(...between.splice(0, Math.min(TIMES, between.length)));
      yield planOf(string, positions, signs, ground, setting);
    }
}

/** Strings that are left out come first. */
const rank = (string: number, { strings }: LeftOut): number => (strings.includes(string) ? 0 : 1);

/** By turns is how strokes are practised first: those that move the hand the other way come before the others. */
function order(sign: Sign, focus: Sign): number {
  if (!isStroke(sign) || !isStroke(focus)) return 0;
  return closes(sign) === closes(focus) ? 1 : 0;
}

/** The places of a string by fours, those left out first; at least one group for a string that is left out. */
function groups(string: number, { spots }: Ground, missing: LeftOut): readonly (readonly number[])[] {
  const own = spots.filter((spot) => spot.string === string).map(({ position }) => position);
  const wanted = own.filter((position) => missing.spots.includes(spotKey({ string, position })));
  const all = wanted.length > 0 ? wanted : own;
  const count = Math.ceil(all.length / TIMES);
  return Array.from({ length: count }, (_, group) =>
    Array.from({ length: TIMES }, (_, i) => all[(group * TIMES + i) % all.length] as number),
  );
}

function planOf(
  string: number,
  positions: readonly number[],
  between: readonly Sign[],
  { sign, struckOn }: Ground,
  setting: StudySetting,
): Plan {
  const open = setting.tuning.semitones[string - 1] as number;
  const pitches = positions.map((position) => open + semitonesAt(position, sign));
  const write = (asked: readonly Sign[]): readonly ShortNote[] =>
    positions.flatMap((position, i) => {
      const pitch = pitches[i] as number;
      const lead = leadNote(sign, { string, position }, setting);
      const wish = asked[i];
      const stroke = wish === undefined ? undefined : struckOn.get(wish);
      // A stroke that is at home far away is practised where the study comes near its strings.
      const near = stroke === undefined || stroke.some((home) => Math.abs(home - string) <= NEAR_STRINGS);
      const beside = near ? wish : undefined;
      const filler =
        lead ??
        (beside !== undefined && stroke !== undefined
          ? openNear(string, beside, stroke, setting)
          : {
              semitone: fillerNear(pitch, pitches[i - 1] ?? pitch, setting),
              given: beside === undefined ? {} : givenBy(beside),
              slurred: false,
            });
      return [filler, { semitone: pitch, given: targetOf(sign, string, position), slurred: lead !== null }];
    });
  return { string, positions, between, notes: write(between), plainly: write([]) };
}

/** Semitones above the open string. */
function semitonesAt(position: number, sign: Sign): number {
  if (position === NUT_POSITION) return 0;
  return Math.round((sign === "harmonic" ? harmonicCents(position) : centsAt(position)) / 100);
}

/** What is asked of the note that has the sign. */
function targetOf(sign: Sign, string: number, position: number): Partial<GivenFingering> {
  const placed =
    position === NUT_POSITION ? { sound: "open" as const, string } : { sound: "stopped" as const, string, position };
  if (isStroke(sign)) return { ...placed, stroke: sign, arrival: "plucked" };
  switch (sign) {
    case "open":
      return { ...placed, arrival: "plucked" };
    case "harmonic":
      return { sound: "harmonic", string, position };
    case "joint":
    case "kneeling":
      return { ...placed, finger: "ring", contact: sign, arrival: "plucked" };
    case "shang":
    case "xia":
      return { ...placed, arrival: "slid" };
    case "pull-off":
      return { ...placed, arrival: "pulled-off" };
    case "yan":
      return { ...placed, arrival: "hammered" };
    default:
      return { ...placed, finger: sign, contact: "tip", arrival: "plucked" };
  }
}

/** A stroke beside it is struck on an open string near by, where it is at home: the ear and the left hand are free. */
function openNear(near: number, sign: Sign, strings: readonly number[], { tuning }: StudySetting): ShortNote {
  const string = strings.reduce((best, one) => (apart(one, near) < apart(best, near) ? one : best), strings[0] ?? near);
  const semitone = tuning.semitones[string - 1] as number;
  const given = { sound: "open" as const, string, arrival: "plucked" as const };
  return { semitone, given: isStroke(sign) ? { ...given, stroke: sign } : given, slurred: false };
}

/** How far two strings lie apart; the same string counts as far, since it would be silenced. */
const apart = (a: number, b: number): number => (a === b ? 2.5 : Math.abs(a - b));

/** The stop on the same string from which a sound without a stroke begins; null for signs that need none. */
function leadNote(sign: Sign, spot: Spot, setting: StudySetting): ShortNote | null {
  const semitone = needsLead(sign) ? leadTo(sign, spot, setting) : null;
  if (semitone === null) return null;
  return { semitone, given: { sound: "stopped", string: spot.string, arrival: "plucked" }, slurred: false };
}

/** What is asked of a note beside it. */
function givenBy(sign: Sign): Partial<GivenFingering> {
  if (sign === "open") return { sound: sign };
  return sign === "thumb" || sign === "index" || sign === "middle" || sign === "ring"
    ? { sound: "stopped", finger: sign, contact: "tip" }
    : {};
}

/** One of the five tones between two notes, or beside them: a step where there is one. */
function fillerNear(pitch: number, before: number, setting: StudySetting): number {
  const { scale, tuning } = setting;
  const [low, high] = [Math.min(...tuning.semitones), Math.max(...tuning.semitones) + 12];
  const middle = (pitch + before) / 2;
  const tones = Array.from({ length: 2 * NEAR_SEMITONES + 1 }, (_, i) => pitch - NEAR_SEMITONES + i).filter(
    (tone) => tone !== pitch && tone >= low && tone <= high && isCore(tone, scale),
  );
  return tones.reduce(
    (best, tone) => (Math.abs(tone - middle) < Math.abs(best - middle) ? tone : best),
    tones[0] ?? pitch,
  );
}
