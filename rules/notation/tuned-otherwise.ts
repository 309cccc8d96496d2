// SPDX-License-Identifier: AGPL-3.0-or-later
import { withHeld } from "../../src/model/held.js";
import type { MomentNote } from "../../src/model/moments.js";
import type { Strung } from "../../src/model/places.js";
import { scaleGong } from "../../src/model/scale-gong.js";
import { soundsWhereGiven } from "../../src/model/soundable.js";
import { centsOf } from "../../src/model/temperament.js";
import { TUNINGS, type Tuning } from "../../src/model/tuning.js";
import { defineRule } from "../../src/rule/define.js";

export default defineRule(
  {
    id: "tuned-otherwise",
    kind: "notation",
    title: "The places fit another tuning",
    principle:
      "A place names a note in one tuning only. Where every written place of a melody fits in another tuning and not in this one, the melody was fingered for that tuning.",
    why: "Judged in the wrong tuning, a good fingering looks wrong on every string that is tuned otherwise.",
    whenRight: "Where the places fit by chance, as in a few notes: then correct the places that do not fit.",
    remedy: "Name the tuning in the brief or with --tuning.",
    sources: [
      "pitches of the tunings: J. Thompson, silkqin.com, studies of the 1425 and 1525 handbooks and of the 39 tunings",
      "how many places tell a tuning from a slip: our judgement",
    ],
    unit: "places",
    parameters: {
      limit: {
        default: 1,
        unit: "places",
        doc: "so many that do not fit may be slips of the pen",
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: "open strings of the standard tuning",
        kind: "passes",
        melody: "G2 A2 C3 A2",
        fingering: ["san gou 4", "san tiao 5", "san mo 6", "san tiao 5"],
        finds: [],
      },
      {
        shows: "string 5 as B flat, as it is in ruibin",
        kind: "breaks",
        melody: "G2 Bb2 C3 Bb2",
        fingering: ["san gou 4", "san tiao 5", "san mo 6", "san tiao 5"],
        finds: [
          [
            0,
            "problem",
            "All 4 written places fit their notes in ruìbīn tuning (string 5 up a semitone): say tuning: ruibin in the brief. In zhèng diào tuning 2 of them do not.",
          ],
        ],
      },
      {
        shows: "the same where that tuning is named",
        kind: "exception",
        melody: "G2 Bb2 C3 Bb2",
        tuning: "ruibin",
        fingering: ["san gou 4", "san tiao 5", "san mo 6", "san tiao 5"],
        finds: [],
      },
      {
        shows: "one place that does not fit is a slip",
        kind: "exception",
        melody: "G2 Bb2 C3 G2",
        fingering: ["san gou 4", "san tiao 5", "san mo 6", "san gou 4"],
        finds: [],
      },
    ],
  },
  (values, setting) => {
    const saysPitch = ({ source }: MomentNote): boolean =>
      source.given.string !== null && (source.given.sound === "open" || source.given.position !== null);

    /** How many notes are written where they do not sound. */
    const misfits = (notes: readonly MomentNote[], strung: Required<Strung>): number =>
      notes.filter(({ source, semitone }) => {
        const cents = centsOf(semitone, strung.gong, strung.temperament);
        const given = withHeld(source.given, semitone, cents, strung);
        return !soundsWhereGiven(given, semitone, cents, strung);
      }).length;

    const stringsChanged = ({ semitones }: Tuning): number =>
      semitones.filter((semitone, i) => semitone !== setting.tuning.semitones[i]).length;

    const nearestFirst = TUNINGS.filter((tuning) => stringsChanged(tuning) > 0).sort(
      (a, b) => stringsChanged(a) - stringsChanged(b),
    );

    return {
      reach: "passage",
      look: ({ moments }) => {
        const all = moments.flatMap((moment) => moment.notes);
        const notes = all.filter(saysPitch);
        const looked = notes.length;
        const measured = misfits(notes, setting);
        if (measured <= values.limit) return { looked, findings: [] };
        const { temperament } = setting;
        const sounding = all.map((note) => note.sounding);
        const fits = nearestFirst.find(
          (tuning) => misfits(notes, { tuning, temperament, gong: scaleGong(tuning, temperament, sounding) }) === 0,
        );
        if (fits === undefined) return { looked, findings: [] };
        const message = `All ${looked} written places fit their notes in ${fits.title} tuning (${fits.change}): say tuning: ${fits.name} in the brief. In ${setting.tuning.title} tuning ${measured} of them do not.`;
        return { looked, findings: [{ notes: [], severity: "problem", measured, limit: values.limit, message }] };
      },
    };
  },
);
