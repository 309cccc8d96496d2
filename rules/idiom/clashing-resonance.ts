// SPDX-License-Identifier: AGPL-3.0-or-later
import { closes } from "../../src/model/fingering.js";
import { pitchName } from "../../src/model/pitch.js";
import type { Placed, Right } from "../../src/model/playing.js";
import { defineRule, plain } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";
import { phrase, phraseOf } from "../../src/words.js";
import { placeKey, placeWords, times } from "../shared/runs.js";
import { COMMON_PRACTICE } from "../shared/sources.js";
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
    title: phrase("An open string rings on against its neighbour tone", "散音的余音碰上邻近半音"),
    principle: phrase(
      "Nothing stops an open string or a harmonic but a finger. A note a semitone away on another string sounds together with it.",
      "散音和泛音，手指不去止，就一直响着。另一根弦上接着出一个相差半音的音，两音便同时作响。",
    ),
    why: phrase(
      "What is written as two tones in turn is heard as a semitone struck at once.",
      "谱上写的是一先一后两个音，听来却像同时弹出的半音。",
    ),
    whenRight: phrase(
      "Where the rub is meant, or where the tone before was soft and long ago.",
      "有意要这样的摩擦；或前一个音弹得轻，又隔得久。",
    ),
    remedy: phrase(
      "Touch the ringing string, stop the first note instead of leaving it open, or play the second on the same string.",
      "用手指止住还在响的弦；或把前一个音改成按音；或把后一个音也弹在同一根弦上。",
    ),
    cures: ["fingering", "other-sound"],
    sources: [
      COMMON_PRACTICE,
      phrase(
        "how long sounds are heard is our judgement: no measured times are published",
        "余音听得见多久是我们的判断：没有公开发表的实测时间",
      ),
    ],
    unit: "s",
    parameters: {
      ...RING_PARAMETERS,
      limit: {
        default: 1,
        unit: "s",
        doc: phrase("a shorter rub passes unnoticed", "相碰比这更短就听不出来"),
        evidence: "our judgement",
      },
      caution: {
        default: 2.5,
        unit: "s",
        doc: phrase("beyond it a caution", "超过此值则列为“听得出来”"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("a whole tone beside the open string", "与散音相差全音"),
        kind: "passes",
        melody: "A2 G2:2",
        fingering: ["san gou 5", "san tiao 4"],
        finds: [],
      },
      {
        shows: phrase("B flat beside the open A", "散音A旁边的降B"),
        kind: "breaks",
        melody: "A2 Bb2:2",
        fingering: ["san gou 5", "ming 10 ti 3"],
        finds: [
          [
            2,
            "note",
            phrase(
              "A2 (open string 5) rings on for 2 s against Bb2 (string 3 at 10), a semitone away (limit 1 s).",
              "A2（五弦散音）余音未止，与相差半音的Bb2（三弦十徽）同响2秒（限度1秒）。",
            ),
          ],
        ],
      },
      {
        shows: phrase(
          "an inward stroke on the string outside comes to rest on the open one and stops it",
          "勾外侧一弦，手指顺势靠在散音弦上，把它止住了",
        ),
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
      const count = times(clashes.length);
      const often =
        clashes.length === 1
          ? ""
          : phraseOf({ en: (say) => ` It happens ${say(count)}.`, zh: (say) => `这样共${say(count)}。` });
      const [ringing, against] = [placeWords(worst.ringing), placeWords(worst.against)];
      const [seconds, limit] = [plain(worst.seconds), plain(values.limit)];
      return {
        notes: [...new Set(clashes.flatMap(({ fromId, toId }) => [fromId, toId]))],
        severity: worst.seconds > values.caution ? "caution" : "note",
        measured: worst.seconds,
        limit: values.limit,
        message: phraseOf({
          en: (say) =>
            `${worst.names[0]} (${say(ringing)}) rings on for ${seconds} s against ${worst.names[1]} (${say(against)}), a semitone away (limit ${limit} s).${say(often)}`,
          zh: (say) =>
            `${worst.names[0]}（${say(ringing)}）余音未止，与相差半音的${worst.names[1]}（${say(against)}）同响${seconds}秒（限度${limit}秒）。${say(often)}`,
        }),
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
          const key = `${placeKey(clash.ringing)} ${placeKey(clash.against)}`;
          groups.set(key, [...(groups.get(key) ?? []), clash]);
        }
        return { looked: ringing.length, findings: [...groups.values()].map(finding) };
      },
    };
  },
);
