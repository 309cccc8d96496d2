// SPDX-License-Identifier: AGPL-3.0-or-later
// A matter of taste: for whom the written fingering is the best, and which choices hang on the weight of one rule.
import type { BetterJson, CheckJson } from "../src/report.js";
import { joined, phrase, type Said } from "../src/words.js";
import { anchor } from "./anchors.js";
import { COLON, changedWords, count, placeWords } from "./words.js";

/** Notes that are played another way, with links. */
interface ChangeView {
  readonly where: Said;
  readonly href: string;
  readonly from: Said;
  readonly to: Said;
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
function robustSentence(json: CheckJson): Said {
  const { notes, taste } = json.fingering;
  const robust = taste?.robust ?? null;
  if (robust === null) return "";
  const all = notes.length;
  return robust === all
    ? phrase(
        "When one rule weighs a fifth less or more, every note stays as it is.",
        "任何一条规则轻重改变五分之一，每个音都保持不变。",
      )
    : phrase(
        `When one rule weighs a fifth less or more, ${robust} of ${count(all, "note")} stay as they are; the others are a matter of taste.`,
        `任何一条规则轻重改变五分之一，${all}个音中有${robust}个保持不变；其余属于取舍。`,
      );
}

function changeViews(changes: BetterJson["changes"]): readonly ChangeView[] {
  return changes.map(({ note, bar, beat, from, to }) => ({
    where: joined([placeWords(bar, beat), COLON]),
    href: `#${anchor("note", note)}`,
    from: changedWords(from),
    to: changedWords(to),
  }));
}
