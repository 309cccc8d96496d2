// SPDX-License-Identifier: AGPL-3.0-or-later
// Places along the strings in words: hui and tenths, as players and the tablature write them.
import { numberOf, numberWords } from "./vocabulary.js";

/** A stop lies above the nut, which counts as 14. */
const HIGHEST_POSITION = 13.9;
/** Wai: outside hui 13, a whole tone above the open string. */
const WAI = 13.1;

const DIGIT = `(?:${numberWords(1, 9)})`;
const HUI = `(?:(?:ten|shi) (?:${numberWords(1, 3)})|${numberWords(1, 10)})`;
/** 7.6, 七六, 七徽六分, 八半, 外; 十二 is hui 12, 十八 is 10.8, since there is no hui 18. */
export const POSITION = [
  String.raw`\d{1,2}(?:\.\d{1,2})?`,
  "(?:hui )?(?:wai|bu)",
  String.raw`(?:${HUI}|\d{1,2}) hui(?: (?:${DIGIT}|[1-9])(?: fen)?| half| ban)?`,
  String.raw`(?:${HUI}|\d{1,2}) (?:half|ban)`,
  `${HUI}(?: ${DIGIT}(?: fen)?)?`,
].join("|");

/** Hui and tenths of the words for a place; null where there is none such. */
export function positionOf(text: string): number | null {
  const words = text.split(" ").filter((word) => word !== "fen");
  if (words.at(-1) === "wai" || words.at(-1) === "bu") return WAI;
  const marker = words.indexOf("hui");
  const [first = 0, second = 0, third = 0] = words.filter((word) => word !== "hui").map(partOf);
  const teens = first === 10 && marker !== 1 && second >= 1 && second <= 3;
  const [hui, tenths] = teens ? [10 + second, third] : [first, second];
  const position = Math.round((hui + (tenths === HALF ? HALF : tenths / 10)) * 100) / 100;
  return position >= 1 && position <= HIGHEST_POSITION ? position : null;
}

const HALF = 0.5;
const partOf = (word: string): number => (word === "half" || word === "ban" ? HALF : numberOf(word));
