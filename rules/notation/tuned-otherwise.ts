// SPDX-License-Identifier: AGPL-3.0-or-later
import { withHeld } from "../../src/model/held.js";
import type { MomentNote } from "../../src/model/moments.js";
import type { Strung } from "../../src/model/places.js";
import { scaleGong } from "../../src/model/scale-gong.js";
import { soundsWhereGiven } from "../../src/model/soundable.js";
import { centsOf } from "../../src/model/temperament.js";
import { TUNINGS, type Tuning } from "../../src/model/tuning.js";
import { defineRule } from "../../src/rule/define.js";

const OCTAVE = 12;

/** Where all places fit, in words. */
interface Fit {
  /** "in ... tuning: say ..." */
  readonly where: string;
  /** how it is read now, before "4 of them do not" */
  readonly here: string;
  /** what follows "The fingering" */
  readonly cause: string;
}

function tuningFit({ title, change, name }: Tuning, now: Tuning): Fit {
  return {
    where: `in ${title} tuning (${change}): say tuning: ${name} in the brief`,
    here: `In ${now.title} tuning`,
    cause: `is written for ${title} tuning (tuning: ${name})`,
  };
}

/** @param transpose semitones in all that the brief should name */
function octaveFit(higher: number, transpose: number): Fit {
  const octave = `an octave ${higher < 0 ? "lower" : "higher"}`;
  return {
    where: `when the melody sounds ${octave}: say transpose: ${transpose} in the brief`,
    here: "As it is read",
    cause: `is written for the melody ${octave} (transpose: ${transpose})`,
  };
}

export default defineRule(
  {
    id: "tuned-otherwise",
    kind: "notation",
    title: "The places fit another tuning or octave",
    principle:
      "A place names a note in one tuning only. Where every written place of a melody fits in another tuning and not in this one, the melody was fingered for that tuning; where they all fit an octave away, it was fingered to sound there.",
    why: "Judged in the wrong tuning, a good fingering looks wrong on every string that is tuned otherwise; judged in the wrong octave, on every string.",
    whenRight: "Where the places fit by chance, as in a few notes: then correct the places that do not fit.",
    remedy: "Name the tuning or the transposition in the brief, or with --tuning or --transpose.",
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
        shows: "written an octave above where the strings sound",
        kind: "breaks",
        melody: "G3 A3 C4 F3",
        fingering: ["san gou 4", "san tiao 5", "san mo 6", "ming 10 gou 1"],
        finds: [
          [
            0,
            "problem",
            "All 4 written places fit their notes when the melody sounds an octave lower: say transpose: -12 in the brief. As it is read 4 of them do not.",
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

    /** The notes that are written where they do not sound when the melody lies so many semitones higher. */
    const misfits = (notes: readonly MomentNote[], strung: Required<Strung>, higher = 0): readonly MomentNote[] =>
      notes.filter((note) => {
        const semitone = note.semitone + higher;
        const cents = centsOf(semitone, strung.gong, strung.temperament);
        const given = withHeld(note.source.given, semitone, cents, strung);
        return !soundsWhereGiven(given, semitone, cents, strung);
      });

    const stringsChanged = ({ semitones }: Tuning): number =>
      semitones.filter((semitone, i) => semitone !== setting.tuning.semitones[i]).length;

    const nearestFirst = TUNINGS.filter((tuning) => stringsChanged(tuning) > 0).sort(
      (a, b) => stringsChanged(a) - stringsChanged(b),
    );

    const fitsElsewhere = (notes: readonly MomentNote[], all: readonly MomentNote[]): Fit | null => {
      const octave = [-OCTAVE, OCTAVE].find((higher) => misfits(notes, setting, higher).length === 0);
      if (octave !== undefined) return octaveFit(octave, setting.transpose.semitones + octave);
      const { temperament } = setting;
      const sounding = all.map((note) => note.sounding);
      const fits = nearestFirst.find(
        (tuning) =>
          misfits(notes, { tuning, temperament, gong: scaleGong(tuning, temperament, sounding) }).length === 0,
      );
      return fits === undefined ? null : tuningFit(fits, setting.tuning);
    };

    return {
      reach: "passage",
      look: ({ moments }) => {
        const all = moments.flatMap((moment) => moment.notes);
        const notes = all.filter(saysPitch);
        const looked = notes.length;
        const wrong = misfits(notes, setting);
        const measured = wrong.length;
        const fit = measured <= values.limit ? null : fitsElsewhere(notes, all);
        if (fit === null) return { looked, findings: [] };
        const message = `All ${looked} written places fit their notes ${fit.where}. ${fit.here} ${measured} of them do not.`;
        const explains = {
          kinds: ["intonation"],
          notes: wrong.map(({ source }) => source.id),
          cause: fit.cause,
        } as const;
        const finding = { notes: [], severity: "problem", measured, limit: values.limit, message, explains } as const;
        return { looked, findings: [finding] };
      },
    };
  },
);
