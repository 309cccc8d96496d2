// SPDX-License-Identifier: AGPL-3.0-or-later
// The view of `huipath compare`: the comparison as the templates print it. Plain data, every key there.

import type { ChangeJson, DifferenceJson } from "../src/report/change-json.js";
import type { CompareJson, Comparison } from "../src/report/compare.js";
import { handName, shiftInChinese, tuningInCharacters } from "../src/report/wording.js";
import { isSame, type Phrase, phrase, type Said } from "../src/words.js";
import { anchor } from "./anchors.js";
import { amountWords, costWords, differenceWords, sideWords, signed } from "./compare-words.js";
import { type HeadView, scoreFacts, viewHead } from "./head.js";
import type { OwnMarkup } from "./template.js";
import { count, spokenWords } from "./words.js";

interface ChangeView {
  readonly href: string;
  readonly place: Said;
  readonly words: Said;
  readonly decides: boolean;
  /** it is called so; where what decides is spread over the melody it is not */
  readonly tagged: boolean;
}

interface NoteSideView {
  readonly spoken: Said;
  readonly effort: Said;
}

/** All that the page prints. */
export interface CompareView {
  readonly style: OwnMarkup;
  readonly head: HeadView;
  readonly answer: {
    readonly sentence: Said;
    /** empty where both cost the same */
    readonly deciding: Said;
    readonly sides: readonly {
      readonly letter: string;
      readonly what: Said;
      readonly total: Said;
      readonly setting: Said;
    }[];
  };
  readonly changes: {
    readonly lead: Said;
    readonly shown: readonly ChangeView[];
    readonly folded: readonly ChangeView[];
    readonly foldedLabel: Said;
  };
  readonly notes: readonly {
    readonly id: string;
    readonly bar: string;
    readonly startsBar: boolean;
    readonly beat: string;
    readonly note: string;
    readonly a: NoteSideView;
    readonly b: NoteSideView;
    readonly same: boolean;
    readonly difference: Said;
  }[];
  readonly rules: {
    readonly rows: readonly {
      readonly title: Said;
      readonly a: Said;
      readonly b: Said;
      readonly difference: Said;
      readonly way: "less" | "more";
      readonly bar: string;
    }[];
    readonly a: Said;
    readonly b: Said;
    readonly difference: Said;
  };
  readonly settings: readonly {
    readonly name: Said;
    readonly a: Said;
    readonly b: Said;
    readonly apart: boolean;
  }[];
}

/** Builds the view. */
export function viewCompare(comparison: Comparison, style: OwnMarkup): CompareView {
  const { json, score } = comparison;
  return {
    style,
    head: viewHead(score, json, scoreFacts(json.score)),
    answer: {
      sentence: comparison.sentence,
      deciding: json.deciding?.sentence ?? "",
      sides: (["a", "b"] as const).map((side) => ({
        letter: side.toUpperCase(),
        what: sideWords(json, side),
        total: costWords(json[side].total),
        setting: settingWords(json, side),
      })),
    },
    changes: viewChanges(comparison),
    notes: viewNotes(comparison),
    rules: viewRules(comparison),
    settings: comparison.settings.map((row) => ({ ...row, apart: !isSame(row.a, row.b) })),
  };
}

function settingWords(json: CompareJson, side: "a" | "b"): Phrase {
  const { tuning, transpose, hand } = json[side].setting;
  const moved = transpose === 0 ? "as written" : `${signed(transpose)} semitones`;
  return phrase(
    `${tuning}, ${moved}, hand ${hand}`,
    `${tuningInCharacters(tuning)}，${shiftInChinese(transpose)}，手型：${handName(hand)}`,
  );
}

/** Changes that stand open, the largest ones; the others unfold. Both in order of the melody. */
const OPEN_CHANGES = 8;

function viewChanges(comparison: Comparison): CompareView["changes"] {
  const { changes } = comparison.json;
  const size = ({ difference: { blocked, effort } }: ChangeJson): number => Math.abs(blocked) * 1e6 + Math.abs(effort);
  const open = new Set([...changes].sort((x, y) => size(y) - size(x)).slice(0, OPEN_CHANGES));
  const view = (change: ChangeJson): ChangeView => viewChange(change, comparison);
  const folded = changes.filter((change) => !open.has(change));
  return {
    lead: leadWords(changes.length),
    shown: changes.filter((change) => open.has(change)).map(view),
    folded: folded.map(view),
    foldedLabel: phrase(count(folded.length, "smaller one"), `另有${folded.length}处较小的`),
  };
}

function leadWords(places: number): Phrase {
  if (places === 0)
    return phrase("Nowhere: every note is played and charged the same way.", "没有不同：每个音的弹法和费力都一样。");
  const reach = `${places === 1 ? "" : "each "}from the first note that is played another way to the last; what follows from it may fall on the notes after`;
  return phrase(
    `${count(places, "place")}, ${reach}. What B saves and costs there is counted against A.`,
    `共${places}处，${places === 1 ? "" : "每处"}从第一个弹法不同的音到最后一个；由此引起的费力可能落在其后的音上。所记的是B在那里比A省多少、费多少。`,
  );
}

function viewChange(change: ChangeJson, { json, spread }: Comparison): ChangeView {
  const { place, rest } = change;
  const first = json.notes.find(({ id }) => [...change.notes, ...changedNotes(change)].includes(id));
  return {
    href: first === undefined ? "#notes" : `#${anchor("note", first.id)}`,
    place,
    words: rest,
    decides: isDeciding(change, json),
    tagged: !spread && isDeciding(change, json),
  };
}

const changedNotes = ({ saves, costs }: ChangeJson): readonly string[] =>
  [...saves, ...costs].flatMap(({ notes }) => notes);

/** Some note of it that differs lies in the passage that decides. */
function isDeciding(change: ChangeJson, { deciding, notes }: CompareJson): boolean {
  if (deciding === null) return false;
  const from = notes.findIndex(({ bar }) => bar === deciding.fromBar);
  const to = notes.findLastIndex(({ bar }) => bar === deciding.toBar);
  const own = new Set([...change.notes, ...changedNotes(change)]);
  return notes.slice(from, to + 1).some(({ id }) => own.has(id));
}

function viewNotes({ json, pitches }: Comparison): CompareView["notes"] {
  const side = ({ spoken, ...cost }: CompareJson["notes"][number]["a"]): NoteSideView => ({
    spoken: spokenWords({ spoken }),
    effort: amountWords(cost),
  });
  return json.notes.map((note, i) => ({
    id: anchor("note", note.id),
    bar: note.bar,
    startsBar: json.notes[i - 1]?.bar !== note.bar,
    beat: note.beat,
    note: pitches[i] ?? "",
    a: side(note.a),
    b: side(note.b),
    same: note.a.spoken === note.b.spoken,
    difference: differenceWords(note.difference),
  }));
}

function viewRules({ json, titles }: Comparison): CompareView["rules"] {
  const most = Math.max(...json.rules.map(({ difference }) => Math.abs(difference.effort)), 0);
  const share = ({ effort }: DifferenceJson): number => (most === 0 ? 0 : Math.round((100 * Math.abs(effort)) / most));
  return {
    rows: json.rules.map(({ rule, a, b, difference }) => ({
      title: titles.get(rule) ?? rule,
      a: amountWords(a),
      b: amountWords(b),
      difference: differenceWords(difference),
      way: difference.effort < 0 ? "less" : "more",
      bar: difference.effort === 0 ? "border: 0" : `width: ${share(difference)}%`,
    })),
    a: amountWords(json.a.total),
    b: amountWords(json.b.total),
    difference: differenceWords(json.difference),
  };
}
