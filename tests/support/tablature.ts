// SPDX-License-Identifier: AGPL-3.0-or-later
// Readings of every kind that a fingering can hold.
import type { TablatureReading } from "../../src/engrave/tablature/layout.js";
import { BARE } from "../../src/engrave/tablature/specimen.js";
import { courseOf } from "../../src/model/compounds.js";
import {
  type Contact,
  ENTRIES,
  type Entry,
  FIGURES,
  type Finger,
  ORNAMENTS,
  type Ornament,
  PINCHES,
  STROKES,
} from "../../src/model/fingering.js";

/** An open string. @example open({ stroke: "gou", string: 1 }) */
export const open = (rest: Partial<TablatureReading>): TablatureReading => ({ ...BARE, ...rest });
/** A harmonic. */
export const harmonic = (rest: Partial<TablatureReading>): TablatureReading => ({
  ...BARE,
  sound: "harmonic",
  ...rest,
});
/** A stopped note, by the tip of the thumb unless it says otherwise. */
export const stopped = (rest: Partial<TablatureReading>): TablatureReading => ({
  ...BARE,
  sound: "stopped",
  finger: "thumb",
  contact: "tip",
  ...rest,
});

const STRINGS = [1, 2, 3, 4, 5, 6, 7];
/** Every tenth from hui 1 to the nut, and two places between tenths. */
const PLACES = [...Array.from({ length: 130 }, (_, i) => (10 + i) / 10), 12.25, 7.05];
const HOLDS: readonly (readonly [Finger, Contact])[] = [
  ["thumb", "tip"],
  ["thumb", "joint"],
  ["index", "tip"],
  ["middle", "tip"],
  ["ring", "tip"],
  ["ring", "joint"],
  ["ring", "kneeling"],
];
const ALL_ENTRIES: readonly (Entry | null)[] = [null, ...ENTRIES];
const ALL_ORNAMENTS: readonly (Ornament | null)[] = [null, ...ORNAMENTS];

const strikes = (): readonly Partial<TablatureReading>[] =>
  STROKES.flatMap((stroke) => STRINGS.map((string) => ({ stroke, string })));

/** Compound strokes on every string, or over every two strings that they can go over. */
const figures = (): readonly Partial<TablatureReading>[] =>
  FIGURES.flatMap((figure) => {
    if (courseOf(figure) === "one") return STRINGS.map((string) => ({ figure, string }));
    return STRINGS.flatMap((from) =>
      STRINGS.filter((to) => to !== from).map((to) => ({ figure, string: from, across: [from, to] })),
    );
  });

const sounds = (rest: Partial<TablatureReading>): readonly TablatureReading[] => [
  open(rest),
  harmonic({ ...rest, position: 9 }),
  stopped({ ...rest, position: 7.6 }),
  stopped({ ...rest, position: 10, finger: "ring" }),
];

/** Every stroke and string, with every hold and place. */
export function plainReadings(): readonly TablatureReading[] {
  return strikes().flatMap((strike) => [
    open(strike),
    ...PLACES.flatMap((position) => [
      // Harmonics sound at the hui themselves.
      ...(Number.isInteger(position) ? [harmonic({ ...strike, position })] : []),
      ...HOLDS.map(([finger, contact]) => stopped({ ...strike, position, finger, contact })),
    ]),
  ]);
}

/** Compounds, pinches, entries and ornaments in every combination, at a few places. */
export function richReadings(): readonly TablatureReading[] {
  const pinched = PINCHES.flatMap((pinch) => strikes().map((strike) => ({ ...strike, pinch })));
  return [...figures(), ...pinched, ...strikes()].flatMap((strike) => [
    ...sounds(strike),
    ...ALL_ENTRIES.flatMap((entry) =>
      ALL_ORNAMENTS.flatMap((ornament) =>
        entry === null && ornament === null ? [] : [stopped({ ...strike, position: 7.6, entry, ornament })],
      ),
    ),
  ]);
}

/** Everything that sounds without a pluck: slides either way, hammer-ons, the three pull-offs. */
export function unpluckedReadings(): readonly TablatureReading[] {
  const from = (position: number, finger: Finger): TablatureReading["previous"] => ({ position, finger });
  return [
    ...PLACES.flatMap((position) => [
      stopped({ arrival: "slid", position, previous: from(13.95, "thumb") }),
      stopped({ arrival: "slid", position, previous: from(0.5, "thumb") }),
      stopped({ arrival: "hammered", position }),
    ]),
    open({ arrival: "pulled-off", previous: from(9, "ring") }),
    open({ arrival: "pulled-off", previous: from(9, "thumb") }),
    stopped({ arrival: "pulled-off", position: 10, finger: "ring", previous: from(9, "thumb") }),
  ];
}
