// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Score } from "../src/model/score.js";
import type { Said } from "../src/words.js";

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
