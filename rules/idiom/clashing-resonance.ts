// SPDX-License-Identifier: AGPL-3.0-or-later
import { closes } from "../../src/model/fingering.js";
import { pitchName } from "../../src/model/pitch.js";
import type { Placed, Right } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";
import { placeWords, times } from "../shared/runs.js";
import { RING_PARAMETERS, ringSeconds } from "./ring-time.js";

/** A note that sounds against one that still rings. */
interface Clash {
  readonly ringing: Placed;
  readonly against: Placed;
  readonly fromId: string;
  readonly toId: string;
  readonly names: readonly [string, string];
  readonly seconds: number;
}

export default defineRule(
  {
    id: "clashing-resonance",
    kind: "idiom",
    title: "An open string rings on against its neighbour tone",
    principle:
      "Nothing stops an open string or a harmonic but a finger. A note a semitone away on another string sounds together with it.",
    why: "What is written as two tones in turn is heard as a semitone struck at once.",
    whenRight: "Where the rub is meant, or where the tone before was soft and long ago.",
    remedy:
      "Touch the ringing string, stop the first note instead of leaving it open, or play the second on the same string.",
    cures: ["fingering", "other-sound"],
    sources: [
      "common practice, no source",
      "how long sounds are heard is our judgement: no measured times are published",
    ],
    unit: "s",
    parameters: {
      ...RING_PARAMETERS,
      limit: { default: 1, unit: "s", doc: "a shorter rub passes unnoticed", evidence: "our judgement" },
      caution: { default: 2.5, unit: "s", doc: "beyond it a caution", evidence: "our judgement" },
    },
    examples: [
      {
        shows: "a whole tone beside the open string",
        kind: "passes",
        melody: "A2 G2:2",
        fingering: ["san gou 5", "san tiao 4"],
        finds: [],
      },
      {
        shows: "B flat beside the open A",
        kind: "breaks",
        melody: "A2 Bb2:2",
        fingering: ["san gou 5", "ming 10 ti 3"],
        finds: [
          [2, "note", "A2 (open string 5) rings on for 2 s against Bb2 (string 3 at 10), a semitone away (limit 1 s)."],
        ],
      },
      {
        shows: "an inward stroke on the string outside comes to rest on the open one and stops it",
        kind: "exception",
        melody: "A2 Bb2:2",
        fingering: ["san tiao 5", "ming 12.2 gou 4"],
        finds: [],
      },
    ],
  },
  (values) => {
    /** Whether a stroke of the right hand or its waiting finger lies on a string: it strikes it or comes to rest on it. */
    const touches = (right: Right, string: number): boolean => {
      const { outer, inner } = right.strings;
      if (string === outer || string === inner || string === right.planted) return true;
      const restsOn = (stroke: Right["stroke"], from: number): number => {
        if (stroke === null || !closes(stroke)) return 0;
        return stroke === "tuo" ? from - 1 : from + 1;
      };
      return restsOn(right.stroke, outer) === string || restsOn(right.innerStroke, inner) === string;
    };

    /** When a sound ends: it fades, a hand touches its string, or a rest asks for silence. */
    const endOf = ({ moments, lefts, rights }: Line, at: number, placed: Placed): number => {
      const moment = moments[at] as Line["moments"][number];
      const fades = moment.onsetSeconds + ringSeconds(placed, values);
      for (let next = at + 1; next < moments.length; next++) {
        const then = moments[next] as Line["moments"][number];
        if (then.onsetSeconds >= fades) return fades;
        if (then.silent) return then.onsetSeconds;
        if (lefts[next]?.chain === 0 && touches(rights[next] as Right, placed.string)) return then.onsetSeconds;
      }
      return fades;
    };

    /** The longest rub of a sound against later notes; null where there is none beyond the limit. */
    const clashOf = (line: Line, at: number, ringing: Placed): Clash | null => {
      const note = line.moments[at]?.notes[ringing.note];
      const end = endOf(line, at, ringing);
      let worst: Clash | null = null;
      for (let next = at + 1; next < line.moments.length; next++) {
        const then = line.moments[next] as Line["moments"][number];
        if (then.onsetSeconds >= end) break;
        for (const against of line.lefts[next]?.placed ?? []) {
          const other = then.notes[against.note];
          if (note === undefined || other === undefined || Math.abs(note.semitone - other.semitone) !== 1) continue;
          const lasts = Math.min(then.durationSeconds, ringSeconds(against, values));
          const seconds = Math.min(end, then.onsetSeconds + lasts) - then.onsetSeconds;
          if (seconds <= Math.max(values.limit, worst?.seconds ?? 0)) continue;
          const names = [pitchName(note.sounding), pitchName(other.sounding)] as const;
          worst = { ringing, against, fromId: note.source.id, toId: other.source.id, names, seconds };
        }
      }
      return worst;
    };

    /** One finding for all that rub in the same way. */
    const finding = (clashes: readonly Clash[]): PassageFinding => {
      const worst = clashes.reduce((a, b) => (b.seconds > a.seconds ? b : a));
      const often = clashes.length === 1 ? "" : ` It happens ${times(clashes.length)}.`;
      return {
        notes: [...new Set(clashes.flatMap(({ fromId, toId }) => [fromId, toId]))],
        severity: worst.seconds > values.caution ? "caution" : "note",
        measured: worst.seconds,
        limit: values.limit,
        message: `${worst.names[0]} (${placeWords(worst.ringing)}) rings on for ${plain(worst.seconds)} s against ${worst.names[1]} (${placeWords(worst.against)}), a semitone away (limit ${plain(values.limit)} s).${often}`,
      };
    };

    return {
      reach: "passage",
      look: (line) => {
        const ringing = line.lefts.flatMap(({ placed }, at) =>
          placed.filter(({ sound, mismatch }) => sound !== "stopped" && !mismatch).map((one) => ({ at, one })),
        );
        const groups = new Map<string, Clash[]>();
        for (const clash of ringing.flatMap(({ at, one }) => clashOf(line, at, one) ?? [])) {
          const key = `${placeWords(clash.ringing)} ${placeWords(clash.against)}`;
          groups.set(key, [...(groups.get(key) ?? []), clash]);
        }
        return { looked: ringing.length, findings: [...groups.values()].map(finding) };
      },
    };
  },
);
