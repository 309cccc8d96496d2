// SPDX-License-Identifier: AGPL-3.0-or-later
// From a judged line to the Report value.

import type { Finding, Verdicts } from "../check/check.js";
import type { Tried } from "../check/remedy.js";
import { practiceOf } from "../check/study/practice.js";
import type { Study } from "../check/study/study.js";
import { ASSUMED_TEMPO } from "../model/moments.js";
import { pitchClassName } from "../model/note-table.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import { transpositionWords } from "../model/transposition-words.js";
import { soundsAnotherNote } from "../model/written-place.js";
import type { CheckJson, FindingJson, Report } from "../report.js";
import { type Cost, FREE } from "../rule/cost.js";
import { type Rule, SEVERITIES, type Severity } from "../rule/types.js";
import { type Phrase, phrase, type Said } from "../words.js";
import type { CertificateJson } from "./certificate.js";
import { costJson, type Fingered, fingeringJson } from "./fingering.js";
import { lineSentences } from "./line-words.js";
import { barLabel, spareMoves } from "./notes.js";
import { picturesOf } from "./pictures.js";
import { keyFigures, positionTable } from "./places.js";
import { practiceJson, studyJson, studyMusic } from "./practice.js";
import { notesInstead, remedyEntry } from "./remedies.js";
import { scoreJson } from "./score.js";
import { settingJson } from "./setting.js";
import { soundingLine } from "./sounding.js";
import { count, effortReading, handName, temperamentName, verdictSentence } from "./wording.js";

/** What a report is made from. */
export interface Judged extends Fingered {
  readonly setting: Setting;
  /** what was tried against a finding; nothing for those that are not in it */
  readonly remedies: ReadonlyMap<Finding, Tried>;
  /** null where none was asked for */
  readonly study: Study | null;
  /** null where none was asked for */
  readonly certificate: CertificateJson | null;
  /** huipath's own version */
  readonly version: string;
}

/** The Report value of one score. */
export function assembleReport(judged: Judged): Report {
  const { score, setting, rules, played, verdicts } = judged;
  const json = checkJson(judged);
  return {
    json,
    score,
    rules: rules.map(({ id, kind, title, principle, why, whenRight, remedy }) => ({
      id,
      kind,
      title,
      principle,
      why,
      whenRight,
      remedy,
    })),
    tuning: {
      title: setting.tuning.title,
      characters: setting.tuning.characters,
      simplified: setting.tuning.simplified,
      change: setting.tuning.change,
      note: setting.tuning.note,
    },
    transposition: transpositionWords(setting.transpose),
    figures: keyFigures(score, setting, played),
    line: lineSentences(score),
    assumptions: assumptions(score, setting),
    table: positionTable(score, setting, played),
    pictures: picturesOf(score, setting, played, verdicts.bill),
    sounding: soundingLine(score, played, setting),
    costByRule: costByRule(rules, verdicts),
    reading: readingOf(json),
    instead: new Map(
      json.findings.flatMap(({ id }, i) => {
        const finding = verdicts.findings[i] as Finding;
        const placed = notesInstead(finding, judged.remedies.get(finding), played);
        return placed.length === 0 ? [] : [[id, placed] as const];
      }),
    ),
    studyMusic: judged.study === null ? [] : studyMusic(judged.study, setting, rules),
    certificate: judged.certificate,
  };
}

function checkJson(judged: Judged): CheckJson {
  const { score, setting, played, verdicts, remedies, version } = judged;
  const fingering = fingeringJson(judged);
  const { notes, source } = fingering;
  const severities: Record<Severity, number> = { note: 0, caution: 0, problem: 0, blocker: 0 };
  for (const severity of SEVERITIES) severities[severity] = placesWith(severity, verdicts.findings);
  const sentence = verdictSentence({
    notes: notes.length,
    blocked: verdicts.total.blocked,
    effortPerNote: spareMoves(verdicts.total.effort) / Math.max(1, notes.length),
    severities,
    tuning: tuningWords(setting),
    transposition: setting.transpose.semitones === 0 ? null : transpositionWords(setting.transpose),
    submitted: source === "submitted",
    meant: verdicts.findings.some(({ status }) => status === "accepted"),
    cause: verdicts.findings.find(({ explains }) => explains !== null)?.explains?.cause ?? null,
    givenBlocked: played.lefts.flatMap((left) => left.missing).filter(({ cause }) => cause === "given").length,
    wrongNotes: played.lefts.flatMap((left) => left.placed).filter(soundsAnotherNote).length,
  });
  return {
    schema: 1,
    tool: { name: "huipath", version },
    command: "check",
    score: scoreJson(score),
    setting: settingJson(setting),
    verdict: { playable: verdicts.total.blocked === 0, sentence },
    fingering,
    findings: findingEntries(verdicts.findings, score, (finding) => {
      const tried = remedies.get(finding);
      return {
        remedy: remedyEntry(tried?.remedy ?? null, played, notes),
        unavoidable: tried?.unavoidable ?? false,
      };
    }),
    practice: practiceJson(practiceOf(played)),
    study: judged.study === null ? null : studyJson(judged.study),
    tallies: verdicts.tallies.map(({ crashed, ...tally }) => ({ ...tally, unsure: 0, crashed })),
    unread: score.unread,
  };
}

/** At how many notes findings of a severity end that stand by themselves; one for the whole line. */
function placesWith(severity: Severity, findings: readonly Finding[]): number {
  const own = findings.filter((one) => one.status === "open" && one.followsFrom === null);
  return new Set(own.filter((one) => one.severity === severity).map((finding) => finding.place)).size;
}

/** The plain reading of the effort; of a line with gaps there is none. */
function readingOf(json: CheckJson): Said {
  const { blocked, effort } = json.fingering.total;
  if (blocked > 0) return phrase("without what cannot be played", "不计不能弹的音");
  return effortReading(effort / Math.max(1, json.score.notes));
}

function tuningWords(setting: Setting): Phrase {
  const { tuning } = setting;
  if (tuning.name === "zhengdiao") return phrase("standard tuning", "正调");
  return tuning.characters === ""
    ? phrase("this tuning", "这种定弦")
    : phrase(`${tuning.title} tuning`, `${tuning.simplified}定弦`);
}

function findingEntries(
  findings: readonly Finding[],
  score: Score,
  answerTo: (finding: Finding) => Pick<FindingJson, "remedy" | "unavoidable">,
): readonly FindingJson[] {
  const byId = new Map(score.notes.map((note) => [note.id, note]));
  const seen = new Map<string, number>();
  return findings.map((finding) => {
    const note = finding.place === null ? undefined : byId.get(finding.place);
    const stem = `${finding.rule}-${finding.place ?? "line"}`;
    const repeat = (seen.get(stem) ?? 0) + 1;
    seen.set(stem, repeat);
    return {
      id: repeat === 1 ? stem : `${stem}-${repeat}`,
      rule: finding.rule,
      kind: finding.kind,
      severity: finding.severity,
      status: finding.status,
      bar: note === undefined ? null : barLabel(score, note.bar),
      beat: note?.beat ?? null,
      notes: finding.notes,
      measured: rounded(finding.measured),
      limit: rounded(finding.limit),
      unit: finding.unit,
      message: finding.message,
      ...costJson(finding.cost),
      ...answerTo(finding),
      reason: finding.reason,
      followsFrom: finding.followsFrom,
    };
  });
}

/** At most three decimals: more is noise of the arithmetic. */
const rounded = (value: number | null): number | null => (value === null ? null : Math.round(value * 1000) / 1000);

function costByRule(rules: readonly Rule[], verdicts: Verdicts): Report["costByRule"] {
  const sums = new Map<string, Cost & { places: number }>();
  for (const charge of verdicts.bill) {
    const sum = sums.get(charge.rule.id) ?? { ...FREE, places: 0 };
    sums.set(charge.rule.id, {
      places: sum.places + 1,
      blocked: sum.blocked + charge.cost.blocked,
      effort: sum.effort + charge.cost.effort,
    });
  }
  return [...sums]
    .sort(([, a], [, b]) => b.blocked - a.blocked || b.effort - a.effort)
    .map(([rule, { places, ...cost }]) => ({
      rule,
      title: rules.find((one) => one.id === rule)?.title ?? rule,
      places,
      ...costJson(cost),
    }));
}

/** What was assumed, one sentence each. */
function assumptions(score: Score, setting: Setting): readonly Said[] {
  const { hand } = setting;
  const tempo =
    score.tempos.length === 0
      ? [
          phrase(
            `The score gives no tempo: ${ASSUMED_TEMPO} quarter notes a minute are assumed.`,
            `乐谱没有标速度：假定每分钟${ASSUMED_TEMPO}个四分音符。`,
          ),
        ]
      : [];
  const chosen =
    setting.chosenFrom === undefined
      ? []
      : [
          phrase(
            `Tuning and transposition were chosen as the best of ${count(setting.chosenFrom, "setting")}; huipath fit lists the others.`,
            `定弦与移调是从${setting.chosenFrom}种设置中选出的最佳；其余可用huipath fit列出。`,
          ),
        ];
  return [
    ...chosen,
    ...tempo,
    phrase(
      `Strings of ${setting.scaleLengthCm} cm; hand ${hand.name}: thumb and ring finger comfortably up to ${hand.comfortableSpanCm} cm apart, at most ${hand.spanLimitCm} cm. We know of no published hand spans: these are defaults.`,
      `弦长${setting.scaleLengthCm}厘米；手型：${handName(hand.name)}；大指与名指相距${hand.comfortableSpanCm}厘米以内舒适，最多${hand.spanLimitCm}厘米。我们没有见过公开发表的手距数据，这些是默认值。`,
    ),
    phrase(
      `Up to ${hand.plucksPerSecond} plucks a second with alternating strokes, ${hand.plucksPerSecondOneFinger} with one finger.`,
      `入弦、出弦交替，每秒最多弹${hand.plucksPerSecond}次；单用一指，每秒最多${hand.plucksPerSecondOneFinger}次。`,
    ),
    phrase(
      `Places are computed in ${setting.temperament} temperament, on the scale of ${pitchClassName(setting.gong, true)}; a written tenth is a place to find by ear, not a pitch.`,
      `徽位按${temperamentName(setting.temperament).zh}、以${pitchClassName(setting.gong, true)}为宫计算；写出的“分”是用耳朵去找的位置，不是音高。`,
    ),
    phrase(
      `${count(score.bars.length, "bar")} read; repeated sections are judged once, as printed.`,
      `读入${score.bars.length}小节；反复的部分按所印只评一次。`,
    ),
  ];
}
