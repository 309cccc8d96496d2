// SPDX-License-Identifier: AGPL-3.0-or-later
// The view of `huipath fit`: the ranked settings as the templates print them. Plain data, every key there.

import type { Fit, FitEntry } from "../src/report/fit.js";
import { handName, temperamentName, tempoWords } from "../src/report/wording.js";
import { joined, phrase, type Said } from "../src/words.js";
import { type PictureView, pictureOf, type Span, spanOf } from "./fit-picture.js";
import { type Again, checkWords, commandWords, totalWords } from "./fit-words.js";
import { type HeadView, scoreFacts, viewHead } from "./head.js";
import type { OwnMarkup } from "./template.js";

/** One setting as an entry of the page. */
interface EntryView {
  readonly id: string;
  /** "1"; empty where the rank is not known */
  readonly rank: string;
  readonly title: Said;
  /** traditional characters, for pages in English; empty for strings typed by hand */
  readonly characters: string;
  readonly transposition: Said;
  readonly key: Said;
  readonly total: Said;
  readonly perNote: string;
  readonly blocked: boolean;
  readonly reasons: readonly Said[];
  readonly command: readonly string[];
  readonly octaves: boolean;
  readonly picture: PictureView;
}

/** One setting as a row of the overview. */
interface RowView {
  readonly href: string;
  readonly rank: string;
  readonly title: Said;
  readonly transposition: Said;
  readonly key: Said;
  /** empty where every setting shown can be played */
  readonly blocked: string;
  readonly effort: string;
  readonly perNote: string;
  readonly open: number;
  readonly hui: number;
  readonly off: number;
  readonly bar: string;
}

/** All that the page prints. */
export interface FitView {
  readonly style: OwnMarkup;
  readonly head: HeadView;
  readonly answer: {
    readonly sentence: Said;
    /** empty where there is nothing to compare it with */
    readonly beside: Said;
    readonly cautions: readonly Said[];
    /** null where no setting could be compared */
    readonly best: {
      readonly command: readonly string[];
      readonly octaves: boolean;
      readonly strings: readonly { readonly number: number; readonly pitch: string; readonly retuned: boolean }[];
      readonly tuning: Said;
      readonly note: Said;
      /** empty where nothing is to be checked */
      readonly checks: Said;
    } | null;
  };
  readonly rows: readonly RowView[];
  readonly anyBlocked: boolean;
  readonly entries: readonly EntryView[];
  readonly written: EntryView;
  readonly settings: {
    readonly rows: readonly { readonly name: Said; readonly value: Said }[];
    readonly how: readonly Said[];
  };
}

/** Builds the view. */
export function viewFit(fit: Fit, again: Again, style: OwnMarkup): FitView {
  const { json, score, entries, written } = fit;
  const all = [...entries, written];
  const span = spanOf(all);
  return {
    style,
    head: viewHead(score, json, scoreFacts(json.score)),
    answer: { sentence: fit.sentence, beside: fit.beside, cautions: fit.cautions, best: viewBest(fit, again) },
    rows: viewRows(entries),
    anyBlocked: entries.some((entry) => entry.json.total.blocked > 0),
    entries: entries.map((entry, i) => viewEntry(entry, `setting-${i + 1}`, again, span)),
    written: viewEntry(written, "setting-of-the-call", again, span),
    settings: {
      rows: [
        { name: phrase("Hand", "手型"), value: phrase(json.hand, handName(json.hand)) },
        { name: phrase("Temperament", "律制"), value: temperamentName(json.temperament) },
        { name: phrase("Tempo", "速度"), value: tempoWords(json.score.tempo, json.score.tempoAssumed) },
      ],
      how: fit.how,
    },
  };
}

function viewBest({ entries, checks }: Fit, again: Again): FitView["answer"]["best"] {
  const [first] = entries;
  if (first === undefined) return null;
  const retuned = new Set(first.json.retune.map(({ string }) => string));
  return {
    command: commandWords(first, again),
    octaves: first.json.octaveMoves.length > 0,
    strings: first.json.strings.map((pitch, i) => ({ number: i + 1, pitch, retuned: retuned.has(i + 1) })),
    tuning:
      first.json.retune.length === 0
        ? phrase("The standard tuning", "正调")
        : joined([phrase("From the standard tuning: ", "由正调改弦："), first.tuning.change]),
    note: first.tuning.note ?? "",
    checks: checks.length === 0 ? "" : joined(checks.map(checkWords), phrase("; ", "；")),
  };
}

function viewRows(entries: readonly FitEntry[]): FitView["rows"] {
  const most = Math.max(...entries.map(({ json }) => json.total.effort), 0);
  const blocked = entries.some(({ json }) => json.total.blocked > 0);
  return entries.map(({ json, tuning, transposition }, i) => ({
    href: `#setting-${i + 1}`,
    rank: String(json.rank ?? ""),
    title: titleOf(json.tuning, tuning),
    transposition: joined([
      transposition,
      json.octaveMoves.length > 0 ? phrase(", phrases moved", "，部分乐句移位") : "",
    ]),
    key: json.key,
    blocked: blocked ? String(json.total.blocked) : "",
    effort: json.total.effort.toFixed(2),
    perNote: json.effortPerNote.toFixed(2),
    open: json.openNotes,
    hui: json.notesOnHui,
    off: json.offPattern,
    bar: `width: ${most === 0 ? 0 : Math.round((100 * json.total.effort) / most)}%`,
  }));
}

/** A tuning typed by hand is named by its strings. */
const titleOf = (name: string, { title, simplified }: FitEntry["tuning"]): Said =>
  name.includes(" ") ? name : phrase(title, simplified);

function viewEntry(entry: FitEntry, id: string, again: Again, span: Span): EntryView {
  const { json, tuning, transposition } = entry;
  return {
    id,
    rank: json.rank === null ? "" : String(json.rank),
    title: titleOf(json.tuning, tuning),
    characters: tuning.characters,
    transposition,
    key: json.key,
    total: totalWords(entry),
    perNote: json.effortPerNote.toFixed(2),
    blocked: json.total.blocked > 0,
    reasons: json.reasons,
    command: commandWords(entry, again),
    octaves: json.octaveMoves.length > 0,
    picture: pictureOf(entry, `${id}-picture`, span),
  };
}
