// SPDX-License-Identifier: AGPL-3.0-or-later
import { TUNINGS } from "../../src/model/tuning.js";
import { defineRule, plain } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";
import { type Phrase, phrase, phraseOf } from "../../src/words.js";
import { barsOf, idsOf, type Run } from "../shared/runs.js";

/** Notes without an open string in standard tuning. */
const STOPPED = ["ming 10 gou 5", "da 8.5 tiao 5", "da 9 tiao 7", "da 7.9 tiao 6"];
const BY_TURNS = Array.from({ length: 16 }, (_, i) => STOPPED[i % 4] as string);

/** A counted note: whether it rings of itself. */
interface Counted {
  readonly at: number;
  readonly rings: boolean;
  /** MIDI note number */
  readonly semitone: number;
}

/** @example shifted(-2) // "2 semitones lower" */
function shifted(by: number): Phrase {
  const far = Math.abs(by);
  return phrase(
    `${far === 1 ? "A semitone" : `${far} semitones`} ${by < 0 ? "lower" : "higher"}`,
    `移${by < 0 ? "低" : "高"}${far === 1 ? "半音" : `${far}个半音`}`,
  );
}

/** Another setting in words, and how many notes lie on open strings in it. */
interface Offer {
  readonly where: Phrase;
  readonly open: number;
}

export default defineRule(
  {
    id: "few-open-strings",
    kind: "idiom",
    title: phrase("The strings hardly ring open", "散音太少"),
    principle: phrase(
      "Open and stopped notes mix all through a piece, with harmonics in phrases of their own.",
      "全曲散音与按音相间，泛音自成句段。",
    ),
    why: phrase(
      "An open string rings longest and rests the hand; where all is stopped the sound is short and close.",
      "散音余音最长，左手也得以歇息；处处是按音，声音就短而闷。",
    ),
    whenRight: phrase(
      "In a high passage, where no open string lies, where no setting near by has more of them, or where a muffled sound is meant.",
      "高音区的段落，那里本没有散音；附近的移调、定弦都不会有更多散音；或有意要闷的音色。",
    ),
    remedy: phrase(
      "Try another transposition or tuning, in which more notes of the melody are open strings.",
      "试着移调或另换定弦，让更多的旋律音落在散音上。",
    ),
    cures: ["setting"],
    sources: [
      phrase(
        "open and stopped sounds intermixed all through: introductions to the qin by several writers",
        "散音、按音贯穿全曲相间：几位作者的古琴介绍",
      ),
      phrase("the share: our judgement", "比例：我们的判断"),
    ],
    unit: "share",
    parameters: {
      limit: {
        default: 0.2,
        unit: "share",
        doc: phrase("open strings and harmonics among the notes", "散音与泛音在全部音中所占的比例"),
        evidence: "our judgement",
      },
      gain: {
        default: 0.2,
        unit: "share",
        doc: phrase(
          "so many more notes must lie on open strings in a near setting: a tune that lies nowhere better is left alone",
          "换到附近的移调或定弦，落在散音上的音至少要多出这么多：换到哪里都不见好的曲子就不提",
        ),
        evidence: "our judgement",
      },
      near: {
        default: 5,
        unit: "semitones",
        doc: phrase(
          "transpositions looked at, up and down: within a fourth",
          "向上、向下各看这么多半音的移调：四度以内",
        ),
        evidence: "our judgement",
      },
      fewest: {
        default: 16,
        unit: "notes",
        doc: phrase("a shorter line is too short to judge", "更短的旋律不足以判断"),
        evidence: "our judgement",
      },
      passage: {
        default: 32,
        unit: "notes",
        doc: phrase("a longer line is judged over so many notes at a time", "更长的旋律，每次看这么多个音"),
        evidence: "our judgement",
      },
      high: {
        default: 7,
        unit: "hui",
        doc: phrase("stops above are not counted: no open string lies there", "高于此徽的按音不计：那里没有散音"),
        evidence: "common practice",
      },
    },
    examples: [
      {
        shows: phrase("every fourth note an open string", "每四个音有一个散音"),
        kind: "passes",
        melody: Array.from({ length: 4 }, () => "D3 F3 G3 A3").join(" "),
        fingering: BY_TURNS.map((spoken, i) => (i % 4 === 0 ? "san tiao 7" : spoken)),
        finds: [],
      },
      {
        shows: phrase("sixteen stopped notes", "十六个按音"),
        kind: "breaks",
        melody: Array.from({ length: 4 }, () => "D3 F3 E3 A3").join(" "),
        fingering: BY_TURNS.map((spoken, i) => (i % 4 === 2 ? "ming 9 gou 5" : spoken)),
        finds: [
          [
            0,
            "note",
            phrase(
              "None of 16 notes ring as open strings or harmonics (0 %, where 20 % let the instrument ring). 2 semitones lower, 8 would lie on open strings.",
              "16个音里没有一个是散音或泛音（0%，达到20%，琴才响得开）。移低2个半音，便有8个音落在散音上。",
            ),
          ],
        ],
      },
      {
        shows: phrase(
          "no setting near by has more open strings for these notes",
          "附近的移调、定弦都不会让这些音多几个散音",
        ),
        kind: "exception",
        melody: Array.from({ length: 4 }, () => "A3 Bb3 C4 A3").join(" "),
        fingering: Array.from({ length: 4 }, () => [
          "da 9 tiao 7",
          "da 8.5 tiao 7",
          "da 7.6 tiao 7",
          "da 9 tiao 7",
        ]).flat(),
        finds: [],
      },
      {
        shows: phrase("sixteen notes above hui 7, where no open string lies", "七徽以上的十六个音，那里没有散音"),
        kind: "exception",
        melody: Array.from({ length: 4 }, () => "D4 F4 G4 A4").join(" "),
        fingering: Array.from({ length: 4 }, () => [
          "da 6.4 tiao 6",
          "da 6.2 tiao 7",
          "da 5.6 tiao 7",
          "da 5 tiao 7",
        ]).flat(),
        finds: [],
      },
    ],
  },
  (values, setting) => {
    const { tuning } = setting;

    const countedIn = ({ moments, lefts }: Line): readonly Counted[] =>
      lefts.flatMap(({ placed }, at) =>
        placed
          .filter((one) => !moments[at]?.notes[one.note]?.harmonicAsked)
          .filter((one) => one.sound !== "stopped" || one.exact >= values.high)
          .map(({ sound, note }) => ({
            at,
            rings: sound !== "stopped",
            semitone: moments[at]?.notes[note]?.semitone ?? Number.NaN,
          })),
      );

    const ringing = (notes: readonly Counted[]): number => notes.filter(({ rings }) => rings).length;

    /** How many notes lie on open strings when all lie so much higher; none where one would lie below the strings. */
    const openIn = (notes: readonly Counted[], open: readonly number[], higher: number): number =>
      notes.some(({ semitone }) => semitone + higher < Math.min(...open))
        ? 0
        : notes.filter(({ semitone }) => open.includes(semitone + higher)).length;

    /** The near setting in which most notes lie on open strings, the nearest of those that are alike. */
    const offerFor = (notes: readonly Counted[]): Offer => {
      const shifts = Array.from({ length: values.near }, (_, i) => i + 1).flatMap((by) => [-by, by]);
      const offers = [
        ...shifts.map((by) => ({ where: shifted(by), open: openIn(notes, tuning.semitones, by) })),
        ...TUNINGS.map(({ title, simplified, semitones }) => ({
          where: phrase(`In ${title} tuning`, `改用${simplified}定弦`),
          open: openIn(notes, semitones, 0),
        })),
      ];
      return offers.reduce((best, next) => (next.open > best.open ? next : best));
    };

    /** The whole line where it rings too little; else the long passages that do, as indices into the counted notes. */
    const dullRuns = (notes: readonly Counted[]): readonly Run[] => {
      const isDull = (open: number, count: number): boolean => open / count < values.limit;
      if (isDull(ringing(notes), notes.length)) return [{ from: 0, to: notes.length - 1 }];
      const runs: Run[] = [];
      let from = 0;
      while (from + values.passage <= notes.length) {
        let to = from + values.passage - 1;
        let open = ringing(notes.slice(from, to + 1));
        const dull = isDull(open, values.passage);
        while (dull && to + 1 < notes.length) {
          open += Number(notes[to + 1]?.rings);
          if (!isDull(open, to + 2 - from)) break;
          to += 1;
        }
        if (dull) runs.push({ from, to });
        from = dull ? to + 1 : from + 1;
      }
      return runs;
    };

    const finding = (line: Line, notes: readonly Counted[], run: Run): readonly PassageFinding[] => {
      const within = notes.slice(run.from, run.to + 1);
      const open = ringing(within);
      const offer = offerFor(within);
      if (offer.open - open < values.gain * within.length) return [];
      const share = open / within.length;
      const stretch = { from: within[0]?.at ?? 0, to: within.at(-1)?.at ?? 0 };
      const whole = within.length === notes.length;
      const bars = barsOf(line, stretch);
      const [percent, enough] = [plain(100 * share), plain(100 * values.limit)];
      const where = phraseOf({
        en: (say) => (whole ? "" : `In ${say(bars)} `),
        zh: (say) => (whole ? "" : `${say(bars)}，`),
      });
      const [none, only] = whole ? ["None", "Only"] : ["none", "only"];
      const told = phrase(
        `${open === 0 ? none : `${only} ${open}`} of ${within.length} notes ring as open strings or harmonics (${percent} %, where ${enough} % let the instrument ring)`,
        `${within.length}个音里${open === 0 ? "没有一个" : `只有${open}个`}是散音或泛音（${percent}%，达到${enough}%，琴才响得开）`,
      );
      return [
        {
          notes: whole ? [] : idsOf(line, stretch),
          severity: "note",
          measured: share,
          limit: values.limit,
          message: phraseOf({
            en: (say) => `${say(where)}${say(told)}. ${say(offer.where)}, ${offer.open} would lie on open strings.`,
            zh: (say) => `${say(where)}${say(told)}。${say(offer.where)}，便有${offer.open}个音落在散音上。`,
          }),
        },
      ];
    };

    return {
      reach: "passage",
      look: (line) => {
        const notes = countedIn(line);
        const runs = notes.length < values.fewest ? [] : dullRuns(notes);
        return { looked: notes.length, findings: runs.flatMap((run) => finding(line, notes, run)) };
      },
    };
  },
);
