// SPDX-License-Identifier: AGPL-3.0-or-later
// Another tempo: the one nearest to the score's at which the finding's own rule is content with the place.
import { quotedReading } from "../../model/characters.js";
import { ASSUMED_TEMPO, type Moment, momentsOf } from "../../model/moments.js";
import { barsFromTo } from "../../model/place-words.js";
import type { Score, Tempo } from "../../model/score.js";
import { ZERO } from "../../model/time.js";
import { type Cost, unweigh } from "../../rule/cost.js";
import { playedBy } from "../../search/charges.js";
import { type Phrase, phrase, phraseOf, type Said } from "../../words.js";
import { check, type Finding, readingAt } from "../check.js";
import { strictRules } from "./fingering.js";
import { blocksWithout, type JudgedLine, momentsOfFinding, type Remediable, type Remedy } from "./line.js";
import { fresh, remains, remainsIn, signsOf, worseWords } from "./signs.js";
import { judged, type Trials } from "./trials.js";

/** A tempo farther from the score's than this factor, either way, would be another piece (our judgement). */
const FARTHEST_FACTOR = 3;

/** The tempi of a line tried out: moments are laid out once for each. */
export class Tempi {
  private readonly laidOut = new Map<string, readonly Moment[]>();

  constructor(private readonly trials: Trials) {}

  /** The tempo nearest to the score's at which a finding is gone, with what the line then costs; null where none is. */
  remedy(finding: Finding): Remedy | null {
    const { line } = this.trials;
    const index = this.markOf(finding);
    const now = this.marks()[index]?.quartersPerMinute as number;
    const tempo = this.nearestContent(finding, index, now);
    if (tempo === null) return null;
    const trial = this.trials.attempt(`tempo ${index} ${tempo}`, () => ({ score: this.scoreAt(index, tempo) }));
    if (trial === null) return null;
    const result = resultOf(trial, finding, line);
    if (result === null) return null;
    const where = this.stretch(index);
    const [how, inChinese] = tempo < now ? ["no faster than", "不快于"] : ["no slower than", "不慢于"];
    const current = Math.round(now * 10) / 10;
    const text = phraseOf({
      en: (say) =>
        `Play ${say(where)} ${how} ${tempo} quarter notes a minute (now ${current})${say(result.pinned)}.${say(result.worse)}`,
      zh: (say) =>
        `${say(where)}${inChinese}每分钟${tempo}个四分音符（现为${current}个）${say(result.pinned)}。${say(result.worse)}`,
    });
    const music = { from: tempoWords(current), to: tempoWords(tempo) };
    return { text, after: result.after, played: null, music };
  }

  private marks(): readonly Tempo[] {
    const { tempos } = this.trials.line.score;
    return tempos.length > 0 ? tempos : [{ onset: ZERO, quartersPerMinute: ASSUMED_TEMPO }];
  }

  /** The tempo mark in force where the finding's time begins. */
  private markOf(finding: Finding): number {
    const { moments } = this.trials.line.played;
    const first = finding.from ?? finding.at ?? momentsOfFinding(finding, moments)[0] ?? 0;
    const onset = moments[first]?.notes[0]?.source.onset ?? ZERO;
    const after = this.marks().findIndex((mark) => mark.onset.compare(onset) > 0);
    return Math.max(0, (after < 0 ? this.marks().length : after) - 1);
  }

  private scoreAt(index: number, tempo: number): Score {
    const tempos = this.marks().map((mark, i) => (i === index ? { ...mark, quartersPerMinute: tempo } : mark));
    return { ...this.trials.line.score, tempos };
  }

  /** The whole number of quarter notes a minute nearest to the score's tempo at which the rule is content. */
  private nearestContent(finding: Finding, index: number, now: number): number | null {
    const isContent = (tempo: number): boolean => !this.stays(finding, index, tempo);
    const slowest = Math.ceil(now / FARTHEST_FACTOR);
    const fastest = Math.floor(now * FARTHEST_FACTOR);
    if (isContent(slowest)) return bisect(slowest, Math.ceil(now), isContent);
    return isContent(fastest) ? bisect(fastest, Math.floor(now), isContent) : null;
  }

  /** Whether the fingering as it is still breaks the finding's rule at this tempo. */
  private stays(finding: Finding, index: number, tempo: number): boolean {
    const { line } = this.trials;
    const score = this.scoreAt(index, tempo);
    const then = { ...line.played, moments: this.momentsAt(index, tempo, score) };
    if (finding.at !== null) return remainsIn(then, finding, line);
    const rules = line.rules.filter(({ id }) => id === finding.rule);
    const { setting, brief, weighting } = line;
    return remains(finding, check(then, score, setting, rules, { brief, weighting, crashed: new Map() }));
  }

  private momentsAt(index: number, tempo: number, score: Score): readonly Moment[] {
    const key = `${index} ${tempo}`;
    const moments = this.laidOut.get(key) ?? momentsOf(score, this.trials.line.setting, this.trials.line.brief);
    this.laidOut.set(key, moments);
    return moments;
  }

  /** What the tempo mark governs, in words. */
  private stretch(index: number): Phrase {
    const { line } = this.trials;
    const mark = this.marks()[index] as Tempo;
    const until = this.marks()[index + 1]?.onset;
    if (this.marks().length === 1) return phrase("the melody", "全曲");
    const within = line.score.bars.filter(
      (bar) =>
        bar.onset.add(bar.length).compare(mark.onset) > 0 && (until === undefined || bar.onset.compare(until) < 0),
    );
    return barsFromTo(within[0]?.label ?? "", within.at(-1)?.label ?? "");
  }
}

function tempoWords(quartersPerMinute: number): Phrase {
  return phrase(`${quartersPerMinute} quarter notes a minute`, `每分钟${quartersPerMinute}个四分音符`);
}

/** The whole number farthest from `good`, on the way to `bad`, that is still content; `bad` is known not to be. */
function bisect(good: number, bad: number, isContent: (tempo: number) => boolean): number {
  let [content, not] = [good, bad];
  while (Math.abs(content - not) > 1) {
    const middle = Math.floor((content + not) / 2);
    if (isContent(middle)) content = middle;
    else not = middle;
  }
  return content;
}

/** What a tempo does. */
interface Result {
  readonly after: Cost;
  /** the fingering that must stand at the place, in words; empty where the best line has it */
  readonly pinned: Said;
  readonly worse: Said;
}

/** The line searched at the tempo; where it would break the rule there again, the cheapest that does not. */
function resultOf(trial: JudgedLine, finding: Finding, line: Remediable): Result | null {
  const most = blocksWithout(finding, line.verdicts);
  if (!remains(finding, trial.verdicts)) {
    const { total } = trial.verdicts;
    if (total.blocked > most) return null;
    return { after: total, pinned: "", worse: worseWords(fresh(signsOf(trial.verdicts), line.verdicts), line) };
  }
  if (finding.at === null) return null;
  const other = trial.searched.excepting(finding.at, strictRules(finding, line));
  const after = unweigh(other.weight);
  const played = playedBy(trial.played.moments, other);
  const then = judged(trial, played);
  if (after.blocked > most || remains(finding, then)) return null;
  const reading = quotedReading(readingAt(played, finding.at));
  const pinned = phraseOf({ en: (say) => ` with ${say(reading)} here`, zh: (say) => `，此处弹作${say(reading)}` });
  return { after, pinned, worse: worseWords(fresh(signsOf(then), line.verdicts), line) };
}
