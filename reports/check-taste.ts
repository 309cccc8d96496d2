// SPDX-License-Identifier: AGPL-3.0-or-later
// A matter of taste: for whom the written fingering is the best, and which choices hang on the weight of one rule.
import type { BetterJson, CheckJson } from "../src/report.js";
import type { Said } from "../src/words.js";
import { anchor } from "./anchors.js";
import { count } from "./words.js";

/** Notes that are played another way, with links. */
interface ChangeView {
  readonly where: string;
  readonly href: string;
  readonly from: string;
  readonly to: string;
}

/** What the page prints about taste. */
export interface TasteView {
  readonly shown: boolean;
  readonly written: Said;
  /** the way that is better under some rules and worse under none */
  readonly dominated: readonly ChangeView[];
  readonly robust: Said;
  readonly flips: readonly { readonly title: Said; readonly changes: readonly ChangeView[] }[];
}

/** Builds the view; nothing is shown where it was not asked for. */
export function viewTaste(json: CheckJson): TasteView {
  const { taste } = json.fingering;
  if (taste === null) return { shown: false, written: "", dominated: [], robust: "", flips: [] };
  return {
    shown: true,
    written: taste.written?.sentence ?? "",
    dominated: changeViews(taste.written?.dominated?.changes ?? []),
    robust: robustSentence(json),
    flips: taste.flips?.map(({ sentence, changes }) => ({ title: sentence, changes: changeViews(changes) })) ?? [],
  };
}

/** What taste comes to, for the terminal; nothing where it was not asked for. */
export function tasteSentences(json: CheckJson): readonly Said[] {
  return [json.fingering.taste?.written?.sentence ?? "", robustSentence(json)].filter((one) => one !== "");
}

/** How many notes hang on no weight; empty where nothing was left open. */
function robustSentence(json: CheckJson): string {
  const { notes, taste } = json.fingering;
  const robust = taste?.robust ?? null;
  if (robust === null) return "";
  const stay = robust === notes.length ? "every note stays" : `${robust} of ${count(notes.length, "note")} stay`;
  const rest = robust === notes.length ? "" : "; the others are a matter of taste";
  return `When one rule weighs a fifth less or more, ${stay} as ${robust === notes.length ? "it is" : "they are"}${rest}.`;
}

function changeViews(changes: BetterJson["changes"]): readonly ChangeView[] {
  return changes.map(({ note, bar, beat, from, to }) => ({
    where: `Bar ${bar}, beat ${beat}:`,
    href: `#${anchor("note", note)}`,
    from: from || "nothing",
    to: to || "nothing",
  }));
}
