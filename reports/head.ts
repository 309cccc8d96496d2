// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Score } from "../src/model/score.js";
import type { CheckJson } from "../src/report.js";
import { phrase, type Said } from "../src/words.js";
import { count } from "./words.js";

/** The top of a page: what it is about, and what made it. */
export interface HeadView {
  readonly title: Said;
  readonly creator: string;
  readonly facts: readonly Said[];
  readonly tool: string;
}

/** The head of a page about a score. @param facts what is known of it, in the order in which it is read */
export function viewHead(
  { title, creator, file }: Pick<Score, "title" | "creator" | "file">,
  { tool }: { readonly tool: { readonly name: string; readonly version: string } },
  facts: readonly Said[],
): HeadView {
  return {
    title: title === null || title.trim() === "" ? file : title,
    creator: creator ?? "",
    facts,
    tool: `${tool.name} ${tool.version}`,
  };
}

/** What is known of a score, in the order in which it is read. */
export function scoreFacts({ part, bars, notes }: CheckJson["score"]): readonly Said[] {
  return [
    phrase(`part ${part}`, `声部${part}`),
    phrase(count(bars, "bar"), `${bars}小节`),
    phrase(count(notes, "note"), `${notes}个音`),
  ];
}
