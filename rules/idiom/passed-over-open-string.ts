// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import type { Moment, MomentNote } from "../../src/model/moments.js";
import type { Placed } from "../../src/model/playing.js";
import { defineRule } from "../../src/rule/define.js";
import type { Holding } from "../../src/rule/types.js";
import { phrase } from "../../src/words.js";
import { COMMON_PRACTICE } from "../shared/sources.js";

/** A pinch of an open string with its own pitch stopped beside it: a doubling, which the trade likes. */
function doublesOpen(placed: Placed, note: MomentNote, moment: Moment, left: Holding): boolean {
  const other = left.first === placed ? left.second : left.first;
  return other !== null && other.sound === "open" && moment.notes[other.note]?.semitone === note.semitone;
}

export default defineRule(
  {
    id: "passed-over-open-string",
    kind: "idiom",
    title: phrase("An open string passed over", "有散音而不用"),
    topic: phrase("open strings passed over", "未用的散音"),
    principle: phrase(
      "Where a string, left open, already sounds the note, that string is the first choice.",
      "哪根弦的散音正是这个音，就首选那根弦。",
    ),
    why: phrase(
      "Open strings ring longest, are always in tune, and leave the left hand free to travel to what comes next.",
      "散音余音最长，音准可靠，左手也腾得出来，去准备下一处。",
    ),
    whenRight: phrase(
      "A note that is slid to or from, carries vibrato, or keeps the colour of the stopped notes around it wants a finger; a long one may.",
      "要走音进出、要吟猱、或要与前后按音音色一致的音，须用手指按；长音也可以按。",
    ),
    remedy: phrase("Leave the string of that pitch open.", "改用那根弦的散音。"),
    sources: [COMMON_PRACTICE],
    unit: null,
    parameters: {
      passedOverInPinch: {
        default: 0.8,
        unit: "spare moves",
        doc: phrase("in a pinch, where a stop binds the hand for nothing", "撮中如此：按音白白占住左手"),
        evidence: "our judgement",
      },
      passedOver: {
        default: 0.4,
        unit: "spare moves",
        doc: phrase("a stop where this very pitch lies open", "散音就有这个音，却用按音"),
        evidence: "common practice",
      },
      passedOverLong: {
        default: 0.3,
        unit: "spare moves",
        doc: phrase("the same for a long note: it may want vibrato", "长音如此：它也许要吟猱"),
        evidence: "common practice",
      },
      long: {
        default: 1.5,
        unit: "s",
        doc: phrase("a note is long beyond this", "超过此时间算长音"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("C3 on the open sixth string", "C3用六弦散音"),
        kind: "passes",
        melody: "C3 G2",
        fingering: ["san tiao 6", "san gou 4"],
        finds: [],
      },
      {
        shows: phrase("C3 stopped on string 3 while string 6 lies open", "六弦空着，C3却按在三弦"),
        kind: "breaks",
        melody: "C3 G2",
        fingering: ["ming 9 gou 3", "san tiao 4"],
        finds: [
          [
            1,
            "note",
            phrase(
              "C3 is stopped as ming 9 gou 3, though a string lies open at this very pitch.",
              "C3用了按音“名九勾三”，其实有一根弦的散音就是这个音。",
            ),
          ],
        ],
      },
      {
        shows: phrase("vibrato needs a finger", "吟猱须用手指按"),
        kind: "exception",
        melody: "C3~ G2",
        fingering: ["ming 9 gou 3", "san tiao 4"],
        finds: [],
      },
      {
        shows: phrase("the open string and its stopped unison struck together", "散音与同音的按音一起撮"),
        kind: "exception",
        melody: "D3+D3",
        fingering: ["ming 9 gou 4", "san tiao 7"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "place",
    limit: null,
    breaks: "above",
    measure: (placed, _missing, note, moment, left) => {
      if (placed === null || placed.sound === "harmonic" || placed.mismatch || !note.liesOpen) return Number.NaN;
      if (placed.sound === "open" || left.arrival !== "plucked" || moment.asks !== null || moment.leadsOn) return 0;
      const { vibrato, slideTo } = note.source.marks;
      return vibrato || slideTo || doublesOpen(placed, note, moment, left) ? 0 : 1;
    },
    charge: (measured, _placed, _note, moment) => {
      if (measured === 0) return 0;
      if (moment.notes.length > 1) return values.passedOverInPinch;
      return moment.durationSeconds > values.long ? values.passedOverLong : values.passedOver;
    },
    message: ({ note, spoken }) =>
      phrase(
        `${note} is stopped as ${spoken}, though a string lies open at this very pitch.`,
        `${note}用了按音“${inCharacters(spoken)}”，其实有一根弦的散音就是这个音。`,
      ),
  }),
);
