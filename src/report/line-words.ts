// SPDX-License-Identifier: AGPL-3.0-or-later
// Which line of a score was read, why, and what takes the others, in words.
import type { LeftOutLine, LineChoice, MelodyTrait } from "../model/line-choice.js";
import type { Score } from "../model/score.js";

/** At most so many other lines are named. */
const NAMED = 5;

/** What speaks for a line, each behind "it". */
const REASONS: Readonly<Record<MelodyTrait, string>> = {
  fingering: "carries guqin fingering",
  guqin: "is named for the guqin",
  pitched: "is no percussion",
  printed: "is printed, not only played back",
  proper: "stands in the score proper",
  notation: "is no tablature",
  words: "carries the words",
  named: "is named as a voice or melody",
  presence: "sounds in more bars",
  single: "has mostly one note at a time",
  height: "lies higher",
  steps: "moves in smaller steps",
  treble: "is not in the bass clef",
  singable: "has a range that can be sung",
  leading: "is for an instrument that plays melodies",
  melodic: "is no accompaniment by its name",
  stems: "has its stems up",
};

/**
 * The line and why it was taken, then the others and what takes them, one sentence each; nothing where there was nothing
 * to choose.
 *
 * @example "Read: P2 (Voice), voice 1, of 3 lines: it carries the words and lies highest."
 */
export function lineSentences({ part, voice, choice, leftOut }: Score): readonly string[] {
  if (choice === null) return [];
  const title = part.name === null ? part.id : `${part.id} (${part.name})`;
  const named = voice === null ? title : `${title}, voice ${voice}`;
  const chords = choice.chords ? ["It has chords: all their notes are read, the melody is likely the highest."] : [];
  const read = `Read: ${named}, of ${choice.lines} lines: ${choiceReason(choice)}.`;
  return [read, ...chords, `Others: ${othersWords(leftOut)}.`];
}

/** Why the line was taken, such as "it carries the words and lies highest". */
export function choiceReason({ by, because, highest }: LineChoice): string {
  if (by === "kept") return "it is the line that was annotated";
  if (because.length === 0) return "it stands first, and nothing sets another apart";
  const said = because.map((trait) => (trait === "height" && highest ? "lies highest" : REASONS[trait]));
  const last = said.pop() as string;
  return `it ${said.length === 0 ? last : `${said.join(", ")} and ${last}`}`;
}

function othersWords(leftOut: readonly LeftOutLine[]): string {
  const named = leftOut.slice(0, leftOut.length > NAMED + 1 ? NAMED : undefined);
  const rest = leftOut.length - named.length;
  const words = named.map(({ part, voice, take }) => `${part}${voice === null ? "" : `, voice ${voice}`} (${take})`);
  return [...words, ...(rest === 0 ? [] : [`${rest} more`])].join("; ");
}
