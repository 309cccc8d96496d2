// SPDX-License-Identifier: AGPL-3.0-or-later

import { NUT_POSITION } from "../../src/model/board.js";
import { placeInCharacters, stringInCharacters } from "../../src/model/characters.js";
import { flatsFor } from "../../src/model/melody-gong.js";
import { isCore, pitchClassName, placesOnString } from "../../src/model/note-table.js";
import { pitchName } from "../../src/model/pitch.js";
import { printedPosition } from "../../src/model/written-place.js";
import { defineRule, plain } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";
import { joined, type Phrase, phrase, phraseOf, type Said } from "../../src/words.js";
import { type Stretch, straysFrom, stretchesOf, type Tone, tonesOf } from "../shared/modes.js";
import { times } from "../shared/runs.js";

/** All tones on one gong. */
type OnGong = Pick<Stretch, "gong" | "tones">;

export default defineRule(
  {
    id: "stray-position",
    kind: "idiom",
    title: phrase("A place off the pattern of the mode", "调外的音位"),
    principle: phrase(
      "In a tuning and mode each string has its places for the five tones, learned by heart; a stop beside them is heard as a tone from another mode, and several in a row announce that mode.",
      "定弦与调一定，每根弦上五声各有其位，烂熟于心；按到旁边，听来就是别调的音，连着几个，便等于宣告转调。",
    ),
    why: phrase(
      "The hand goes to the places that it knows. In standard tuning on F, the place next below hui 7 is 7.9 on strings 1, 3 and 6 and 7.6 on the others: 7.9 on string 4 is E, and tells a player that the mode has changed.",
      "手总往熟悉的音位去。正调F宫，七徽左边的第一个音位，一、三、六弦是七徽九分，其余各弦是七徽六分：四弦七徽九分是E，演奏者一见便知转了调。",
    ),
    whenRight: phrase(
      "As a passing tone that a slide touches, or where the mode does change and the change is marked.",
      "走音掠过的经过音；或确实转了调，谱上也标明了。",
    ),
    remedy: phrase(
      "Mark the change of mode where one is meant, or take the tone of the scale beside it.",
      "若有意转调，就标明；否则改用旁边的调内音。",
    ),
    cures: ["setting"],
    sources: [
      phrase(
        "common practice, no source; the places are computed for the tuning and the mode",
        "通行做法（无出处）；音位按定弦和调推算",
      ),
      phrase("the shares and counts: our judgement", "比例与个数：我们的判断"),
    ],
    unit: "share",
    parameters: {
      announces: {
        default: 3,
        unit: "places",
        doc: phrase(
          "strays that announce a mode in which they all have a place",
          "这么多处调外音，若在另一调里都有位置，便是转到那个调",
        ),
        evidence: "our judgement",
      },
      within: {
        default: 8,
        unit: "notes",
        doc: phrase("so near together", "须在这么多个音之内"),
        evidence: "our judgement",
      },
      tones: {
        default: 3,
        unit: "tones",
        doc: phrase(
          "different tones among those notes, all of the new mode",
          "这些音里至少有这么多个不同的音，且都属新调",
        ),
        evidence: "our judgement",
      },
      limit: {
        default: 0.15,
        unit: "share",
        doc: phrase(
          "strays among all notes: beyond it the tune is one of seven tones or more, and is told so once",
          "调外音在全部音中的比例：超过此值，曲子便是七声或更多，只说一次",
        ),
        evidence: "our judgement",
      },
      few: {
        default: 3,
        unit: "places",
        doc: phrase("so many are told one by one, however short the line", "不超过这么多处就逐处说明，不论旋律多短"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase(
          "7.6 on string 4 and 7.9 on string 6, where F-gong has them",
          "四弦七徽六分、六弦七徽九分，正是F宫的音位",
        ),
        kind: "passes",
        melody: "F3 A3 G3",
        fingering: ["da 7.6 tiao 4", "da 7.9 tiao 6", "da 7.6 tiao 5"],
        finds: [],
      },
      {
        shows: phrase("7.9 on string 4", "四弦七徽九分"),
        kind: "breaks",
        melody: "F3 E3 F3 G3",
        fingering: ["da 7.6 tiao 4", "da 7.9 tiao 4", "da 7.6 tiao 4", "da 7.6 tiao 5"],
        finds: [
          [
            2,
            "note",
            phrase(
              "7.9 on string 4 is E3, outside the five tones of F-gong, which has 7.6 (F) there.",
              "四弦七徽九分是E3，不在F宫五声之内，本调在这里的音位是七徽六分（F）。",
            ),
          ],
        ],
      },
      {
        shows: phrase("E in place of F, again and again: the places of C-gong", "一再以E代F：是C宫的音位"),
        kind: "breaks",
        melody: "F3 G3 A3 F3 E3 G3 E3 D3 C3 E3",
        fingering: [
          ...["da 7.6 tiao 4", "da 7.6 tiao 5", "da 7.9 tiao 6", "da 7.6 tiao 4"],
          ...["da 7.9 tiao 4", "da 7.6 tiao 5", "da 7.9 tiao 4", "san tiao 7", "san tiao 6", "ming 9 gou 5"],
        ],
        finds: [
          [
            10,
            "note",
            phrase(
              "From bar 2 the places are those of C-gong, where the key is that of F-gong: 7.9 on string 4 (E3), 9 on string 5 (E3).",
              "从第2小节起，音位是C宫的，而谱上的调是F宫：四弦七徽九分（E3）、五弦九徽（E3）。",
            ),
          ],
        ],
      },
      {
        shows: phrase("E as a passing tone that a slide touches", "走音掠过的经过音E"),
        kind: "exception",
        melody: "(D3 E3) D3 C3",
        fingering: ["ming 10 gou 5", "shang 9", "san tiao 7", "san tiao 6"],
        finds: [],
      },
    ],
  },
  (values, setting) => {
    const nameOf = (gong: number): Phrase => {
      const name = pitchClassName(gong, flatsFor(gong));
      return phrase(`${name}-gong`, `${name}宫`);
    };
    const bar = (line: Line, tone: Tone): string => line.score.bars[tone.note.source.bar]?.label ?? "";

    /** The places of the mode next to a stray on its string, in words; empty above hui 4. */
    const besides = ({ placed, note }: Tone, gong: number): Said => {
      const beside = [-1, 1].flatMap((step) => {
        const pitchClass = (note.semitone + step + 12) % 12;
        if (!isCore(pitchClass, gong)) return [];
        const places = placesOnString(pitchClass, placed.string, setting);
        const far = (place: number): number => Math.abs(place - placed.exact);
        const place = places.reduce((a, b) => (far(b) < far(a) ? b : a), Number.POSITIVE_INFINITY);
        return far(place) > 1 ? [] : [nearPlace(place, pitchClassName(pitchClass, flatsFor(gong)))];
      });
      const places = joined(beside, phrase(" and ", "和"));
      if (beside.length === 0) return "";
      return phraseOf({
        en: (say) => `, which has ${say(places)} there`,
        zh: (say) => `，本调在这里的音位是${say(places)}`,
      });
    };

    /** One place that strays, however often it comes. */
    const strayFinding = (gong: number, tones: readonly Tone[]): PassageFinding => {
      const tone = tones[0] as Tone;
      const { placed, note } = tone;
      const place = printedPosition(placed, note.given.position);
      const where = stringInCharacters(placed.string) + placeInCharacters(place ?? placed.exact);
      const [pitch, mode, beside, count] = [
        pitchName(note.sounding),
        nameOf(gong),
        besides(tone, gong),
        times(tones.length),
      ];
      const often =
        tones.length === 1
          ? ""
          : phraseOf({ en: (say) => ` It comes ${say(count)}.`, zh: (say) => `共出现${say(count)}。` });
      return {
        notes: tones.map((tone) => tone.note.source.id),
        severity: "note",
        measured: null,
        limit: null,
        message: phraseOf({
          en: (say) =>
            `${place} on string ${placed.string} is ${pitch}, outside the five tones of ${say(mode)}${say(beside)}.${say(often)}`,
          zh: (say) => `${where}是${pitch}，不在${say(mode)}五声之内${say(beside)}。${say(often)}`,
        }),
      };
    };

    /** A tune that is not of five tones: told once. */
    const manyFinding = ({ gong, tones }: OnGong, off: readonly Tone[]): PassageFinding => {
      const counts = [...byKey(off, ({ note }) => pitchName(note.sounding).replace(/-?\d+$/, ""))]
        .sort(([, a], [, b]) => b.length - a.length)
        .map(([name, { length }]) =>
          phraseOf({ en: (say) => `${name} ${say(times(length))}`, zh: (say) => `${name}（${say(times(length))}）` }),
        );
      const [told, mode] = [joined(counts, phrase(", ", "、")), nameOf(gong)];
      const share = off.length / tones.length;
      const [percent, limit] = [plain(100 * share), plain(100 * values.limit)];
      return {
        notes: off.map((tone) => tone.note.source.id),
        severity: "note",
        measured: share,
        limit: values.limit,
        message: phraseOf({
          en: (say) =>
            `${off.length} of ${tones.length} notes (${percent} %, limit ${limit} %) are stopped off the pattern of ${say(mode)}: ${say(told)}. A player reads the tune as one of more than five tones and looks for each of these places.`,
          zh: (say) =>
            `${tones.length}个音中有${off.length}个（${percent}%，限度${limit}%）按在${say(mode)}的音位之外：${say(told)}。演奏者会把曲子看作不止五声，这些音位要一个个去找。`,
        }),
      };
    };

    const straysOn = (one: OnGong): readonly PassageFinding[] => {
      const off = one.tones.filter((tone) => straysFrom(tone, one.gong));
      if (off.length > values.few && off.length / one.tones.length > values.limit) return [manyFinding(one, off)];
      const places = byKey(off, ({ placed }) => `${placed.string} ${placed.position}`);
      return [...places.values()].map((tones) => strayFinding(one.gong, tones));
    };

    /** Where the places return to the mode of the key. */
    const backFrom = (line: Line, next: Stretch): Phrase => {
      const [from, mode] = [bar(line, next.tones[0] as Tone), nameOf(next.gong)];
      return phraseOf({
        en: (say) => ` From bar ${from} they are those of ${say(mode)} again.`,
        zh: (say) => `从第${from}小节起又回到${say(mode)}的音位。`,
      });
    };

    /** A stretch in another mode than the key says. */
    const changeFinding = (line: Line, stretch: Stretch, next: Stretch | undefined): PassageFinding => {
      const off = stretch.tones.filter((tone) => straysFrom(tone, stretch.home));
      const places = [...byKey(off, ({ placed }) => `${placed.position} on string ${placed.string}`)].map(
        ([, [tone]]) => placeAndNote(tone as Tone),
      );
      const [mode, key, told] = [nameOf(stretch.gong), nameOf(stretch.home), joined(places, phrase(", ", "、"))];
      const from = bar(line, stretch.tones[0] as Tone);
      const back = next === undefined || next.gong !== next.home ? "" : backFrom(line, next);
      return {
        notes: off.map((tone) => tone.note.source.id),
        severity: "note",
        measured: null,
        limit: null,
        message: phraseOf({
          en: (say) =>
            `From bar ${from} the places are those of ${say(mode)}, where the key is that of ${say(key)}: ${say(told)}.${say(back)}`,
          zh: (say) => `从第${from}小节起，音位是${say(mode)}的，而谱上的调是${say(key)}：${say(told)}。${say(back)}`,
        }),
      };
    };

    return {
      reach: "passage",
      look: (line) => {
        const tones = tonesOf(line);
        const stretches = stretchesOf(line, tones, values);
        const changes = stretches.flatMap((stretch, i) =>
          stretch.gong === stretch.home ? [] : [changeFinding(line, stretch, stretches[i + 1])],
        );
        const byGong = [...byKey(stretches, ({ gong }) => gong)].map(([gong, ones]) => ({
          gong,
          tones: ones.flatMap((one) => one.tones),
        }));
        return { looked: tones.filter(({ stop }) => stop).length, findings: [...changes, ...byGong.flatMap(straysOn)] };
      },
    };
  },
);

/** "7.9 on string 4 (E3)", the place as it is written. */
function placeAndNote({ placed, note }: Tone): Phrase {
  const place = printedPosition(placed, note.given.position);
  const where = stringInCharacters(placed.string) + placeInCharacters(place ?? placed.exact);
  const pitch = pitchName(note.sounding);
  return phrase(`${place} on string ${placed.string} (${pitch})`, `${where}（${pitch}）`);
}

/** A place of the mode with its tone, "7.6 (F)". @param place 14 for the open string */
function nearPlace(place: number, tone: string): Phrase {
  if (place === NUT_POSITION) return phrase(`the open string (${tone})`, `散音（${tone}）`);
  return phrase(`${place} (${tone})`, `${placeInCharacters(place)}（${tone}）`);
}

/** Groups in order of their first member. */
function byKey<T, K>(all: readonly T[], keyOf: (one: T) => K): ReadonlyMap<K, readonly T[]> {
  const groups = new Map<K, T[]>();
  for (const one of all) {
    const group = groups.get(keyOf(one));
    if (group === undefined) groups.set(keyOf(one), [one]);
    else group.push(one);
  }
  return groups;
}
