// SPDX-License-Identifier: AGPL-3.0-or-later
// Where a sign can be practised: its strings, the places of the scale on them, and the signs that may stand beside it.
import { NUT_POSITION } from "../../model/board.js";
import { STROKES, type Stroke } from "../../model/fingering.js";
import { isCore } from "../../model/note-table.js";
import { placesOn } from "../../model/places.js";
import { RIGHTS, type Right } from "../../model/playing.js";
import { isStroke, type Sign } from "../../model/sign.js";
import { centsOf } from "../../model/temperament.js";
import type { Rule, StrikeRule } from "../../rule/types.js";
import { leadTo, needsLead } from "./lead.js";
import type { Spot, StudySetting } from "./spot.js";

/** Where a sign can be practised. */
export interface Ground {
  readonly sign: Sign;
  readonly strings: readonly number[];
  readonly spots: readonly Spot[];
  readonly neighbours: readonly Sign[];
  /** strings on which each stroke is at home */
  readonly struckOn: ReadonlyMap<Sign, readonly number[]>;
}

const STRINGS = [1, 2, 3, 4, 5, 6, 7] as const;
/** Studies stay in the lower two registers, up to hui 7 (our judgement). */
const HIGHEST_SEMITONES = 12;
/** Harmonics are practised where they are in tune, within so many cents. */
const PURE_CENTS = 12;
/** Harmonics at these hui sound clearly (common practice, no source). */
const CLEAR_HUI: ReadonlySet<number> = new Set([4, 5, 7, 9, 10]);

/** The ground of a sign in a setting. @param rules what they withhold is not practised */
export function groundOf(sign: Sign, setting: StudySetting, rules: readonly Rule[]): Ground {
  const strings = isStroke(sign) ? homeOf(sign, rules, IN_USE) : STRINGS;
  const neighbours: readonly Sign[] = isStroke(sign) ? STROKES : ["open", "thumb", "middle", "ring"];
  const struckOn = new Map(STROKES.map((stroke) => [stroke, homeOf(stroke, rules)] as const));
  return { sign, strings, spots: strings.flatMap((string) => spotsOn(string, sign, setting)), neighbours, struckOn };
}

function isWithheld(sign: Sign, string: number, rules: readonly Rule[]): boolean {
  const right = strokeAlone(sign, string);
  return right === undefined || rules.some((rule) => rule.reach === "strike" && rule.withholds?.(right) === true);
}

/** A stroke on one string, while no finger waits. */
function strokeAlone(sign: Sign, string: number): Right | undefined {
  return RIGHTS.find(
    ({ stroke, strings, planted, figure }) =>
      stroke === sign && strings.outer === string && strings.inner === string && planted === 0 && figure === null,
  );
}

/** A stroke is at home where it costs at most so much more than on its best string, in spare moves (our judgement). */
const AT_HOME = 0.15;
/** It is in use where it costs at most so much more (our judgement). */
const IN_USE = 0.5;

/** The strings on which a stroke costs at most so much more than on its best one. */
function homeOf(stroke: Stroke, rules: readonly Rule[], more = AT_HOME): readonly number[] {
  const prices = STRINGS.filter((string) => !isWithheld(stroke, string, rules)).map((string) => {
    const right = strokeAlone(stroke, string) as Right;
    const charges = rules.map((rule) => (rule.reach === "strike" ? chargeOf(rule, right) : 0));
    return { string, price: charges.reduce((sum, charge) => sum + charge, 0) };
  });
  const best = Math.min(...prices.map(({ price }) => price));
  return prices.filter(({ price }) => price <= best + more).map(({ string }) => string);
}

function chargeOf(rule: StrikeRule, right: Right): number {
  const measured = rule.measure(right);
  return Number.isNaN(measured) ? 0 : rule.charge(measured, right);
}

/** The places of the five tones on a string where the sign can stand, from the nut up. */
function spotsOn(string: number, sign: Sign, setting: StudySetting): readonly Spot[] {
  const open = setting.tuning.semitones[string - 1] as number;
  const { gong, temperament, scale } = setting;
  const spots: Spot[] = [];
  const reach = sign === "harmonic" ? 36 : HIGHEST_SEMITONES;
  for (let above = 0; above <= reach; above++) {
    if (!isCore(open + above, scale)) continue;
    const places = placesOn(string, open + above, centsOf(open + above, gong, temperament), setting);
    for (const { sound, position, offCents } of places) {
      if (sound !== "open" && position === null) continue;
      if (sound === "harmonic" && (Math.abs(offCents) > PURE_CENTS || !CLEAR_HUI.has(position as number))) continue;
      if (isAllowed(sign, sound)) spots.push({ string, position: position ?? NUT_POSITION });
    }
  }
  return needsLead(sign) ? spots.filter((spot) => leadTo(sign, spot, setting) !== null) : spots;
}

function isAllowed(sign: Sign, sound: "open" | "stopped" | "harmonic"): boolean {
  if (isStroke(sign)) return sound !== "harmonic";
  if (sign === "open" || sign === "pull-off") return sound === "open";
  if (sign === "harmonic") return sound === "harmonic";
  return sound === "stopped";
}
