// SPDX-License-Identifier: AGPL-3.0-or-later
import { withHeld } from "../../src/model/held.js";
import type { MomentNote } from "../../src/model/moments.js";
import type { Strung } from "../../src/model/places.js";
import { scaleGong } from "../../src/model/scale-gong.js";
import { soundsWhereGiven } from "../../src/model/soundable.js";
import { centsOf } from "../../src/model/temperament.js";
import { TUNINGS, type Tuning } from "../../src/model/tuning.js";
import { defineRule } from "../../src/rule/define.js";
import { type Phrase, phrase, phraseOf } from "../../src/words.js";

const OCTAVE = 12;

/** Where all places fit, in words. */
interface Fit {
  /** "in ... tuning" */
  readonly where: Phrase;
  /** what to say in the brief */
  readonly cure: Phrase;
  /** how it is read now, before "4 of them do not" */
  readonly here: Phrase;
  /** what follows "The fingering" */
  readonly cause: Phrase;
}

const sayInBrief = (line: string): Phrase => phrase(`say ${line} in the brief`, `请在编配说明里写${line}`);

function tuningFit(tuning: Tuning, now: Tuning): Fit {
  const { title, change, name } = tuning;
  const called = `${tuning.simplified}定弦`;
  return {
    where: phraseOf({
      en: (say) => `in ${title} tuning (${say(change)})`,
      zh: (say) => `用${called}（${say(change)}）`,
    }),
    cure: sayInBrief(`tuning: ${name}`),
    here: phrase(`In ${now.title} tuning`, `照眼下的${now.simplified}定弦`),
    cause: phrase(`is written for ${title} tuning (tuning: ${name})`, `是为${called}写的（tuning: ${name}）`),
  };
}

/** @param transpose semitones in all that the brief should name */
function octaveFit(higher: number, transpose: number): Fit {
  const octave = `an octave ${higher < 0 ? "lower" : "higher"}`;
  const octaveZh = `${higher < 0 ? "低" : "高"}八度`;
  return {
    where: phrase(`when the melody sounds ${octave}`, `旋律${octaveZh}来奏`),
    cure: sayInBrief(`transpose: ${transpose}`),
    here: phrase("As it is read", "照现在的读法"),
    cause: phrase(
      `is written for the melody ${octave} (transpose: ${transpose})`,
      `是按旋律${octaveZh}来写的（transpose: ${transpose}）`,
    ),
  };
}

export default defineRule(
  {
    id: "tuned-otherwise",
    kind: "notation",
    title: phrase("The places fit another tuning or octave", "音位合的是另一种定弦或另一个八度"),
    principle: phrase(
      "A place names a note in one tuning only. Where every written place of a melody fits in another tuning and not in this one, the melody was fingered for that tuning; where they all fit an octave away, it was fingered to sound there.",
      "一个音位只在一种定弦里是那个音。一首旋律所写的音位若在另一种定弦里处处相合，在眼下的定弦里却不合，指法就是为那种定弦写的；若移一个八度便处处相合，指法就是为那个八度写的。",
    ),
    why: phrase(
      "Judged in the wrong tuning, a good fingering looks wrong on every string that is tuned otherwise; judged in the wrong octave, on every string.",
      "定弦认错了，凡是定得不同的弦，好指法看来也错；八度认错了，每根弦都看来是错的。",
    ),
    whenRight: phrase(
      "Where the places fit by chance, as in a few notes: then correct the places that do not fit.",
      "只是碰巧相合，例如总共没几个音：那就改正不合的音位。",
    ),
    remedy: phrase(
      "Name the tuning or the transposition in the brief, or with --tuning or --transpose.",
      "在编配说明里，或用--tuning、--transpose，写明定弦或移调。",
    ),
    sources: [
      phrase(
        "pitches of the tunings: J. Thompson, silkqin.com, studies of the 1425 and 1525 handbooks and of the 39 tunings",
        "各定弦的音高：J. Thompson，silkqin.com，对1425年、1525年琴谱及39种定弦的研究",
      ),
      phrase("how many places tell a tuning from a slip: our judgement", "多少处才算是定弦不同而不是笔误：我们的判断"),
    ],
    unit: "places",
    parameters: {
      limit: {
        default: 1,
        unit: "places",
        doc: phrase("so many that do not fit may be slips of the pen", "不合的处数到此为止，还可能是笔误"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("open strings of the standard tuning", "正调的散音"),
        kind: "passes",
        melody: "G2 A2 C3 A2",
        fingering: ["san gou 4", "san tiao 5", "san mo 6", "san tiao 5"],
        finds: [],
      },
      {
        shows: phrase("string 5 as B flat, as it is in ruibin", "五弦为降B，蕤宾调就是如此"),
        kind: "breaks",
        melody: "G2 Bb2 C3 Bb2",
        fingering: ["san gou 4", "san tiao 5", "san mo 6", "san tiao 5"],
        finds: [
          [
            0,
            "problem",
            phrase(
              "All 4 written places fit their notes in ruìbīn tuning (string 5 up a semitone): say tuning: ruibin in the brief. In zhèng diào tuning 2 of them do not.",
              "若用蕤宾定弦（紧五弦半音），所写的4处音位就都与音相合：请在编配说明里写tuning: ruibin。照眼下的正调定弦，有2处不合。",
            ),
          ],
        ],
      },
      {
        shows: phrase("written an octave above where the strings sound", "比弦的实际音高写高了一个八度"),
        kind: "breaks",
        melody: "G3 A3 C4 F3",
        fingering: ["san gou 4", "san tiao 5", "san mo 6", "ming 10 gou 1"],
        finds: [
          [
            0,
            "problem",
            phrase(
              "All 4 written places fit their notes when the melody sounds an octave lower: say transpose: -12 in the brief. As it is read 4 of them do not.",
              "若旋律低八度来奏，所写的4处音位就都与音相合：请在编配说明里写transpose: -12。照现在的读法，有4处不合。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the same where that tuning is named", "同样的谱，写明了那种定弦"),
        kind: "exception",
        melody: "G2 Bb2 C3 Bb2",
        tuning: "ruibin",
        fingering: ["san gou 4", "san tiao 5", "san mo 6", "san tiao 5"],
        finds: [],
      },
      {
        shows: phrase("one place that does not fit is a slip", "只有一处不合，是笔误"),
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
        const message = phraseOf({
          en: (say) =>
            `All ${looked} written places fit their notes ${say(fit.where)}: ${say(fit.cure)}. ${say(fit.here)} ${measured} of them do not.`,
          zh: (say) =>
            `若${say(fit.where)}，所写的${looked}处音位就都与音相合：${say(fit.cure)}。${say(fit.here)}，有${measured}处不合。`,
        });
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
