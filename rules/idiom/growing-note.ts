// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Moment } from "../../src/model/moments.js";
import { pitchName } from "../../src/model/pitch.js";
import { defineRule } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";

/** Levels and accents beyond a quiet instrument. */
const TOO_LOUD = /^(f{2,}|sf|sfp|sfpp|sfz|sffz|sfzp|fz|rf|rfz)$/;

export default defineRule(
  {
    id: "growing-note",
    kind: "idiom",
    title: "Louder than a plucked silk string",
    principle:
      "A plucked note is loudest when it begins and only fades; and the instrument is quiet, played for a room and not for a hall.",
    why: "A crescendo on one note cannot be heard, and force does not make the string louder: it rattles on the board.",
    whenRight: "As a hint of the mood, where the player knows not to force it.",
    remedy: "Spread the crescendo over several plucks; make a climax by tempo, register and double notes.",
    sources: [
      "a very quiet instrument: introductions to the qin by several writers; a climax by tempo, register and double notes: common practice, no source",
    ],
    unit: null,
    parameters: {},
    examples: [
      {
        shows: "a passage marked f",
        kind: "passes",
        melody: "D3{f} C3 A2",
        fingering: ["san tiao 7", "san tiao 6", "san gou 5"],
        finds: [],
      },
      {
        shows: "a hairpin over one note",
        kind: "breaks",
        melody: "D3{<}:2 C3",
        fingering: ["san tiao 7", "san tiao 6"],
        finds: [[1, "note", "A crescendo stands over the one note D3, which only fades once it is plucked."]],
      },
      {
        shows: "fortissimo",
        kind: "breaks",
        melody: "D3{ff} C3 A2",
        fingering: ["san tiao 7", "san tiao 6", "san gou 5"],
        finds: [[3, "note", "The score asks for ff on 3 notes: louder than the instrument goes."]],
      },
      {
        shows: "a diminuendo over one note, which the string does of itself",
        kind: "exception",
        melody: "D3{>}:2 C3",
        fingering: ["san tiao 7", "san tiao 6"],
        finds: [],
      },
      {
        shows: "a hairpin over a lun, whose strokes can grow",
        kind: "exception",
        melody: "D3{<}:2 C3",
        fingering: ["san lun 7", "san tiao 6"],
        finds: [],
      },
    ],
  },
  () => {
    /** Crescendos that stand over one note. A compound stroke plucks it several times and can grow. */
    const growing = (line: Line): readonly PassageFinding[] =>
      line.score.wedges.flatMap(({ from, to, kind }): PassageFinding[] => {
        const note = line.moments.flatMap(({ notes }) => notes).find(({ source }) => source.id === from);
        if (kind !== "crescendo" || from !== to || note === undefined) return [];
        if (note.given.compound !== null) return [];
        const message = `A crescendo stands over the one note ${pitchName(note.sounding)}, which only fades once it is plucked.`;
        return [{ notes: [from], severity: "note", measured: null, limit: null, message }];
      });

    const loudOf = ({ notes }: Moment): string | null => {
      const dynamic = notes[0]?.source.dynamic ?? null;
      return dynamic !== null && TOO_LOUD.test(dynamic) ? dynamic : null;
    };

    /** One finding for the line: it is one habit, however often and in however many signs. */
    const loud = ({ moments }: Line): readonly PassageFinding[] => {
      const marked = moments.filter((moment) => loudOf(moment) !== null);
      if (marked.length === 0) return [];
      const marks = [...new Set(marked.map(loudOf))];
      const notes = marked.flatMap((moment) => moment.notes.map(({ source }) => source.id));
      const count = `${notes.length} ${notes.length === 1 ? "note" : "notes"}`;
      const message = `The score asks for ${marks.join(", ")} on ${count}: louder than the instrument goes.`;
      return [{ notes, severity: "note", measured: null, limit: null, message }];
    };

    return {
      reach: "passage",
      look: (line) => ({ looked: line.moments.length, findings: [...growing(line), ...loud(line)] }),
    };
  },
);
