// SPDX-License-Identifier: AGPL-3.0-or-later
// What a fact of the handbook rests on. Every fact that is not computed says so beside itself.
import { type Phrase, phrase, phraseOf, type Said } from "../../src/words.js";

/** What a fact rests on, with the source where there is one. */
export interface Grounds {
  readonly evidence: "published" | "common practice" | "from memory" | "computed" | "our judgement";
  /** null where there is none to name */
  readonly source: Said | null;
}

/** What facts and the numbers of rules rest on, in words. */
export const EVIDENCE_WORDS: Readonly<Record<Grounds["evidence"], Phrase>> = {
  published: phrase("published", "有出处"),
  "common practice": phrase("common practice", "通行做法"),
  "from memory": phrase("from memory", "凭记忆"),
  computed: phrase("computed", "推算"),
  "our judgement": phrase("our judgement", "我们的判断"),
};

/** A published fact. @param en its source, and the same in Chinese */
export const published = (en: string, zh: string): Grounds => ({ evidence: "published", source: phrase(en, zh) });
/** What players do, without a source that says so. */
export const PRACTICE: Grounds = { evidence: "common practice", source: null };
/** Remembered from handbooks that were not at hand. */
export const MEMORY: Grounds = { evidence: "from memory", source: null };
/** A default of this project. */
export const JUDGEMENT: Grounds = { evidence: "our judgement", source: null };

/** "published: Yuguzhai qinpu (1855), v44" */
export function groundsWords({ evidence, source }: Pick<Grounds, "evidence" | "source">): Phrase {
  const word = EVIDENCE_WORDS[evidence];
  if (source === null) return word;
  return phraseOf({ en: (say) => `${say(word)}: ${say(source)}`, zh: (say) => `${say(word)}：${say(source)}` });
}
