// SPDX-License-Identifier: AGPL-3.0-or-later
// How long a sound can be heard: shared by the rules on long notes and on late slides.
import type { Placed } from "../../src/model/playing.js";
import type { Parameter } from "../../src/rule/types.js";
import { phrase } from "../../src/words.js";

/** Seconds that sounds are heard. No measured decay times are published: only their order is, and the numbers are ours. */
export const RING_PARAMETERS = {
  ringOpen: {
    default: 5,
    unit: "s",
    doc: phrase("an open string is heard this long", "散音听得见这么久"),
    evidence: "our judgement",
  },
  ringHarmonic: {
    default: 2.5,
    unit: "s",
    doc: phrase("a harmonic is heard this long", "泛音听得见这么久"),
    evidence: "our judgement",
  },
  ringThumb: {
    default: [2.8, 2.2, 1.5, 1],
    unit: "s",
    doc: phrase(
      "a stop by the tip of the thumb: at hui 9 and lower, 7 to 9, 5 to 7, above 5",
      "大指指尖的按音：九徽及其左，七至九徽，五至七徽，五徽以右",
    ),
    evidence: "our judgement",
  },
  ringZones: {
    default: [9, 7, 5],
    unit: "hui",
    doc: phrase("where those four zones meet", "这四段的分界"),
    evidence: "our judgement",
  },
  ringFlesh: {
    default: 0.75,
    unit: "of the thumb's time",
    doc: phrase(
      "a stop by another finger, by a joint or by the kneeling finger: flesh swallows the sound sooner than the nail",
      "其他手指、指节或跪指的按音：指肉比指甲吸音",
    ),
    evidence: "our judgement",
  },
} as const satisfies Readonly<Record<string, Parameter>>;

/** The values of {@link RING_PARAMETERS}. */
export interface RingValues {
  readonly ringOpen: number;
  readonly ringHarmonic: number;
  readonly ringThumb: readonly number[];
  readonly ringZones: readonly number[];
  readonly ringFlesh: number;
}

/** Seconds that a plucked note is heard, by kind of sound, by zone of the board, by finger and contact. */
export function ringSeconds(placed: Placed, values: RingValues): number {
  if (placed.sound === "open") return values.ringOpen;
  if (placed.sound === "harmonic") return values.ringHarmonic;
  const position = placed.position ?? placed.exact;
  let zone = 0;
  while (zone < values.ringZones.length && position < (values.ringZones[zone] as number)) zone++;
  const nail = values.ringThumb[zone] as number;
  return placed.finger === "thumb" && placed.contact === "tip" ? nail : nail * values.ringFlesh;
}
