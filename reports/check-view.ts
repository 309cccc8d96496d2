// SPDX-License-Identifier: AGPL-3.0-or-later
// The view of `huipath check`: the report value as the templates print it. Plain data, every key there, no markup but own.

import type { EngravedMusic } from "../src/engrave/music.js";
import type { NoteJson, Report } from "../src/report.js";
import type { Said } from "../src/words.js";
import { anchor, barAnchors } from "./anchors.js";
import { type BetterView, viewBetter } from "./check-better.js";
import { type FindingsView, viewFindings } from "./check-findings.js";
import { type ScoreView, viewScore } from "./check-score.js";
import { type TasteView, viewTaste } from "./check-taste.js";
import { viewWays, type WaysView } from "./check-ways.js";
import { type HeadView, viewHead } from "./head.js";
import { LISTEN_WORDS } from "./listen-words.js";
import type { PageScript } from "./page-script.js";
import type { OwnMarkup } from "./template.js";
import { type TermsView, termsOf } from "./terms.js";
import { wishSentences } from "./wish-words.js";
import { chosenWords, count, moves, number, SOURCE_WORDS, SUM_WORDS } from "./words.js";

interface NoteView {
  readonly bar: string;
  readonly barHref: string;
  readonly startsBar: boolean;
  readonly beat: string;
  readonly note: string;
  readonly written: Said;
  readonly string: string;
  readonly place: Said;
  readonly finger: string;
  readonly stroke: string;
  readonly planted: string;
  readonly spoken: string;
  readonly effort: string;
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
    readonly source: string;
    readonly figures: Report["figures"];
    /** what was wanted beside the least effort, and its price */
    readonly wishes: readonly string[];
    readonly counts: FindingsView["counts"];
    readonly tuning: {
      readonly title: Said;
      readonly characters: string;
      readonly change: Said;
      readonly note: Said;
    };
    readonly strings: readonly { readonly number: number; readonly pitch: string }[];
    readonly transposition: Said;
    readonly effort: string;
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
  readonly notes: readonly NoteView[];
  readonly table: {
    readonly gong: string;
    readonly strings: readonly { readonly number: number; readonly pitch: string }[];
    readonly rows: readonly {
      readonly degree: string;
      readonly name: string;
      readonly pitchClass: string;
      readonly core: boolean;
      readonly cells: readonly {
        readonly places: readonly { readonly position: string; readonly used: boolean; readonly uses: number }[];
      }[];
    }[];
    readonly harmonics: readonly string[];
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
    readonly quietLabel: string;
    readonly crashed: readonly { readonly title: Said; readonly message: string }[];
  };
  readonly settings: {
    readonly rows: readonly { readonly name: string; readonly value: string }[];
    readonly assumptions: readonly Said[];
    readonly unread: readonly Said[];
  };
}

/** Builds the view. */
export function viewCheck(report: Report, music: EngravedMusic, style: OwnMarkup, script: PageScript): CheckView {
  const { marks, ...findings } = viewFindings(report);
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
    notes: viewNotes(report, marks),
    table: viewTable(report),
    cost: viewCost(report, new Set(findings.groups.flatMap(({ entries }) => entries.map((entry) => entry.id)))),
    checked: viewChecked(report),
    settings: viewSettings(report),
  };
}

/** What is known of the score, in the order in which it is read. */
function factsOf({ json, score }: Report): readonly string[] {
  const named = score.part.name === null || score.part.name === "" ? score.part.id : score.part.name;
  return [
    json.score.file,
    `part ${named}`,
    ...(score.voice === null ? [] : [`voice ${score.voice}`]),
    count(json.score.bars, "bar"),
    count(json.score.notes, "note"),
    `${number(json.score.tempo)} quarter notes a minute${json.score.tempoAssumed ? " (assumed)" : ""}`,
  ];
}

function viewAnswer(report: Report, counts: FindingsView["counts"]): CheckView["answer"] {
  const { json, tuning } = report;
  const { total, notes, source } = json.fingering;
  return {
    playable: json.verdict.playable,
    sentence: json.verdict.sentence,
    source: SOURCE_WORDS[source],
    figures: report.figures,
    wishes: wishSentences(report),
    counts,
    tuning: {
      title: tuning.title,
      characters: tuning.characters,
      change: String(tuning.change).replace(/^./, (letter) => letter.toUpperCase()),
      note: tuning.note ?? "",
    },
    strings: json.setting.strings.map((pitch, i) => ({ number: i + 1, pitch })),
    transposition: report.transposition,
    effort: `${moves(total.effort)} over ${count(notes.length, "note")}`,
    perNote: (total.effort / Math.max(1, notes.length)).toFixed(2),
    reading: report.reading,
  };
}

const FINGER_CONTACT = { tip: "", joint: " joint", kneeling: ", kneeling" } as const;

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
      beat: note.grace ? "grace" : note.beat,
      note: note.sounding,
      written: note.written === note.sounding ? "" : note.written,
      string: note.string === null ? "–" : String(note.string),
      place: placeWords(note),
      finger: note.finger === null ? "–" : note.finger + FINGER_CONTACT[note.contact ?? "tip"],
      stroke: note.stroke ?? note.arrival ?? "–",
      planted: note.planted === null ? "–" : `on ${note.planted}`,
      spoken: note.spoken ?? "no place",
      effort: note.blocked > 0 ? "left out" : number(note.effort),
      blocked: note.blocked > 0,
      mark:
        mark === undefined ? null : { href: mark.href, entry: mark.entry, severity: mark.severity, label: mark.label },
    };
  });
}

function placeWords({ sound, position, writtenPosition }: NoteJson): string {
  const place = writtenPosition ?? position;
  switch (sound) {
    case "open":
      return "open";
    case "harmonic":
      return `harmonic ${place}`;
    case "stopped":
      return String(place);
    case null:
      return "–";
  }
}

const OPEN_PLACE = 14;

function viewTable({ table, json }: Report): CheckView["table"] {
  return {
    gong: table.gong,
    strings: json.setting.strings.map((pitch, i) => ({ number: i + 1, pitch })),
    rows: table.rows.map((row) => ({
      ...row,
      cells: row.cells.map(({ places }) => ({
        places: places.map(({ position, uses }) => ({
          position: position === OPEN_PLACE ? "open" : String(position),
          used: uses > 0,
          uses,
        })),
      })),
    })),
    harmonics: table.harmonics.map(
      ({ string, hui, pitch, uses }) => `string ${string} at hui ${hui} (${pitch}), ${count(uses, "time")}`,
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
function quietWords(quiet: readonly Tally[], charged: ReadonlySet<string>): string {
  const little = quiet.filter(({ rule }) => charged.has(rule)).length;
  const idle = quiet.filter((tally) => !charged.has(tally.rule) && tally.looked + tally.unsure === 0).length;
  const clean = quiet.length - little - idle;
  const parts = [
    ...(clean > 0 ? [`${clean} looked and found nothing`] : []),
    ...(little > 0 ? [`${little} charged a little, but nothing worth reporting`] : []),
    ...(idle > 0 ? [`${idle} did not apply`] : []),
  ];
  return `${count(quiet.length, "rule")} without a finding: ${parts.join(", ")}`;
}

function lookedWords({ looked, unsure }: Tally, charged: Report["costByRule"][number] | undefined): string {
  if (looked === 0 && unsure === 0 && charged === undefined) return "Did not apply anywhere.";
  const doubt = unsure === 0 ? "" : `, could not tell at ${unsure}`;
  const found =
    charged === undefined
      ? " and found nothing"
      : `, charged a little at ${charged.places} (${moves(charged.effort)} together), but nothing worth reporting`;
  return `Looked at ${count(looked, "place")}${doubt}${found}.`;
}

function viewSettings({ json, line, assumptions, tuning, transposition }: Report): CheckView["settings"] {
  const { setting } = json;
  return {
    rows: [
      { name: "Tuning", value: `${tuning.title} (${setting.tuning}), ${setting.strings.join(" ")}` },
      { name: "Transposition", value: `${transposition} (${setting.transpose} semitones)${chosenWords(setting)}` },
      { name: "Temperament", value: setting.temperament },
      { name: "Hand", value: setting.hand },
      { name: "Vibrating length of the strings", value: `${number(setting.scaleLengthCm)} cm` },
    ],
    assumptions: [...line, ...assumptions],
    unread: json.unread.map(({ bar, what }) => (bar === null ? what : `Bar ${bar}: ${what}`)),
  };
}
