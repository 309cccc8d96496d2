// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule } from "../../src/rule/define.js";
import type { PassageFinding } from "../../src/rule/types.js";
import { type Phrase, phrase, phraseOf } from "../../src/words.js";

/** A mark's plain name, and what a player does instead. */
type Counterpart = readonly [name: Phrase, instead: Phrase];

const YIN = phrase("yin, a narrow vibrato, or nao, a wide one", "吟，或幅度更大的猱");
const NEIGHBOUR = phrase(
  "a quick yin, or the neighbour tone touched by a short slide and back (jin fu, tui fu)",
  "急吟，或走到邻音随即折回（进复、退复）",
);
const LUN = phrase(
  "lun, quick strokes of ring, middle and index finger on one string",
  "轮：名、中、食三指在一根弦上接连弹出",
);
const STOPPED_SHORT = phrase("a stroke that the left hand stops at once", "弹后左手立刻止音");
const PLUCKED = phrase("the strokes of the right hand, inward and outward by turns", "右手入弦、出弦交替的弹法");
const FROM_BELOW = phrase("chuo, a slide into the place from below", "绰，从下方滑入音位");

const TURN: Counterpart = [phrase("A turn", "回音"), NEIGHBOUR];
const MORDENT: Counterpart = [phrase("A mordent", "波音"), NEIGHBOUR];
const BOW: Counterpart = [phrase("A bow stroke", "弓法"), PLUCKED];

/** What stands for a mark on this instrument. */
const COUNTERPARTS: Readonly<Record<string, Counterpart>> = {
  "trill-mark": [phrase("A trill", "颤音"), YIN],
  turn: TURN,
  "delayed-turn": TURN,
  "inverted-turn": TURN,
  "delayed-inverted-turn": TURN,
  "vertical-turn": TURN,
  "inverted-vertical-turn": TURN,
  shake: [phrase("A shake", "抖音"), YIN],
  mordent: MORDENT,
  "inverted-mordent": MORDENT,
  haydn: [phrase("A Haydn ornament", "海顿装饰音"), NEIGHBOUR],
  schleifer: [phrase("A slide of grace notes", "级进倚音"), FROM_BELOW],
  tremolo: [phrase("A tremolo", "震音"), LUN],
  scoop: [phrase("A scoop", "由下滑入的音头"), FROM_BELOW],
  plop: [phrase("A plop", "由上滑入的音头"), phrase("zhu, a slide into the place from above", "注，从上方滑入音位")],
  doit: [phrase("A doit", "上滑的音尾"), phrase("a slide up after the pluck (shang)", "弹后走音向上（上）")],
  falloff: [phrase("A fall", "下滑的音尾"), phrase("a slide down after the pluck (xia)", "弹后走音向下（下）")],
  "up-bow": BOW,
  "down-bow": BOW,
  "snap-pizzicato": [phrase("A snap pizzicato", "绷弦拨奏"), STOPPED_SHORT],
  pluck: [phrase("A pizzicato", "拨奏"), STOPPED_SHORT],
  "double-tongue": [phrase("A double tongue", "双吐"), LUN],
  "triple-tongue": [phrase("A triple tongue", "三吐"), LUN],
  arpeggiate: [
    phrase("A rolled chord", "琶音"),
    phrase("li or gun, one finger drawn over the strings", "历或滚，一指连过数弦"),
  ],
  bend: [
    phrase("A bend", "弯音"),
    phrase("a slide along the string (chuo, zhu, shang, xia)", "沿弦走音（绰、注、上、下）"),
  ],
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
    title: phrase("An ornament of another instrument", "别种乐器的装饰音"),
    principle: phrase(
      "Signs that were made for the bow, the keyboard or the voice have no plain reading on this instrument; it has its own ornaments.",
      "为弓弦、键盘或人声而设的记号，在琴上没有现成的弹法；琴有自己的吟猱绰注。",
    ),
    why: phrase(
      "A player has to guess what is meant, and each will guess differently.",
      "演奏者只好猜，各人猜的又不一样。",
    ),
    whenRight: phrase("In a sketch, or where the score says in words what is meant.", "草稿里，或谱上已用文字说明。"),
    remedy: phrase(
      "Write the ornament of the instrument: yin, nao, a slide, lun.",
      "改写成琴上的指法：吟、猱、走音、轮。",
    ),
    sources: [
      phrase("the ornaments of the instrument: common practice, no source", "琴上的装饰指法：通行做法（无出处）"),
      phrase("the choice of counterparts: our judgement", "以何者相当：我们的判断"),
    ],
    unit: null,
    parameters: {},
    examples: [
      {
        shows: phrase("vibrato", "吟猱"),
        kind: "passes",
        melody: "D3~ C3",
        fingering: ["ming 10 gou 5", "san tiao 6"],
        finds: [],
      },
      {
        shows: phrase("a tremolo", "震音"),
        kind: "breaks",
        melody: "D3{tremolo}:2 C3",
        fingering: ["san tiao 7", "san tiao 6"],
        finds: [
          [
            1,
            "note",
            phrase(
              "A tremolo has no plain reading here; the nearest is lun, quick strokes of ring, middle and index finger on one string.",
              "震音在琴上没有现成的弹法；最接近的是轮：名、中、食三指在一根弦上接连弹出。",
            ),
          ],
        ],
      },
      {
        shows: phrase("accents and lines are plain in any hand", "重音与保持音，谁弹都明白"),
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
      const found = new Map<string, { counterpart: Counterpart; notes: string[] }>();
      for (const { source } of moments.flatMap((moment) => moment.notes)) {
        const asked = WORDS.filter(([pattern]) => source.words.some((words) => pattern.test(words)));
        for (const mark of [...source.marks.others, ...asked.map(([, name]) => name)]) {
          const counterpart = COUNTERPARTS[mark];
          if (counterpart === undefined) continue;
          const key = counterpart[0].en;
          const group = found.get(key) ?? { counterpart, notes: [] };
          if (group.notes.at(-1) !== source.id) group.notes.push(source.id);
          found.set(key, group);
        }
      }
      const findings = [...found.values()].map(({ counterpart: [name, instead], notes }): PassageFinding => {
        const often = notes.length === 1 ? "" : phrase(` (on ${notes.length} notes)`, `（共${notes.length}个音）`);
        const message = phraseOf({
          en: (say) => `${say(name)}${say(often)} has no plain reading here; the nearest is ${say(instead)}.`,
          zh: (say) => `${say(name)}${say(often)}在琴上没有现成的弹法；最接近的是${say(instead)}。`,
        });
        return { notes, severity: "note", measured: null, limit: null, message };
      });
      return { looked: moments.length, findings };
    },
  }),
);
