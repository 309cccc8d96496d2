// SPDX-License-Identifier: AGPL-3.0-or-later
// Which line of a score was read, why, and what takes the others, in words.
import type { LeftOutLine, LineChoice, MelodyTrait } from "../model/line-choice.js";
import type { Score } from "../model/score.js";
import { joined, type Phrase, phrase, phraseOf, type Said } from "../words.js";

/** At most so many other lines are named. */
const NAMED = 5;

/** What speaks for a line, each behind "it". */
const REASONS: Readonly<Record<MelodyTrait, Phrase>> = {
  fingering: phrase("carries guqin fingering", "带有古琴指法"),
  guqin: phrase("is named for the guqin", "以琴为名"),
  pitched: phrase("is no percussion", "不是打击乐"),
  printed: phrase("is printed, not only played back", "印在谱上，不只供播放"),
  proper: phrase("stands in the score proper", "在正谱之中"),
  notation: phrase("is no tablature", "是五线谱，不是六线谱之类"),
  words: phrase("carries the words", "带有歌词"),
  named: phrase("is named as a voice or melody", "名称写明是歌声或旋律"),
  presence: phrase("sounds in more bars", "有音的小节更多"),
  single: phrase("has mostly one note at a time", "多为单音"),
  height: phrase("lies higher", "音较高"),
  steps: phrase("moves in smaller steps", "进行更平稳"),
  treble: phrase("is not in the bass clef", "不用低音谱号"),
  singable: phrase("has a range that can be sung", "音域可以歌唱"),
  leading: phrase("is for an instrument that plays melodies", "是奏旋律的乐器"),
  melodic: phrase("is no accompaniment by its name", "名称不像伴奏"),
  stems: phrase("has its stems up", "符干朝上"),
};
const HIGHEST = phrase("lies highest", "音最高");

/** A part's id and name, such as "P2 (Voice)". */
function partTitle({ id, name }: Score["part"]): Phrase {
  return name === null ? phrase(id, id) : phrase(`${id} (${name})`, `${id}（${name}）`);
}

/** A line by its part, and by its voice where the part has several. @example lineName("P2", "1") // "P2, voice 1", "声部P2的线1" */
export function lineName(part: Said, voice: string | null): Phrase {
  return phraseOf({
    en: (say) => `${say(part)}${voice === null ? "" : `, voice ${voice}`}`,
    zh: (say) => `声部${say(part)}${voice === null ? "" : `的线${voice}`}`,
  });
}

/**
 * The line and why it was taken, then the others and what takes them, one sentence each; nothing where there was nothing
 * to choose.
 *
 * @example "Read: P2 (Voice), voice 1, of 3 lines: it carries the words and lies highest."
 */
export function lineSentences({ part, voice, choice, leftOut }: Score): readonly Phrase[] {
  if (choice === null) return [];
  const [named, reason, others] = [lineName(partTitle(part), voice), choiceReason(choice), othersWords(leftOut)];
  return [
    phrase(
      `Read: ${named.en}, of ${choice.lines} lines: ${reason.en}.`,
      `共${choice.lines}条线，读的是${named.zh}：${reason.zh}。`,
    ),
    ...(choice.chords ? [CHORDS] : []),
    phrase(`Others: ${others.en}.`, `其余：${others.zh}。`),
  ];
}

const CHORDS = phrase(
  "It has chords: all their notes are read, the melody is likely the highest.",
  "这条线有和音：各音都读，旋律多半是最高的音。",
);

/** Why the line was taken, such as "it carries the words and lies highest". */
export function choiceReason({ by, because, highest }: LineChoice): Phrase {
  if (by === "kept") return phrase("it is the line that was annotated", "标注过指法的就是这条线");
  if (because.length === 0)
    return phrase("it stands first, and nothing sets another apart", "它排在最前，别的线也没有更像旋律之处");
  const said = because.map((trait) => (trait === "height" && highest ? HIGHEST : REASONS[trait]));
  const last = said.pop() as Phrase;
  const before = joined(said, phrase(", ", "，"));
  return said.length === 0
    ? phrase(`it ${last.en}`, `它${last.zh}`)
    : phrase(`it ${before.en} and ${last.en}`, `它${before.zh}，${last.zh}`);
}

function othersWords(leftOut: readonly LeftOutLine[]): Phrase {
  const named = leftOut.slice(0, leftOut.length > NAMED + 1 ? NAMED : undefined);
  const rest = leftOut.length - named.length;
  const words = named.map(({ part, voice, take }) => {
    const name = lineName(part, voice);
    return phrase(`${name.en} (${take})`, `${name.zh}（${take}）`);
  });
  const more = rest === 0 ? [] : [phrase(`${rest} more`, `另有${rest}条`)];
  return joined([...words, ...more], phrase("; ", "；"));
}
