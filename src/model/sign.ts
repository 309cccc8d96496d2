// SPDX-License-Identifier: AGPL-3.0-or-later
// One sign of the tablature as a thing to practise: a stroke of the right hand, or what the left hand does.
import { InputProblem } from "../problem.js";
import { type Phrase, phrase } from "../words.js";
import { STROKES, type Stroke } from "./fingering.js";
import { didYouMean } from "./nearest.js";

/** Signs of the left hand: how a string sounds, what stops it, how a sound comes without a stroke. */
export const LEFT_SIGNS = [
  "open",
  "harmonic",
  "thumb",
  "index",
  "middle",
  "ring",
  "joint",
  "kneeling",
  "shang",
  "xia",
  "pull-off",
  "yan",
] as const;
/** One of {@link LEFT_SIGNS}. */
export type LeftSign = (typeof LEFT_SIGNS)[number];

/** A stroke or a left-hand sign. */
export type Sign = Stroke | LeftSign;

/** All signs, strokes first. */
export const SIGNS: readonly Sign[] = [...STROKES, ...LEFT_SIGNS];

const CHARACTERS: Readonly<Record<Sign, string>> = {
  ...{ bo: "擘", tuo: "托", mo: "抹", tiao: "挑", gou: "勾", ti: "剔", da: "打", zhai: "摘" },
  ...{ open: "散", harmonic: "泛", thumb: "大", index: "食", middle: "中", ring: "名" },
  ...{ joint: "指节", kneeling: "跪", shang: "上", xia: "下", "pull-off": "带起", yan: "罨" },
};

/** Other names that a sign goes by: pinyin of one meaning, characters in both forms. */
const ALSO: Readonly<Record<string, Sign>> = {
  ...{
    pi: "bo",
    劈: "bo",
    鉤: "gou",
    钩: "gou",
    san: "open",
    fan: "harmonic",
    ming: "ring",
    jie: "joint",
    節: "joint",
  },
  ...{ 节: "joint", gui: "kneeling", up: "shang", down: "xia", "dai qi": "pull-off", 帶起: "pull-off" },
  ...{ "zhua qi": "pull-off", 抓起: "pull-off", 掩: "yan", "hammer-on": "yan" },
};

const BY_NAME: ReadonlyMap<string, Sign> = new Map([
  ...Object.entries(ALSO),
  ...SIGNS.flatMap((sign) => [[sign, sign] as const, [CHARACTERS[sign], sign] as const]),
]);

/** Whether a sign is a stroke of the right hand. */
export function isStroke(sign: Sign): sign is Stroke {
  return STROKES.some((stroke) => stroke === sign);
}

/** A sign as a report names it. @example signName("gou") // "gou", "勾" */
export function signName(sign: Sign): Phrase {
  return phrase(sign, CHARACTERS[sign]);
}

/**
 * The sign that a word means.
 *
 * @param place where it was said, for the message
 * @throws InputProblem naming the nearest and all known
 */
export function findSign(text: string, place = "--focus"): Sign {
  const wanted = text
    .normalize("NFD")
    .replace(/\p{Mn}/gu, "")
    .trim()
    .toLowerCase();
  const found = BY_NAME.get(wanted);
  if (found !== undefined) return found;
  throw new InputProblem(
    "unknown-sign",
    place,
    `no stroke or left-hand sign is called "${text.slice(0, 40)}"`,
    `${didYouMean(wanted, [...BY_NAME.keys()])}known: ${SIGNS.join(", ")}, or their characters`,
  );
}
