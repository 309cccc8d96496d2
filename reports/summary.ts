// SPDX-License-Identifier: AGPL-3.0-or-later
// What the terminal says: one screen, the verdict first, where the report lies last.

import { barAndBeat } from "../src/model/place-words.js";
import { signName } from "../src/model/sign.js";
import { shiftInChinese, tuningInCharacters } from "../src/report/wording.js";
import type { CheckJson, FindingJson, Report } from "../src/report.js";
import { inWords, joined, type Language, type Phrase, phrase, phraseOf, printable, type Said } from "../src/words.js";
import { tasteSentences } from "./check-taste.js";
import { wayTitle, wayTraits } from "./check-ways.js";
import { cut } from "./terminal.js";
import { wishSentences } from "./wish-words.js";
import { chosenWords, count, SEVERITY_WORD, WORST_FIRST } from "./words.js";

/** Where the outputs went; null for none. */
export interface Written {
  readonly report: string | null;
  readonly json: string | null;
  readonly score: string | null;
  readonly certificate: string | null;
  readonly audio: string | null;
}

/** At most this many findings are named; the report has all. */
const NAMED_FINDINGS = 6;
/** Longer lines are cut between words: the report has the whole. */
const LINE_WIDTH = 200;

/** The summary of `huipath check`. */
export function checkSummary(report: Report, written: Written, language: Language = "en"): string {
  const { json } = report;
  const said: readonly Said[] = [
    json.score.title ?? json.score.file,
    json.verdict.sentence,
    ...report.line,
    ...chosenLine(json.setting),
    figuresLine(report.figures),
    effortLine(report),
    ...comparisonLine(json),
    ...wishSentences(report),
    ...wayLines(json),
    ...studyLine(json),
    ...tasteLine(json),
    ...findingLines(json),
    ...unreadLine(json),
  ];
  const lines = [
    ...said.map((one) => cut(inWords(one, language), LINE_WIDTH)),
    ...writtenLines(written).map((one) => inWords(one, language)),
  ];
  return `${lines.map(printable).join("\n")}\n`;
}

/** Where the outputs went, one line each. */
function writtenLines(written: Written): readonly Said[] {
  const named: readonly (readonly [Phrase, string | null])[] = [
    [phrase("Report", "报告"), written.report],
    [phrase("JSON", "JSON"), written.json],
    [phrase("Annotated score", "带指法的乐谱"), written.score],
    [phrase("Certificate", "证明书"), written.certificate],
    [phrase("Sound", "声音"), written.audio],
  ];
  return named.flatMap(([name, path]) =>
    path === null || path === "-" ? [] : [phrase(`${name.en}: ${path}`, `${name.zh}：${path}`)],
  );
}

function figuresLine(figures: Report["figures"]): Phrase {
  return phraseOf({
    en: (say) => `${figures.map(({ value, label }) => `${say(value)} ${say(label)}`).join(", ")}.`,
    zh: (say) => `${figures.map((figure) => figureInChinese(say(figure.value), say(figure.label))).join("，")}。`,
  });
}

/** "37个散音"; what is no count stands behind its name: "实际音域C2至G3". */
const figureInChinese = (value: string, label: string): string => (/^\d+$/.test(value) ? value + label : label + value);

function effortLine({ json, reading }: Report): Phrase {
  const { total } = json.fingering;
  const perNote = (total.effort / Math.max(1, json.score.notes)).toFixed(2);
  return phraseOf({
    en: (say) => `Effort: ${total.effort} spare moves, ${perNote} a note (${say(reading)}).`,
    zh: (say) => `费力：${total.effort}空动，每音${perNote}（${say(reading)}）。`,
  });
}

function unreadLine({ unread }: CheckJson): readonly Said[] {
  const [first] = unread;
  if (first === undefined) return [];
  const more = unread.length - 1;
  return [
    phraseOf({
      en: (say) => `Not everything was read: ${say(first.what)}${more > 0 ? ` (and ${more} more)` : ""}.`,
      zh: (say) => `有内容没有读取：${say(first.what)}${more > 0 ? `（另有${more}项）` : ""}。`,
    }),
  ];
}

/** Which setting was chosen, where none was named. */
function chosenLine(setting: CheckJson["setting"]): readonly Said[] {
  if (setting.chosenFrom === null) return [];
  const { tuning, transpose } = setting;
  const chosen = chosenWords(setting);
  return [
    phraseOf({
      en: (say) => `Setting: ${tuning}, ${transpose} semitones${say(chosen)}.`,
      zh: (say) => `设置：${tuningInCharacters(tuning)}，${shiftInChinese(transpose)}${say(chosen)}。`,
    }),
  ];
}

/** "Yours costs 41 spare moves, with 3 changes 19, the best found 14." */
function comparisonLine(json: CheckJson): readonly Said[] {
  const { better, total } = json.fingering;
  if (better === null) return [];
  if (better.length === 0) return [phrase("No fingering costs less than the written one.", "没有比所写更省力的指法。")];
  const steps = better.map((line, i) => {
    const best = i === better.length - 1;
    const cost = costWords(line.total);
    const n = line.changes.length;
    return phrase(
      `${best ? "the best found" : "another"}, with ${count(n, "change")}, ${cost.en}`,
      `${best ? "找到的最佳" : "另一种"}改${n}处，费${cost.zh}`,
    );
  });
  const [own, others] = [costWords(total, " spare moves"), joined(steps, phrase("; ", "；"))];
  return [phrase(`As written ${own.en}; ${others.en}.`, `照所写费${own.zh}；${others.zh}。`)];
}

/** An effort; the first one of a sentence with its unit. */
function costWords({ blocked, effort }: CheckJson["fingering"]["total"], unit = ""): Phrase {
  return blocked > 0
    ? phrase(`${effort}${unit} with ${blocked} left out`, `${effort}空动（略去${blocked}个音）`)
    : phrase(`${effort}${unit}`, `${effort}空动`);
}

/** One line for each other way to play the whole. */
function wayLines(json: CheckJson): readonly Said[] {
  const [first, ...others] = json.fingering.ways ?? [];
  if (first === undefined) return [];
  return others.map((way) => {
    const title = wayTitle(way, first);
    const traits = wayTraits(way);
    return phraseOf({
      en: (say) => `Another way: ${title.en}. ${say(traits)}`.trim(),
      zh: (say) => `另一种弹法：${title.zh}。${say(traits)}`,
    });
  });
}

/** How long the study is that was asked for. */
function studyLine({ study }: CheckJson): readonly Said[] {
  if (study === null) return [];
  const name = signName(study.sign);
  const lines = study.lines.length;
  return [
    lines === 0
      ? phrase(`Study of ${name.en}: the piece leaves nothing of it out.`, `“${name.zh}”的练习：本曲没有遗漏。`)
      : phrase(
          `Study of ${name.en}: ${count(lines, "line")} to play, in the report.`,
          `“${name.zh}”的练习：${lines}条，见报告。`,
        ),
  ];
}

/** What other weights of the rules would change. */
function tasteLine(json: CheckJson): readonly Said[] {
  const sentences = tasteSentences(json);
  if (sentences.length === 0) return [];
  return [joined([phrase("Taste: ", "取舍："), joined(sentences, phrase(" ", ""))])];
}

/** What is open, worst first, and how much is left alone on purpose; a blocker is told whoever accepts it. */
function findingLines({ findings }: CheckJson): readonly Said[] {
  const told = findings.filter(({ status, severity }) => status !== "accepted" || severity === "blocker");
  const open = told.filter(({ followsFrom }) => followsFrom === null);
  const left = findings.length - told.length;
  const following = told.length - open.length;
  const alone =
    left === 0
      ? []
      : [
          phrase(
            `Left alone on purpose: ${count(left, "finding")}, listed in the report.`,
            `有意保留：${left}处，列在报告中。`,
          ),
        ];
  if (open.length === 0) return [phrase("No findings.", "没有发现。"), ...alone];
  const counts = WORST_FIRST.flatMap((severity) => {
    const n = open.filter((finding) => finding.severity === severity).length;
    const word = SEVERITY_WORD[severity];
    return n === 0 ? [] : [phrase(`${n} ${word.en}`, `${n}处${word.zh}`)];
  });
  const all = joined(counts, phrase(", ", "，"));
  const worst = [...open].sort((a, b) => WORST_FIRST.indexOf(a.severity) - WORST_FIRST.indexOf(b.severity));
  const named = worst.slice(0, NAMED_FINDINGS).map(findingLine);
  const rest = open.length - named.length;
  const more = rest > 0 ? [phrase(`  ... and ${rest} more in the report`, `  ……报告中另有${rest}处`)] : [];
  const behind =
    following === 0
      ? []
      : [
          phrase(
            `  ${following} more ${following === 1 ? "follows" : "follow"} from what holds for the whole line`,
            `  另有${following}处由全曲的情况而来`,
          ),
        ];
  return [phrase(`Findings: ${all.en}.`, `发现：${all.zh}。`), ...named, ...more, ...behind, ...alone];
}

function findingLine({ bar, beat, message }: FindingJson): Phrase {
  const where = bar === null ? phrase("whole line", "全曲") : barAndBeat(bar, beat ?? "");
  return phraseOf({
    en: (say) => `  ${where.en}: ${say(message)}`,
    zh: (say) => `  ${where.zh}：${say(message)}`,
  });
}
