// SPDX-License-Identifier: AGPL-3.0-or-later
// Another tuning or transposition of the whole melody. Few are searched: those that promise most by simple counts.
import { HIGHEST_STOP_SEMITONES } from "../../model/board.js";
import { setFree } from "../../model/fingering.js";
import { gongAt } from "../../model/melody-gong.js";
import { inScale } from "../../model/moments.js";
import { isCore } from "../../model/note-table.js";
import { parseTransposition, type Transposition } from "../../model/pitch.js";
import type { Setting } from "../../model/setting.js";
import { transpositionWords } from "../../model/transposition-words.js";
import { countRetuned, STANDARD, type Tuning, tuningsWith } from "../../model/tuning.js";
import { isLess } from "../../rule/cost.js";
import { joined, type Phrase, phrase, phraseOf, type Said } from "../../words.js";
import type { Finding } from "../check.js";
import { blocksWithout, cheapest, type JudgedLine, type Remediable, type Remedy } from "./line.js";
import { oftenerWords, remains } from "./signs.js";
import type { Trials } from "./trials.js";

/** Transpositions looked at lie at most so many semitones from the one in force, or from the least that is in range. */
const FARTHEST_SEMITONES = 7;
/** At most so many settings are searched: the best by each count. */
const MOST_SETTINGS = 3;
/** Options take no transposition beyond this. */
const FARTHEST_TRANSPOSITION = 48;

/** A tuning and a transposition with what can be counted without a search. */
interface Promise {
  readonly tuning: Tuning;
  readonly semitones: number;
  /** semitones away from the transposition in force */
  readonly away: number;
  /** strings that are tuned otherwise than now */
  readonly retuned: number;
  /** notes that lie on an open string */
  readonly open: number;
  /** notes that are neither open nor one of the five tones of the mode */
  readonly strays: number;
}

/** The settings tried for one line, searched when a finding first asks. */
export class Settings {
  private tried: readonly JudgedLine[] | null = null;

  constructor(private readonly trials: Trials) {}

  /**
   * The cheapest of the settings tried in which a finding is gone; null where there is none. Where the line can be played
   * as it is, one that costs more is none: the whole melody does not move for a matter of taste.
   */
  remedy(finding: Finding): Remedy | null {
    const { line } = this.trials;
    this.tried ??= this.search();
    const most = blocksWithout(finding, line.verdicts);
    const { total } = line.verdicts;
    const cured = this.tried.filter(({ verdicts }) => {
      const dearer = finding.severity !== "blocker" && isLess(total, verdicts.total);
      return verdicts.total.blocked <= most && !dearer && !remains(finding, verdicts);
    });
    return cheapest(
      cured.map((trial) => ({
        text: joined([settingWords(trial.setting, line), oftenerWords(trial.verdicts, line)]),
        after: trial.verdicts.total,
        played: null,
        music: { from: placedIn(line.setting, trial.setting), to: placedIn(trial.setting, line.setting) },
      })),
    );
  }

  private search(): readonly JudgedLine[] {
    const { line } = this.trials;
    const score = { ...line.score, notes: line.score.notes.map((note) => ({ ...note, given: setFree(note.given) })) };
    const brief = { ...line.brief, pins: [] };
    return mostPromising(line).flatMap(({ tuning, semitones }) => {
      const transpose = spelled(semitones, line);
      if (transpose === null) return [];
      const key = `setting ${tuning.name} ${semitones}`;
      const setting = (): Setting => inScale({ ...line.setting, tuning, transpose }, line.score);
      return this.trials.attempt(key, () => ({ setting: setting(), score, brief })) ?? [];
    });
  }
}

const spelled = (semitones: number, { score }: Remediable): Transposition | null =>
  parseTransposition(String(semitones), score.bars[0]?.key.fifths ?? 0);

/** The best by each count in turn, none twice. */
function mostPromising(line: Remediable): readonly Promise[] {
  const all = promisesOf(line);
  const near = (a: Promise, b: Promise): number =>
    Math.abs(a.away) - Math.abs(b.away) || a.retuned - b.retuned || a.away - b.away;
  const orders: readonly ((a: Promise, b: Promise) => number)[] = [
    ...(reaches(line, line.setting.tuning, line.setting.transpose.semitones) ? [] : [byLeastRetuned(near)]),
    (a, b) => b.open - a.open || near(a, b),
    (a, b) => a.strays - b.strays || b.open - a.open || near(a, b),
    near,
  ];
  const chosen: Promise[] = [];
  for (const order of orders) {
    const best = all.filter((one) => !chosen.includes(one)).sort(order)[0];
    if (best !== undefined && chosen.length < MOST_SETTINGS) chosen.push(best);
  }
  return chosen;
}

/** The tuning as it is before any other. */
const byLeastRetuned =
  (near: (a: Promise, b: Promise) => number) =>
  (a: Promise, b: Promise): number =>
    a.retuned - b.retuned || near(a, b);

/** Every tuning and transposition within the window in which all notes lie on the strings, but the one in force. */
function promisesOf(line: Remediable): readonly Promise[] {
  const { tuning: own, transpose } = line.setting;
  return tuningsWith(own).flatMap((tuning) => {
    const least = leastShift(line, tuning);
    const from = transpose.semitones + Math.min(0, least) - FARTHEST_SEMITONES;
    const to = transpose.semitones + Math.max(0, least) + FARTHEST_SEMITONES;
    return Array.from({ length: to - from + 1 }, (_, i) => from + i)
      .filter((semitones) => Math.abs(semitones) <= FARTHEST_TRANSPOSITION)
      .filter((semitones) => tuning.name !== own.name || semitones !== transpose.semitones)
      .filter((semitones) => reaches(line, tuning, semitones))
      .map((semitones) => counted(line, tuning, semitones));
  });
}

/** Semitones by which the melody as it sounds now goes beyond a tuning's strings, with the sign of the way back. */
function leastShift(line: Remediable, tuning: Tuning): number {
  const room = roomIn(line, tuning);
  return room.down < 0 ? -room.down : Math.min(0, room.up);
}

function roomIn({ played }: Remediable, tuning: Tuning): { readonly down: number; readonly up: number } {
  const pitches = played.moments.flatMap((moment) => moment.notes.map((note) => note.semitone));
  return {
    down: Math.min(...pitches) - Math.min(...tuning.semitones),
    up: Math.max(...tuning.semitones) + HIGHEST_STOP_SEMITONES - Math.max(...pitches),
  };
}

function reaches(line: Remediable, tuning: Tuning, semitones: number): boolean {
  const { down, up } = roomIn(line, tuning);
  const away = semitones - line.setting.transpose.semitones;
  return down + away >= 0 && up - away >= 0;
}

function counted(line: Remediable, tuning: Tuning, semitones: number): Promise {
  const { setting, score, played } = line;
  const away = semitones - setting.transpose.semitones;
  const pitches = played.moments.flatMap((moment) => moment.notes.map((note) => note.semitone + away));
  const isOpen = (pitch: number): boolean => tuning.semitones.includes(pitch);
  const transpose = { ...setting.transpose, semitones };
  const gong = gongAt(score, { ...setting, tuning, transpose });
  return {
    tuning,
    semitones,
    away,
    retuned: countRetuned(tuning, setting.tuning),
    open: pitches.filter(isOpen).length,
    strays: pitches.filter((pitch) => !isOpen(pitch) && !isCore(pitch, gong)).length,
  };
}

/** The change in words: what is retuned, and where the melody then lies. */
function settingWords(then: Setting, { setting }: Remediable): Phrase {
  const retuned = then.tuning.name === setting.tuning.name ? null : tuningWords(then.tuning);
  const moved = then.transpose.semitones === setting.transpose.semitones ? null : movedWords(then, setting);
  if (retuned === null)
    return phraseOf({
      en: (say) => (moved === null ? "." : `Play ${say(moved)}.`),
      zh: (say) => (moved === null ? "。" : `${say(moved)}。`),
    });
  return phraseOf({
    en: (say) => `Tune to ${say(retuned)}${moved === null ? "" : ` and play ${say(moved)}`}.`,
    zh: (say) => `改定${say(retuned)}${moved === null ? "" : `，${say(moved)}`}。`,
  });
}

/** Where the melody lies in another transposition. */
function movedWords(then: Setting, setting: Setting): Phrase {
  const where = transpositionWords(then.transpose);
  const againstWritten = setting.transpose.semitones !== 0 && then.transpose.semitones !== 0;
  const inChinese = then.transpose.semitones === 0 ? "全曲用" : againstWritten ? "全曲比原谱" : "全曲移";
  return phraseOf({
    en: (say) => `the whole melody ${say(where)}${againstWritten ? " than written" : ""}`,
    zh: (say) => `${inChinese}${say(where)}`,
  });
}

/** What of a setting is another than in the other one: the tuning, where the melody lies, or both. */
function placedIn(setting: Setting, other: Setting): Said {
  return joined(
    [
      ...(setting.tuning.name === other.tuning.name ? [] : [tuningWords(setting.tuning)]),
      ...(setting.transpose.semitones === other.transpose.semitones ? [] : [transpositionWords(setting.transpose)]),
    ],
    phrase(", ", "，"),
  );
}

function tuningWords(tuning: Tuning): Said {
  if (tuning.name === STANDARD.name) return phrase("the standard tuning", "正调");
  if (tuning.characters === "") return tuning.name;
  return phraseOf({
    en: (say) => `${tuning.title} (${say(tuning.change)})`,
    zh: (say) => `${tuning.simplified}（${say(tuning.change)}）`,
  });
}
