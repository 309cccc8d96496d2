// SPDX-License-Identifier: AGPL-3.0-or-later
// What a message quotes and the writer did not write: a teacher must not hold a completed reading against its writer.
import { type GivenFingering, givesNothing } from "../model/fingering.js";
import type { Left, Right } from "../model/playing.js";
import type { Played } from "../search/charges.js";
import { phrase, type Said } from "../words.js";

/** Parts of a reading, in the order in which it says them. */
const PARTS = ["string", "finger", "stroke"] as const;
type Part = (typeof PARTS)[number];

/** The parts in Chinese. */
const IN_CHINESE: Readonly<Record<Part, string>> = { string: "弦", finger: "左手指", stroke: "弹法" };

/** Whether the score gives a fingering for some note: a line that nobody wrote blames nobody. */
export function isPartlyGiven({ moments }: Pick<Played, "moments">): boolean {
  return moments.some(({ notes }) => notes.some(({ source }) => !givesNothing(source.given)));
}

/**
 * The parts of quoted readings that were found by search, in a sentence; empty where all was given.
 *
 * @param quoted the moments whose readings the message quotes
 * @example completedWords([3], played) // " Finger and stroke are as completed here."
 */
export function completedWords(quoted: readonly number[], played: Played): Said {
  const open = new Set(quoted.flatMap((at) => openParts(at, played)));
  const parts = PARTS.filter((part) => open.has(part));
  const [first, ...others] = parts;
  if (first === undefined) return "";
  const inChinese = `其中${parts.map((part) => IN_CHINESE[part]).join("、")}是这里补上的。`;
  const last = others.pop();
  if (last === undefined) return phrase(` The ${first} is as completed here.`, inChinese);
  const begun = [first, ...others].join(", ");
  return phrase(` ${begun.charAt(0).toUpperCase()}${begun.slice(1)} and ${last} are as completed here.`, inChinese);
}

function openParts(at: number, { moments, lefts, rights }: Played): readonly Part[] {
  const left = lefts[at] as Left;
  const right = rights[at] as Right;
  return left.placed.flatMap(({ note, sound }) => {
    const given = moments[at]?.notes[note]?.given;
    if (given === undefined) return [];
    const plucked = left.chain === 0 && right.stroke !== null;
    return PARTS.filter((part) => {
      if (part === "string") return plucked && isOpen(given, "string") && isOpen(given, "across");
      if (part === "finger") return plucked && sound === "stopped" && isOpen(given, "finger");
      return plucked && isOpen(given, "stroke") && isOpen(given, "compound");
    });
  });
}

const isOpen = (given: GivenFingering, key: "string" | "across" | "finger" | "stroke" | "compound"): boolean =>
  given[key] === null;
