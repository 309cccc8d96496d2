// SPDX-License-Identifier: AGPL-3.0-or-later
import { centsAt } from "../../src/model/board.js";
import type { MomentNote } from "../../src/model/moments.js";
import { pitchName } from "../../src/model/pitch.js";
import type { Placed } from "../../src/model/playing.js";
import { centsOf } from "../../src/model/temperament.js";
import { defineRule, plain } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";

/** A note with its place. */
interface Sounded {
  readonly note: MomentNote;
  readonly placed: Placed;
}

export default defineRule(
  {
    id: "comma-between-unisons",
    kind: "intonation",
    title: "A stop beside the open string that it should match",
    principle:
      "A stopped note and an open string of the same name, struck together or one after the other, are heard as one tone and must agree.",
    why: "The open string cannot give way: the ear takes it as right and the stop as wrong. Hui 11, 8, 6 and 3 give pure thirds and sixths, a comma of 22 cents from strings that are tuned in fifths.",
    whenRight: "Where all strings are tuned to pure thirds, or where a slide passes through the place.",
    remedy: "Write the place that agrees with the open string, as found by ear.",
    cures: ["fingering", "setting"],
    sources: [
      "the comma is arithmetic: 81/80 is 21.5 cents",
      "pure thirds avoided on strings tuned in fifths: J. Thompson, silkqin.com, Qin tunings, some theoretical concepts",
      "the limit in cents: our judgement",
    ],
    unit: "cents",
    parameters: {
      limit: {
        default: 15,
        unit: "cents",
        doc: "a larger difference is heard as two tones",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "A on string 3 at 10.8 agrees with the open string 5",
        kind: "passes",
        melody: "A2 A2",
        fingering: ["san gou 5", "ming 10.8 tiao 3"],
        finds: [],
      },
      {
        shows: "written at hui 11: a pure third above string 3, and lower than the open string 5",
        kind: "breaks",
        melody: "A2 A2",
        fingering: ["san gou 5", "ming 11 tiao 3"],
        finds: [
          [
            2,
            "caution",
            "A2 stopped at 11 on string 3 sounds 21.5 cents lower than the open string 5 beside it (limit 15 cents); 10.8 agrees.",
          ],
        ],
      },
      {
        shows: "strings tuned in pure thirds",
        kind: "exception",
        melody: "A2 A2",
        temperament: "just",
        fingering: ["san gou 5", "ming 11 tiao 3"],
        finds: [],
      },
    ],
  },
  (values, { tuning, gong, temperament }) => {
    const openCents = (string: number): number => centsOf(tuning.semitones[string - 1] as number, gong, temperament);

    /**
     * What the stop sounds. A usual place is a name and found by ear; another one that the score writes is meant to the
     * tenth.
     */
    const centsOfStop = ({ note, placed }: Sounded): number => {
      const { position } = note.given;
      const exactly = position !== null && position !== placed.position && note.given.sound !== "harmonic";
      return exactly ? openCents(placed.string) + centsAt(position) : note.cents;
    };

    /** Cents by which a stop sounds above an open string of the same name, octaves aside; null for other pairs. */
    const apart = (stop: Sounded, open: Sounded): number | null => {
      if (stop.placed.sound !== "stopped" || open.placed.sound !== "open") return null;
      if (stop.placed.mismatch || open.placed.mismatch) return null;
      if ((stop.note.semitone - open.note.semitone) % 12 !== 0) return null;
      const cents = centsOfStop(stop) - openCents(open.placed.string);
      return cents - 1200 * Math.round(cents / 1200);
    };

    const finding = (stop: Sounded, open: Sounded, cents: number, inTurn: readonly Sounded[]): PassageFinding => {
      const { note, placed } = stop;
      const written = note.given.position ?? placed.position;
      const side = cents > 0 ? "higher" : "lower";
      const agrees = written === placed.position ? "" : `; ${placed.position} agrees`;
      return {
        notes: inTurn.map((one) => one.note.source.id),
        severity: "caution",
        measured: Math.abs(cents),
        limit: values.limit,
        message: `${pitchName(note.sounding)} stopped at ${written} on string ${placed.string} sounds ${plain(Math.abs(cents))} cents ${side} than the open string ${open.placed.string} beside it (limit ${plain(values.limit)} cents)${agrees}.`,
      };
    };

    const soundedAt = ({ moments, lefts }: Line, at: number): readonly Sounded[] =>
      (lefts[at]?.placed ?? []).map((placed) => ({ placed, note: moments[at]?.notes[placed.note] as MomentNote }));

    return {
      reach: "passage",
      look: (line) => {
        const findings: PassageFinding[] = [];
        let looked = 0;
        const compare = (stop: Sounded, open: Sounded, inTurn: readonly Sounded[]): void => {
          const cents = apart(stop, open);
          if (cents === null) return;
          looked += 1;
          if (Math.abs(cents) > values.limit) findings.push(finding(stop, open, cents, inTurn));
        };
        for (let at = 0; at < line.moments.length; at++) {
          const [a, b] = soundedAt(line, at);
          if (a !== undefined && b !== undefined)
            for (const [x, y] of [
              [a, b],
              [b, a],
            ] as const)
              compare(x, y, [a, b]);
          for (const before of at === 0 ? [] : soundedAt(line, at - 1))
            for (const after of soundedAt(line, at)) {
              compare(before, after, [before, after]);
              compare(after, before, [before, after]);
            }
        }
        return { looked, findings };
      },
    };
  },
);
