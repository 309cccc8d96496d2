// SPDX-License-Identifier: AGPL-3.0-or-later
// The view of `huipath check`: the report value as the templates print it. Plain data, every key there, no markup but own.

import type { EngravedMusic } from "../src/engrave/music.js";
import { placeInCharacters, stringInCharacters, strokeCharacter, toneInWords } from "../src/model/characters.js";
import { handName, temperamentName } from "../src/report/wording.js";
import type { NoteJson, Report } from "../src/report.js";
import { joined, type Phrase, phrase, phraseOf, type Said } from "../src/words.js";
import { anchor, barAnchors } from "./anchors.js";
import { type BetterView, viewBetter } from "./check-better.js";
import { type FindingsView, viewFindings } from "./check-findings.js";
import { type OtherWaysView, viewOtherWays } from "./check-other-ways.js";
import { type PicturesView, viewPictures } from "./check-pictures.js";
import { type PracticeView, viewPractice } from "./check-practice.js";
import { type ScoreView, viewScore } from "./check-score.js";
import { type TasteView, viewTaste } from "./check-taste.js";
import { viewWays, type WaysView } from "./check-ways.js";
import { type HeadView, viewHead } from "./head.js";
import { LISTEN_WORDS } from "./listen-words.js";
import type { PageScript } from "./page-script.js";
import type { OwnMarkup } from "./template.js";
import { type TermsView, termsOf } from "./terms.js";
import { wishSentences } from "./wish-words.js";
import {
  chosenWords,
  count,
  FINGER_WORD,
  moves,
  number,
  placeName,
  SOURCE_WORDS,
  SUM_WORDS,
  spokenWords,
} from "./words.js";

interface NoteView {
  readonly bar: string;
  readonly barHref: string;
  readonly startsBar: boolean;
  readonly beat: Said;
  readonly note: string;
  readonly written: Said;
  readonly string: string;
  readonly place: Said;
  readonly finger: Said;
  readonly stroke: Said;
  readonly planted: Said;
  readonly spoken: Said;
  readonly effort: Said;
  readonly blocked: boolean;
  readonly mark: {
    readonly href: string;
    readonly entry: number;
    readonly severity: string;
    readonly label: Said;
  } | null;
}

/** All that the page prints. */
export interface CheckView {
  readonly style: OwnMarkup;
  readonly head: HeadView;
  readonly answer: {
    readonly playable: boolean;
    readonly sentence: Said;
    readonly source: Said;
    readonly figures: Report["figures"];
    /** what was wanted beside the least effort, and its price */
    readonly wishes: readonly Said[];
    readonly counts: FindingsView["counts"];
    readonly tuning: {
      readonly title: Said;
      readonly characters: Said;
      readonly change: Said;
      readonly note: Said;
    };
    readonly strings: readonly { readonly number: number; readonly pitch: string }[];
    readonly transposition: Said;
    readonly effort: Said;
    readonly perNote: string;
    readonly reading: Said;
  };
  readonly terms: TermsView;
  readonly score: ScoreView;
  readonly listen: typeof LISTEN_WORDS;
  readonly script: PageScript;
  readonly better: BetterView;
  readonly ways: WaysView;
  readonly taste: TasteView;
  readonly findings: Omit<FindingsView, "marks">;
  readonly pictures: PicturesView;
  readonly practice: PracticeView;
  readonly notes: readonly NoteView[];
  readonly otherWays: OtherWaysView;
  readonly table: {
    readonly gong: string;
    readonly strings: readonly { readonly number: number; readonly name: string; readonly pitch: string }[];
    readonly rows: readonly {
      readonly degree: string;
      readonly name: Said;
      readonly pitchClass: string;
      readonly core: boolean;
      readonly cells: readonly {
        readonly places: readonly { readonly position: Said; readonly used: boolean; readonly uses: number }[];
      }[];
    }[];
    readonly harmonics: readonly Said[];
  };
  readonly cost: {
    readonly rows: readonly {
      readonly title: Said;
      readonly href: string;
      readonly places: number;
      readonly blocked: string;
      readonly effort: string;
      readonly bar: string;
    }[];
    readonly blocked: number;
    readonly effort: string;
    readonly how: Said;
  };
  readonly checked: {
    readonly quiet: readonly { readonly title: Said; readonly looked: Said; readonly principle: Said }[];
    /** "21 rules reported nothing: 15 found nothing, 4 charged a little, 2 did not apply" */
    readonly quietLabel: Said;
    readonly crashed: readonly { readonly title: Said; readonly message: string }[];
  };
  readonly settings: {
    readonly rows: readonly { readonly name: Said; readonly value: Said }[];
    readonly assumptions: readonly Said[];
    readonly unread: readonly Said[];
  };
}

/** Builds the view. @param bare leaves out the bars of the findings */
export function viewCheck(
  report: Report,
  music: EngravedMusic,
  style: OwnMarkup,
  script: PageScript,
  bare = false,
): CheckView {
  const { marks, ...findings } = viewFindings(report, music, bare);
  return {
    style,
    head: viewHead(report.score, report.json, factsOf(report)),
    answer: viewAnswer(report, findings.counts),
    terms: termsOf(report.json.fingering.notes),
    score: viewScore(report, music, marks),
    listen: LISTEN_WORDS,
    script,
    better: viewBetter(report.json),
    ways: viewWays(report.json),
    taste: viewTaste(report.json),
    findings,
    pictures: viewPictures(report),
    practice: viewPractice(report, music),
    notes: viewNotes(report, marks),
    otherWays: viewOtherWays(report),
    table: viewTable(report),
    cost: viewCost(report, new Set(findings.groups.flatMap(({ entries }) => entries.map((entry) => entry.id)))),
    checked: viewChecked(report),
    settings: viewSettings(report),
  };
}

/** What is known of the score, in the order in which it is read. */
function factsOf({ json, score }: Report): readonly Said[] {
  const named = score.part.name === null || score.part.name === "" ? score.part.id : score.part.name;
  const { bars, notes, tempo, tempoAssumed } = json.score;
  return [
    json.score.file,
    phrase(`part ${named}`, `声部${named}`),
    ...(score.voice === null ? [] : [phrase(`voice ${score.voice}`, `线${score.voice}`)]),
    phrase(count(bars, "bar"), `${bars}小节`),
    phrase(count(notes, "note"), `${notes}个音`),
    phrase(
      `${number(tempo)} quarter notes a minute${tempoAssumed ? " (assumed)" : ""}`,
      `每分钟${number(tempo)}个四分音符${tempoAssumed ? "（假定）" : ""}`,
    ),
  ];
}

function viewAnswer(report: Report, counts: FindingsView["counts"]): CheckView["answer"] {
  const { json, tuning } = report;
  const { total, notes, source } = json.fingering;
  const effort = moves(total.effort);
  return {
    playable: json.verdict.playable,
    sentence: json.verdict.sentence,
    source: SOURCE_WORDS[source],
    figures: report.figures,
    wishes: wishSentences(report),
    counts,
    tuning: {
      title: tuning.title,
      characters: tuning.characters === "" ? "" : phrase(tuning.characters, tuning.simplified),
      change: phraseOf({
        en: (say) => say(tuning.change).replace(/^./, (letter) => letter.toUpperCase()),
        zh: (say) => say(tuning.change),
      }),
      note: tuning.note ?? "",
    },
    strings: json.setting.strings.map((pitch, i) => ({ number: i + 1, pitch })),
    transposition: report.transposition,
    effort: phrase(`${effort.en} over ${count(notes.length, "note")}`, `${effort.zh}（${notes.length}个音）`),
    perNote: (total.effort / Math.max(1, notes.length)).toFixed(2),
    reading: report.reading,
  };
}

const CONTACT = {
  tip: phrase("", ""),
  joint: phrase(" joint", "指节"),
  kneeling: phrase(", kneeling", "（跪）"),
} as const;
const ARRIVAL = {
  plucked: phrase("plucked", "弹"),
  slid: phrase("slid", "走音"),
  "pulled-off": phrase("pulled-off", "带起"),
  hammered: phrase("hammered", "罨"),
} as const;

function viewNotes(report: Report, marks: FindingsView["marks"]): CheckView["notes"] {
  const anchors = barAnchors(report.score);
  const barOf = new Map(report.score.notes.map((note) => [note.id, note.bar]));
  const { notes } = report.json.fingering;
  return notes.map((note, i) => {
    const bar = barOf.get(note.id) ?? 0;
    const before = notes[i - 1];
    const mark = marks.get(note.id);
    return {
      bar: note.bar,
      barHref: `#${anchors[bar]}`,
      startsBar: before === undefined || barOf.get(before.id) !== bar,
      beat: note.grace ? phrase("grace", "装饰") : note.beat,
      note: note.sounding,
      written: note.written === note.sounding ? "" : note.written,
      string: note.string === null ? "–" : String(note.string),
      place: placeOf(note),
      finger: note.finger === null ? "–" : joined([FINGER_WORD[note.finger], CONTACT[note.contact ?? "tip"]]),
      stroke: strokeName(note),
      planted: note.planted === null ? "–" : phrase(`on ${note.planted}`, stringInCharacters(note.planted)),
      spoken: spokenWords(note),
      effort: note.blocked > 0 ? phrase("left out", "略去") : number(note.effort),
      blocked: note.blocked > 0,
      mark:
        mark === undefined ? null : { href: mark.href, entry: mark.entry, severity: mark.severity, label: mark.label },
    };
  });
}

function strokeName({ stroke, arrival }: NoteJson): Said {
  if (stroke !== null) return phrase(stroke, strokeCharacter(stroke));
  return arrival === null ? "–" : ARRIVAL[arrival];
}

function placeOf({ sound, position, writtenPosition }: NoteJson): Said {
  const place = writtenPosition ?? position;
  switch (sound) {
    case "open":
      return phrase("open", "散");
    case "harmonic":
      return phrase(`harmonic ${place}`, `泛${place}`);
    case "stopped":
      return String(place);
    case null:
      return "–";
  }
}

function viewTable({ table, json }: Report): CheckView["table"] {
  return {
    gong: table.gong,
    strings: json.setting.strings.map((pitch, i) => ({ number: i + 1, name: stringInCharacters(i + 1), pitch })),
    rows: table.rows.map((row) => ({
      ...row,
      name: toneInWords(row.name),
      cells: row.cells.map(({ places }) => ({
        places: places.map(({ position, uses }) => ({
          position: placeName(position),
          used: uses > 0,
          uses,
        })),
      })),
    })),
    harmonics: table.harmonics.map(({ string, hui, pitch, uses }) =>
      phrase(
        `string ${string} at hui ${hui} (${pitch}), ${count(uses, "time")}`,
        `${stringInCharacters(string)}${placeInCharacters(hui)}（${pitch}），${uses}次`,
      ),
    ),
  };
}

function viewCost({ costByRule, json }: Report, entries: ReadonlySet<string>): CheckView["cost"] {
  const most = Math.max(...costByRule.map((row) => row.effort), 0);
  return {
    rows: costByRule.map((row) => ({
      title: row.title,
      href: entries.has(anchor("rule", row.rule)) ? `#${anchor("rule", row.rule)}` : "",
      places: row.places,
      blocked: row.blocked === 0 ? "" : String(row.blocked),
      effort: number(row.effort),
      bar: `width: ${most === 0 ? 0 : Math.round((100 * row.effort) / most)}%`,
    })),
    blocked: json.fingering.total.blocked,
    effort: number(json.fingering.total.effort),
    how: SUM_WORDS[json.fingering.source],
  };
}

function viewChecked({ json, rules, costByRule }: Report): CheckView["checked"] {
  const textOf = new Map(rules.map((rule) => [rule.id, rule]));
  const title = (rule: string): Said => textOf.get(rule)?.title ?? rule;
  const quiet = json.tallies.filter((tally) => tally.open + tally.accepted === 0 && tally.crashed === null);
  const charged = new Map(costByRule.map((cost) => [cost.rule, cost]));
  return {
    quiet: quiet.map((tally) => ({
      title: title(tally.rule),
      looked: lookedWords(tally, charged.get(tally.rule)),
      principle: textOf.get(tally.rule)?.principle ?? "",
    })),
    quietLabel: quietWords(quiet, new Set(charged.keys())),
    crashed: json.tallies.flatMap(({ rule, crashed }) =>
      crashed === null ? [] : [{ title: title(rule), message: crashed }],
    ),
  };
}

type Tally = Report["json"]["tallies"][number];

/** How the rules without findings divide: a small charge is not nothing. */
function quietWords(quiet: readonly Tally[], charged: ReadonlySet<string>): Phrase {
  const little = quiet.filter(({ rule }) => charged.has(rule)).length;
  const idle = quiet.filter((tally) => !charged.has(tally.rule) && tally.looked + tally.unsure === 0).length;
  const clean = quiet.length - little - idle;
  const parts = [
    ...(clean > 0 ? [phrase(`${clean} looked and found nothing`, `${clean}条查无问题`)] : []),
    ...(little > 0
      ? [phrase(`${little} charged a little, but nothing worth reporting`, `${little}条略有费力但不值得列出`)]
      : []),
    ...(idle > 0 ? [phrase(`${idle} did not apply`, `${idle}条不适用`)] : []),
  ];
  const all = joined(parts, phrase(", ", "，"));
  return phrase(
    `${count(quiet.length, "rule")} without a finding: ${all.en}`,
    `${quiet.length}条规则没有发现：${all.zh}`,
  );
}

function lookedWords({ looked, unsure }: Tally, charged: Report["costByRule"][number] | undefined): Phrase {
  if (looked === 0 && unsure === 0 && charged === undefined) return phrase("Did not apply anywhere.", "没有适用之处。");
  const doubt = unsure === 0 ? phrase("", "") : phrase(`, could not tell at ${unsure}`, `，其中${unsure}处无法判断`);
  const found = charged === undefined ? phrase(" and found nothing", "，没有发现") : littleWords(charged);
  return phrase(
    `Looked at ${count(looked, "place")}${doubt.en}${found.en}.`,
    `看了${looked}处${doubt.zh}${found.zh}。`,
  );
}

function littleWords({ places, effort }: Report["costByRule"][number]): Phrase {
  const sum = moves(effort);
  return phrase(
    `, charged a little at ${places} (${sum.en} together), but nothing worth reporting`,
    `，${places}处略有费力（共${sum.zh}），但不值得列出`,
  );
}

function viewSettings({ json, line, assumptions, tuning, transposition }: Report): CheckView["settings"] {
  const { setting } = json;
  const { tuning: name, transpose } = setting;
  const strings = setting.strings.join(" ");
  const chosen = chosenWords(setting);
  const cm = number(setting.scaleLengthCm);
  return {
    rows: [
      {
        name: phrase("Tuning", "定弦"),
        value: phrase(
          `${tuning.title} (${name}), ${strings}`,
          `${tuning.simplified === "" ? "" : `${tuning.simplified}，`}${strings}`,
        ),
      },
      {
        name: phrase("Transposition", "移调"),
        value: phraseOf({
          en: (say) => `${say(transposition)} (${transpose} semitones)${say(chosen)}`,
          zh: (say) => `${say(transposition)}（${transpose}个半音）${say(chosen)}`,
        }),
      },
      { name: phrase("Temperament", "律制"), value: temperamentName(setting.temperament) },
      { name: phrase("Hand", "手型"), value: phrase(setting.hand, handName(setting.hand)) },
      { name: phrase("Vibrating length of the strings", "有效弦长"), value: phrase(`${cm} cm`, `${cm}厘米`) },
    ],
    assumptions: [...line, ...assumptions],
    unread: json.unread.map(({ bar, what }) =>
      bar === null
        ? what
        : phraseOf({ en: (say) => `Bar ${bar}: ${say(what)}`, zh: (say) => `第${bar}小节：${say(what)}` }),
    ),
  };
}
