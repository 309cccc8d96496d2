// SPDX-License-Identifier: AGPL-3.0-or-later
import { TUNINGS } from "../../src/model/tuning.js";
import { defineRule, plain } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";
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
function shifted(by: number): string {
  const far = Math.abs(by);
  return `${far === 1 ? "A semitone" : `${far} semitones`} ${by < 0 ? "lower" : "higher"}`;
}

/** Another setting in words, and how many notes lie on open strings in it. */
interface Offer {
  readonly where: string;
  readonly open: number;
}

export default defineRule(
  {
    id: "few-open-strings",
    kind: "idiom",
    title: "The strings hardly ring open",
    principle: "Open and stopped notes mix all through a piece, with harmonics in phrases of their own.",
    why: "An open string rings longest and rests the hand; where all is stopped the sound is short and close.",
    whenRight:
      "In a high passage, where no open string lies, where no setting near by has more of them, or where a muffled sound is meant.",
    remedy: "Try another transposition or tuning, in which more notes of the melody are open strings.",
    cures: ["setting"],
    sources: [
      "open and stopped sounds intermixed all through: introductions to the qin by several writers",
      "the share: our judgement",
    ],
    unit: "share",
    parameters: {
      limit: {
        default: 0.2,
        unit: "share",
        doc: "open strings and harmonics among the notes",
        evidence: "our judgement",
      },
      gain: {
        default: 0.2,
        unit: "share",
        doc: "so many more notes must lie on open strings in a near setting: a tune that lies nowhere better is left alone",
        evidence: "our judgement",
      },
      near: {
        default: 5,
        unit: "semitones",
        doc: "transpositions looked at, up and down: within a fourth",
        evidence: "our judgement",
      },
      fewest: { default: 16, unit: "notes", doc: "a shorter line is too short to judge", evidence: "our judgement" },
      passage: {
        default: 32,
        unit: "notes",
        doc: "a longer line is judged over so many notes at a time",
        evidence: "our judgement",
      },
      high: {
        default: 7,
        unit: "hui",
        doc: "stops above are not counted: no open string lies there",
        evidence: "common practice",
      },
    },
    examples: [
      {
        shows: "every fourth note an open string",
        kind: "passes",
        melody: Array.from({ length: 4 }, () => "D3 F3 G3 A3").join(" "),
        fingering: BY_TURNS.map((spoken, i) => (i % 4 === 0 ? "san tiao 7" : spoken)),
        finds: [],
      },
      {
        shows: "sixteen stopped notes",
        kind: "breaks",
        melody: Array.from({ length: 4 }, () => "D3 F3 E3 A3").join(" "),
        fingering: BY_TURNS.map((spoken, i) => (i % 4 === 2 ? "ming 9 gou 5" : spoken)),
        finds: [
          [
            0,
            "note",
            "None of 16 notes ring as open strings or harmonics (0 %, where 20 % let the instrument ring). 2 semitones lower, 8 would lie on open strings.",
          ],
        ],
      },
      {
        shows: "no setting near by has more open strings for these notes",
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
        shows: "sixteen notes above hui 7, where no open string lies",
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
        ...TUNINGS.map(({ title, semitones }) => ({
          where: `In ${title} tuning`,
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
      const where = whole ? "" : `In ${barsOf(line, stretch)} `;
      const sounds = `${open === 0 ? "none" : `only ${open}`} of ${within.length} notes ring as open strings or harmonics`;
      const how = whole ? sounds.replace(/^./, (letter) => letter.toUpperCase()) : sounds;
      const told = `${where}${how} (${plain(100 * share)} %, where ${plain(100 * values.limit)} % let the instrument ring)`;
      return [
        {
          notes: whole ? [] : idsOf(line, stretch),
          severity: "note",
          measured: share,
          limit: values.limit,
          message: `${told}. ${offer.where}, ${offer.open} would lie on open strings.`,
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
