// SPDX-License-Identifier: AGPL-3.0-or-later
// The listen bar of a page, and what its script needs.
import type { SoundLine } from "../src/sound/line.js";
import { type PackedLine, packLine } from "../src/sound/pack.js";
import { type InLanguage, inLanguage, type Language } from "../src/words.js";
import { SPOKEN_WORDS } from "./listen-words.js";

/** What the script says, in the language of the page. */
export type SpokenWords = Readonly<Record<keyof typeof SPOKEN_WORDS, string>>;

/** What the page hands to the script. */
export interface ListenData {
  readonly words: SpokenWords;
  readonly line: PackedLine;
}

/** The data of the listen bar. */
export function listenData(line: SoundLine, language: Language): ListenData {
  const words: InLanguage<typeof SPOKEN_WORDS> = inLanguage(SPOKEN_WORDS, language);
  return { words, line: packLine(line) };
}
