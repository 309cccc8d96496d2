// SPDX-License-Identifier: AGPL-3.0-or-later
// Two fingerings of one melody side by side: the value that the outputs of `compare` are made from. No markup here.
import type { Billed, Contrast, RuleContrast } from "../check/contrast.js";
import { contrast } from "../check/contrast.js";
import type { Moment, MomentNote } from "../model/moments.js";
import { pitchName } from "../model/pitch.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import { transpositionWords } from "../model/transposition-words.js";
import type { CheckJson, CostJson } from "../report.js";
import type { Rule } from "../rule/types.js";
import { phrase, phraseOf, type Said } from "../words.js";
import type { ChangeJson, DifferenceJson } from "./change-json.js";
import { changeEntries, differenceJson } from "./changes.js";
import { answerSentence, decidingSentence, isSpread } from "./compare-words.js";
import { costJson } from "./fingering.js";
import { choiceReason, lineName, lineSentences } from "./line-words.js";
import { barLabel, sourceOf } from "./notes.js";
import { scoreJson, tempoOf } from "./score.js";
import { type SettingJson, settingJson } from "./setting.js";
import { handName, temperamentName, tempoWords } from "./wording.js";

/** One of the two. */
export interface SideJson {
  /** null for the best fingering that was found for A */
  readonly file: string | null;
  readonly setting: SettingJson;
  readonly source: CheckJson["fingering"]["source"];
  readonly total: CostJson;
}

/** One note on one side; null where it is left out. */
export interface NoteSideJson extends CostJson {
  readonly spoken: string | null;
}

/** `--json` of `compare`. Every difference is b minus a; ids and bars are those of A. */
export interface CompareJson {
  readonly schema: 1;
  readonly tool: CheckJson["tool"];
  readonly command: "compare";
  readonly score: CheckJson["score"];
  readonly a: SideJson;
  readonly b: SideJson;
  readonly difference: DifferenceJson;
  /** rules that charge something on either side, those that differ most first */
  readonly rules: readonly {
    readonly rule: string;
    readonly a: CostJson;
    readonly b: CostJson;
    readonly difference: DifferenceJson;
  }[];
  /** notes that differ in reading or cost, in score order */
  readonly notes: readonly {
    readonly id: string;
    readonly bar: string;
    readonly beat: string;
    readonly a: NoteSideJson;
    readonly b: NoteSideJson;
    readonly difference: DifferenceJson;
  }[];
  /** where they part, in score order */
  readonly changes: readonly ChangeJson[];
  /**
   * The fewest bars in a row whose notes' differences add up to three quarters of the whole difference or more; null
   * where both cost the same.
   */
  readonly deciding: {
    readonly fromBar: string;
    readonly toBar: string;
    readonly difference: DifferenceJson;
    readonly sentence: Said;
  } | null;
}

/** What one side is made from. */
export interface Side {
  /** null for the best fingering that was found for A */
  readonly file: string | null;
  readonly score: Score;
  readonly setting: Setting;
  /** the brief's file; null without one */
  readonly brief: string | null;
  readonly billed: Billed;
}

/** All that a page says about two fingerings. */
export interface Comparison {
  readonly json: CompareJson;
  /** A's melody; ids equal those of the JSON */
  readonly score: Score;
  /** the answer in one sentence */
  readonly sentence: Said;
  /** which line of A's score was read, why, and what takes the others; nothing where there was nothing to choose */
  readonly line: readonly Said[];
  /** what each side was read and judged with, row by row */
  readonly settings: readonly {
    readonly name: Said;
    readonly a: Said;
    readonly b: Said;
  }[];
  /** pitches as printed, of the notes in `json.notes` */
  readonly pitches: readonly string[];
  /** titles of rules by id */
  readonly titles: ReadonlyMap<string, Said>;
  /** no passage decides: what does is spread over most of the melody */
  readonly spread: boolean;
}

/**
 * Puts two sides together.
 *
 * @param rules the book, for titles
 */
export function assembleComparison(a: Side, b: Side, rules: readonly Rule[], version: string): Comparison {
  const found = contrast(a.billed, b.billed);
  const compared = { a: a.billed.played, b: b.billed.played, score: a.score };
  const deciding = found.deciding;
  const { score } = a;
  return {
    json: {
      schema: 1,
      tool: { name: "huipath", version },
      command: "compare",
      score: scoreJson(score),
      a: sideJson(a, found.a),
      b: sideJson(b, found.b),
      difference: differenceJson(found.difference),
      rules: found.rules.map(ruleEntry),
      notes: found.notes.map((note) => noteEntry(note, a)),
      changes: changeEntries(found.runs, compared),
      deciding:
        deciding === null
          ? null
          : {
              fromBar: barLabel(score, deciding.fromBar),
              toBar: barLabel(score, deciding.toBar),
              difference: differenceJson(deciding.difference),
              sentence: decidingSentence(deciding, found, compared),
            },
    },
    score,
    sentence: answerSentence(found, { best: b.file === null, given: sourceOf(a.billed.played) !== "searched" }),
    line: lineSentences(score),
    settings: settingRows(a, b),
    pitches: found.notes.map((note) => pitchName(noteOf(note, a).source.written)),
    titles: new Map(rules.map(({ id, title }) => [id, title])),
    spread: deciding !== null && isSpread(deciding, score),
  };
}

function sideJson({ file, setting, billed }: Side, total: Contrast["a"]): SideJson {
  const source = file === null ? "searched" : sourceOf(billed.played);
  return { file, setting: settingJson(setting), source, total: costJson(total) };
}

function ruleEntry({ rule, a, b, difference }: RuleContrast): CompareJson["rules"][number] {
  return { rule, a: costJson(a), b: costJson(b), difference: differenceJson(difference) };
}

function noteOf({ at, note }: Contrast["notes"][number], { billed }: Side): MomentNote {
  return (billed.played.moments[at] as Moment).notes[note] as MomentNote;
}

function noteEntry(entry: Contrast["notes"][number], a: Side): CompareJson["notes"][number] {
  const { source } = noteOf(entry, a);
  const side = ({ spoken, cost }: typeof entry.a): NoteSideJson => ({
    spoken: spoken === "" ? null : spoken,
    ...costJson(cost),
  });
  return {
    id: source.id,
    bar: barLabel(a.score, source.bar),
    beat: source.beat,
    a: side(entry.a),
    b: side(entry.b),
    difference: differenceJson(entry.difference),
  };
}

const SOURCE = {
  submitted: phrase("given by the score", "乐谱所给"),
  completed: phrase("given in part, the rest found", "部分给出，其余搜索补全"),
  searched: phrase("found by search", "搜索得出"),
} as const;

/** What the best fingering keeps of A's. */
const MEANT = phrase(" but where the brief means it to struggle", "，编配说明有意写得挣扎之处除外");

/** Which line was read, where a score has several. */
function lineRows(a: Side, b: Side): Comparison["settings"] {
  if (a.score.leftOut.length === 0 && b.score.leftOut.length === 0) return [];
  const words = ({ score }: Side): Said => {
    const { part, voice, choice } = score;
    const named = lineName(part.name ?? part.id, voice);
    if (choice === null) return named;
    const reason = choiceReason(choice);
    return phrase(`${named.en}: ${reason.en}`, `${named.zh}：${reason.zh}`);
  };
  return [{ name: phrase("Line", "旋律线"), a: words(a), b: words(b) }];
}

function settingRows(a: Side, b: Side): Comparison["settings"] {
  const row = (name: Said, value: (side: Side) => Said) => ({ name, a: value(a), b: value(b) });
  return [
    row(phrase("Score", "乐谱"), ({ file, brief }) => file ?? setAside(a.file ?? "", brief)),
    row(
      phrase("Fingering", "指法"),
      ({ file, billed }) => SOURCE[file === null ? "searched" : sourceOf(billed.played)],
    ),
    ...lineRows(a, b),
    row(phrase("Tuning", "定弦"), ({ setting: { tuning } }) => {
      const strings = tuning.strings.join(" ");
      return phrase(
        `${tuning.title}, ${strings}`,
        tuning.simplified === "" ? strings : `${tuning.simplified}，${strings}`,
      );
    }),
    row(phrase("Transposition", "移调"), ({ setting }) => transpositionWords(setting.transpose)),
    row(phrase("Temperament", "律制"), ({ setting }) => temperamentName(setting.temperament)),
    row(phrase("Hand", "手型"), ({ setting: { hand } }) => phrase(hand.name, handName(hand.name))),
    row(phrase("Tempo", "速度"), ({ score }) => tempoWords(tempoOf(score), score.tempos.length === 0)),
    row(phrase("Brief", "编配说明"), ({ brief }) => brief ?? phrase("none", "无")),
  ];
}

/** A's score with its own fingering left out of account. */
function setAside(file: string, brief: string | null): Said {
  return phraseOf({
    en: (say) => `${file}, its fingering set aside${brief === null ? "" : say(MEANT)}`,
    zh: (say) => `${file}，不计其指法${brief === null ? "" : say(MEANT)}`,
  });
}
