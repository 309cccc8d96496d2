// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule } from "../../src/rule/define.js";
import type { PassageFinding } from "../../src/rule/types.js";

const YIN = "yin, a narrow vibrato, or nao, a wide one";
const TURN = "a quick yin, or the neighbour tone touched by a short slide and back (jin fu, tui fu)";
const LUN = "lun, quick strokes of ring, middle and index finger on one string";
const STOPPED_SHORT = "a stroke that the left hand stops at once";
const PLUCKED = "the strokes of the right hand, inward and outward by turns";

/** What stands for a mark on this instrument: its plain name, and what a player does instead. */
const COUNTERPARTS: Readonly<Record<string, readonly [name: string, instead: string]>> = {
  "trill-mark": ["A trill", YIN],
  turn: ["A turn", TURN],
  "delayed-turn": ["A turn", TURN],
  "inverted-turn": ["A turn", TURN],
  "delayed-inverted-turn": ["A turn", TURN],
  "vertical-turn": ["A turn", TURN],
  "inverted-vertical-turn": ["A turn", TURN],
  shake: ["A shake", YIN],
  mordent: ["A mordent", TURN],
  "inverted-mordent": ["A mordent", TURN],
  haydn: ["A Haydn ornament", TURN],
  schleifer: ["A slide of grace notes", "chuo, a slide into the place from below"],
  tremolo: ["A tremolo", LUN],
  scoop: ["A scoop", "chuo, a slide into the place from below"],
  plop: ["A plop", "zhu, a slide into the place from above"],
  doit: ["A doit", "a slide up after the pluck (shang)"],
  falloff: ["A fall", "a slide down after the pluck (xia)"],
  "up-bow": ["A bow stroke", PLUCKED],
  "down-bow": ["A bow stroke", PLUCKED],
  "snap-pizzicato": ["A snap pizzicato", STOPPED_SHORT],
  pluck: ["A pizzicato", STOPPED_SHORT],
  "double-tongue": ["A double tongue", LUN],
  "triple-tongue": ["A triple tongue", LUN],
  arpeggiate: ["A rolled chord", "li or gun, one finger drawn over the strings"],
  bend: ["A bend", "a slide along the string (chuo, zhu, shang, xia)"],
};

/** Words that ask for what a bow or another instrument does. */
const WORDS: readonly (readonly [pattern: RegExp, mark: string])[] = [
  [/(^|[^\p{L}])pizz(icato|\.)?($|[^\p{L}])/iu, "pluck"],
  [/(^|[^\p{L}])trem(olo|\.)($|[^\p{L}])/iu, "tremolo"],
  [/(^|[^\p{L}])(arco|col legno|sul pont(icello|\.)|sul tasto)($|[^\p{L}])/iu, "down-bow"],
];

export default defineRule(
  {
    id: "foreign-ornament",
    kind: "idiom",
    title: "An ornament of another instrument",
    principle:
      "Signs that were made for the bow, the keyboard or the voice have no plain reading on this instrument; it has its own ornaments.",
    why: "A player has to guess what is meant, and each will guess differently.",
    whenRight: "In a sketch, or where the score says in words what is meant.",
    remedy: "Write the ornament of the instrument: yin, nao, a slide, lun.",
    sources: [
      "the ornaments of the instrument: common practice, no source",
      "the choice of counterparts: our judgement",
    ],
    unit: null,
    parameters: {},
    examples: [
      {
        shows: "vibrato",
        kind: "passes",
        melody: "D3~ C3",
        fingering: ["ming 10 gou 5", "san tiao 6"],
        finds: [],
      },
      {
        shows: "a tremolo",
        kind: "breaks",
        melody: "D3{tremolo}:2 C3",
        fingering: ["san tiao 7", "san tiao 6"],
        finds: [
          [
            1,
            "note",
            "A tremolo has no plain reading here; the nearest is lun, quick strokes of ring, middle and index finger on one string.",
          ],
        ],
      },
      {
        shows: "accents and lines are plain in any hand",
        kind: "exception",
        melody: "D3{accent} C3{tenuto}",
        fingering: ["san tiao 7", "san tiao 6"],
        finds: [],
      },
    ],
  },
  () => ({
    reach: "passage",
    look: ({ moments }) => {
      const found = new Map<string, { instead: string; notes: string[] }>();
      for (const { source } of moments.flatMap((moment) => moment.notes)) {
        const asked = WORDS.filter(([pattern]) => source.words.some((words) => pattern.test(words)));
        for (const mark of [...source.marks.others, ...asked.map(([, name]) => name)]) {
          const [name, instead] = COUNTERPARTS[mark] ?? [];
          if (name === undefined || instead === undefined) continue;
          const group = found.get(name) ?? { instead, notes: [] };
          if (group.notes.at(-1) !== source.id) group.notes.push(source.id);
          found.set(name, group);
        }
      }
      const findings = [...found].map(([name, { instead, notes }]): PassageFinding => {
        const often = notes.length === 1 ? "" : ` (on ${notes.length} notes)`;
        const message = `${name}${often} has no plain reading here; the nearest is ${instead}.`;
        return { notes, severity: "note", measured: null, limit: null, message };
      });
      return { looked: moments.length, findings };
    },
  }),
);
