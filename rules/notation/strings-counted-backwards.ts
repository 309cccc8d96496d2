// SPDX-License-Identifier: AGPL-3.0-or-later
import { withHeld } from "../../src/model/held.js";
import type { MomentNote } from "../../src/model/moments.js";
import type { CountedFingering, StringNumbers } from "../../src/model/score.js";
import { soundsWhereGiven } from "../../src/model/soundable.js";
import { defineRule } from "../../src/rule/define.js";

/** A way of counting in words, and what to do for the other one. */
const WORDS: Readonly<Record<StringNumbers, { readonly how: string; readonly cure: string; readonly cause: string }>> =
  {
    musicxml: {
      how: "from the highest string, as MusicXML does",
      cure: "take string-numbers: guqin out of the brief",
      cause: "counts strings from the highest, as MusicXML does, and the brief says otherwise",
    },
    guqin: {
      how: "as players do, from the lowest",
      cure: "say string-numbers: guqin in the brief",
      cause: "counts strings as players do, from the lowest (string-numbers: guqin)",
    },
  };

export default defineRule(
  {
    id: "strings-counted-backwards",
    kind: "notation",
    title: "String numbers counted from the other side",
    principle:
      "MusicXML counts strings from the highest, players of the guqin from the lowest. A score whose string numbers fit in one way only was written in that way.",
    why: "Counted from the wrong side, string 1 is taken for string 7, and a good fingering looks like a row of faults.",
    whenRight:
      "Where the numbers fit by chance, as in a few marks of a short melody: then correct the marks that do not fit.",
    remedy: "Say in the brief how the strings are counted, or number them as MusicXML does.",
    sources: [
      "W3C, MusicXML 4.0, data type string-number: string numbers are ordered from high to low",
      "J. Thompson, silkqin.com: the first string is the lowest",
    ],
    unit: "strings",
    parameters: {
      limit: { default: 0, unit: "strings", doc: "may misfit without a word", evidence: "our judgement" },
    },
    examples: [
      {
        shows: "7 from the highest is the lowest string, which the words call 1",
        kind: "passes",
        melody: "C2 G2 C3",
        fingering: ["<string> 7, san gou 1", "<string> 4, san tiao 4", "<string> 2, san gou 6"],
        finds: [],
      },
      {
        shows: "the same strings numbered as players do",
        kind: "breaks",
        melody: "C2 G2 C3",
        fingering: ["<string> 1, san gou 1", "<string> 4, san tiao 4", "<string> 6, san gou 6"],
        finds: [
          [
            0,
            "problem",
            "All 3 string numbers fit their notes when they are counted as players do, from the lowest: say string-numbers: guqin in the brief. Counted from the highest string, as MusicXML does, 2 of them do not.",
          ],
        ],
      },
      {
        shows: "nothing but numbers: C2 is lower than the highest string",
        kind: "breaks",
        melody: "C2 G2 A2",
        fingering: ["<string> 1", "<string> 4", "<string> 5"],
        finds: [
          [
            0,
            "problem",
            "All 3 string numbers fit their notes when they are counted as players do, from the lowest: say string-numbers: guqin in the brief. Counted from the highest string, as MusicXML does, one of them does not.",
          ],
        ],
      },
      {
        shows: "a place that another string sounds",
        kind: "breaks",
        melody: "C3",
        fingering: ["<string> 3, ming 9 gou 3"],
        finds: [
          [
            0,
            "problem",
            "The string number fits its note when it is counted as players do, from the lowest: say string-numbers: guqin in the brief. Counted from the highest string, as MusicXML does, it does not.",
          ],
        ],
      },
      {
        shows: "a slip of the pen: neither way fits all",
        kind: "exception",
        melody: "C2 G2 C3",
        fingering: ["<string> 7, san gou 1", "<string> 4, san tiao 4", "<string> 6, san gou 6"],
        finds: [],
      },
    ],
  },
  (values, setting) => {
    const fits = ({ given, contradicted }: CountedFingering, { semitone, cents }: MomentNote): boolean =>
      !contradicted && soundsWhereGiven(withHeld(given, semitone, cents, setting), semitone, cents, setting);

    return {
      reach: "passage",
      look: ({ score, moments }) => {
        const notes = new Map(moments.flatMap((moment) => moment.notes.map((note) => [note.source.id, note])));
        const marks = score.stringMarks.flatMap((mark) => {
          const note = notes.get(mark.note);
          return note === undefined
            ? []
            : [{ note: mark.note, here: fits(mark.here, note), otherwise: fits(mark.otherwise, note) }];
        });
        const looked = marks.length;
        const measured = marks.filter((mark) => !mark.here).length;
        if (measured <= values.limit || !marks.every((mark) => mark.otherwise)) return { looked, findings: [] };
        const message = told(measured, looked, score.stringNumbers);
        // On another string nothing is as it was judged: place, finger, stroke and every move.
        const explains = {
          kinds: ["intonation", "idiom", "efficiency", "character"],
          notes: marks.map(({ note }) => note),
          cause: otherWay(score.stringNumbers).cause,
        } as const;
        const finding = { notes: [], severity: "problem", measured, limit: values.limit, message, explains } as const;
        return { looked, findings: [finding] };
      },
    };
  },
);

const otherWay = (counted: StringNumbers) => WORDS[counted === "musicxml" ? "guqin" : "musicxml"];

/** What to say in the brief, and what does not fit without. */
function told(misfits: number, all: number, counted: StringNumbers): string {
  const here = WORDS[counted];
  const other = otherWay(counted);
  const fit =
    all === 1
      ? "The string number fits its note when it is counted"
      : `${all === 2 ? "Both" : `All ${all}`} string numbers fit their notes when they are counted`;
  return `${fit} ${other.how}: ${other.cure}. Counted ${here.how}, ${misfitting(misfits, all)}.`;
}

function misfitting(misfits: number, all: number): string {
  if (all === 1) return "it does not";
  if (misfits === all) return all === 2 ? "neither does" : "none does";
  return misfits === 1 ? "one of them does not" : `${misfits} of them do not`;
}
