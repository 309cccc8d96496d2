// SPDX-License-Identifier: AGPL-3.0-or-later
// Characters of the trade in their traditional forms, as old handbooks print them, and in the simplified ones of today.
import { phrase, type Said } from "../src/words.js";

/** Traditional characters and their simplified forms, where the two differ. 徵, the tone, stays as it is. */
const PAIRS =
  "綽绰 節节 帶带 喚唤 圓圆 摟搂 疊叠 輪轮 鎖锁 長长 歷历 滾滚 鈴铃 雙双 彈弹 撥拨 進进 復复 來来 開开 虛虚 應应 聲声 " +
  "宮宫 調调 賓宾 則则 淒凄 涼凉 黃黄 鐘钟 側侧 無无 呂吕 緊紧 夾夹";

const SIMPLIFIED: ReadonlyMap<string, string> = new Map(
  PAIRS.split(" ").map((pair) => [...pair] as unknown as readonly [string, string]),
);

/** Traditional characters in simplified ones. @example simplified("帶起") // "带起" */
export function simplified(characters: string): string {
  const plain = [...characters].map((character) => SIMPLIFIED.get(character) ?? character).join("");
  return plain.replace(/ \((.+)\)$/u, "（$1）");
}

/** Traditional characters in English texts, simplified ones in Chinese. */
export function bothForms(characters: string): Said {
  return phrase(characters, simplified(characters));
}
