// SPDX-License-Identifier: AGPL-3.0-or-later
// What a fact of the handbook rests on. Every fact that is not computed says so beside itself.

/** What a fact rests on, with the source where there is one. */
export interface Grounds {
  readonly evidence: "published" | "common practice" | "from memory" | "computed" | "our judgement";
  /** null where there is none to name */
  readonly source: string | null;
}

/** A published fact. */
export const published = (source: string): Grounds => ({ evidence: "published", source });
/** What players do, without a source that says so. */
export const PRACTICE: Grounds = { evidence: "common practice", source: null };
/** Remembered from handbooks that were not at hand. */
export const MEMORY: Grounds = { evidence: "from memory", source: null };
/** A default of this project. */
export const JUDGEMENT: Grounds = { evidence: "our judgement", source: null };

/** "published: Yuguzhai qinpu (1855), v44" */
export function groundsWords({ evidence, source }: Grounds): string {
  return source === null ? evidence : `${evidence}: ${source}`;
}
