// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import type { OddMark } from "../../src/model/score.js";
import { defineRule } from "../../src/rule/define.js";
import { type Phrase, phrase } from "../../src/words.js";

/** What is amiss with a mark, given its text and the form that counts or would be understood. */
const WORDS: Readonly<Record<OddMark["trouble"], (text: string, nearest: string) => Phrase>> = {
  unreadable: (text, nearest) =>
    phrase(
      `"${text}" could not be read as a fingering; the nearest form that can is "${nearest}".`,
      `“${text}”读不懂是什么指法；读得懂的写法里，最接近的是“${inCharacters(nearest)}”。`,
    ),
  contradicted: (text, nearest) =>
    phrase(
      `The written "${text}" and the marks "${nearest}" of this note contradict each other; the marks count.`,
      `这个音上写的“${inCharacters(text)}”与记号“${inCharacters(nearest)}”互相矛盾；以记号为准。`,
    ),
  direction: (text, nearest) =>
    phrase(
      `The written "${text}" goes the other way than the notes, for which it would be "${nearest}"; the notes count.`,
      `所写的“${inCharacters(text)}”与音的方向相反，照音应是“${inCharacters(nearest)}”；以音为准。`,
    ),
  misfit: (text, nearest) =>
    phrase(
      `The written "${text}" is meant for another number of notes than stand here, so part of it was left out; "${nearest}" would fit.`,
      `所写的“${inCharacters(text)}”与这里的音数不符，所以略去了一部分；“${inCharacters(nearest)}”才相符。`,
    ),
  // Techniques that are known: what they are, and why they are not judged.
  "jian-gou": (text) =>
    phrase(
      `"${text}" asks for jian gou, index and middle finger by turns on two or three strings. The handbooks differ on its notes, so it was not judged: write each note's own stroke and string.`,
      `“${text}”要的是间勾这个指法，即食指与中指在两三根弦上轮换。各家琴谱对弹出哪几个音说法不一，所以没有判断：请逐音写出弹法和弦。`,
    ),
  "fen-kai": (text, read) =>
    phrase(
      `"${text}" asks for fen kai: a pluck, a slide up, a second pluck and the way back. It does not say which notes these are, so it was not judged${kept(read)}: write a form at each of them.`,
      `“${text}”要的是分开这个指法：弹一声，走上去，再弹一声，又走回来。它没有说这些是哪几个音，所以没有判断${keptZh(read)}：请在每个音上写出指法。`,
    ),
  "xu-yan": (text, read) =>
    phrase(
      `"${text}" asks for xu yan, a tap of the thumb that sounds without a pluck before it. Nothing here judges such a sound, so the note was taken as a plucked one${kept(read)}.`,
      `“${text}”要的是虚罨这个指法，即右手不弹，大指一罨得声。这里没有哪条规则判断这种声音，所以当作弹出的音${keptZh(read)}。`,
    ),
};

const kept = (read: string): string => (read === "" ? "" : `, and "${read}" was read`);
const keptZh = (read: string): string => (read === "" ? "" : `，只读了“${inCharacters(read)}”`);

export default defineRule(
  {
    id: "unread-fingering",
    kind: "notation",
    title: phrase("A fingering mark that was not understood", "没看懂的指法"),
    principle: phrase(
      "A fingering is read from the marks, lyrics and words beside the notes, in the form that players speak: sound or finger, place, stroke, string.",
      "指法从音旁的记号、歌词行和文字里读，照琴人念谱的说法：散泛或按指、徽位、弹法、弦。",
    ),
    why: phrase(
      "A mark that could not be read was not judged, and the search chose in its place.",
      "没看懂的就没有判断，编配时另选了指法。",
    ),
    whenRight: phrase("Where the text was never meant as a fingering.", "那段文字本来就不是指法。"),
    remedy: phrase(
      "Write it in the form given, or move other texts to another line of lyrics.",
      "照给出的写法写，或把别的文字移到另一行歌词。",
    ),
    sources: [
      phrase("the spoken reading of a fingering: common practice, no source", "指法的念法：通行做法（无出处）"),
    ],
    unit: null,
    parameters: {},
    examples: [
      {
        shows: phrase("a spoken form", "照念法写"),
        kind: "passes",
        melody: "C3",
        fingering: ["ming 10 gou 4"],
        finds: [],
      },
      {
        shows: phrase("a word that is no finger", "有个词不是手指名"),
        kind: "breaks",
        melody: "C3",
        fingering: ["? minf 10 gou 4"],
        finds: [
          [
            1,
            "note",
            phrase(
              '"minf 10 gou 4" could not be read as a fingering; the nearest form that can is "ming 10 gou 4".',
              "“minf 10 gou 4”读不懂是什么指法；读得懂的写法里，最接近的是“名十勾四”。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a slide whose word goes the other way than the notes", "走音的方向词与音的方向相反"),
        kind: "breaks",
        melody: "(C3 D3)",
        fingering: ["ming 10 gou 4", "xia 9"],
        finds: [
          [
            2,
            "note",
            phrase(
              'The written "xia 9" goes the other way than the notes, for which it would be "shang 9"; the notes count.',
              "所写的“下九”与音的方向相反，照音应是“上九”；以音为准。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a technique that is known and cannot be judged", "认得但无法判断的技法"),
        kind: "breaks",
        melody: "C3 D3",
        fingering: ["ming 10 gou 4 fen kai", "-"],
        finds: [
          [
            1,
            "note",
            phrase(
              '"ming 10 gou 4 fen kai" asks for fen kai: a pluck, a slide up, a second pluck and the way back. It does not say which notes these are, so it was not judged, and "ming 10 gou 4" was read: write a form at each of them.',
              "“ming 10 gou 4 fen kai”要的是分开这个指法：弹一声，走上去，再弹一声，又走回来。它没有说这些是哪几个音，所以没有判断，只读了“名十勾四”：请在每个音上写出指法。",
            ),
          ],
        ],
      },
      {
        shows: phrase("an ornament is read and kept", "装饰记号读到了，并保留"),
        kind: "exception",
        melody: "C3",
        fingering: ["ming 10 gou 4 yin"],
        finds: [],
      },
      {
        shows: phrase("a pinch at a single note", "单音上写了撮"),
        kind: "breaks",
        melody: "G2",
        fingering: ["san cuo 4"],
        finds: [
          [
            1,
            "note",
            phrase(
              'The written "san cuo 4" is meant for another number of notes than stand here, so part of it was left out; "gou 4" would fit.',
              "所写的“散撮四”与这里的音数不符，所以略去了一部分；“勾四”才相符。",
            ),
          ],
        ],
      },
      {
        shows: phrase("no fingering at all", "完全没有指法"),
        kind: "exception",
        melody: "C3",
        fingering: ["-"],
        finds: [],
      },
    ],
  },
  () => ({
    reach: "passage",
    look: ({ score }) => ({
      looked: score.notes.filter((note) => note.given.text !== "").length + score.oddMarks.length,
      findings: score.oddMarks.map((odd) => ({
        notes: [odd.note],
        severity: "note",
        measured: null,
        limit: null,
        message: WORDS[odd.trouble](odd.text, odd.nearest),
      })),
    }),
  }),
);
