// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import type { Arrival } from "../../src/model/fingering.js";
import type { MomentNote } from "../../src/model/moments.js";
import { pitchName } from "../../src/model/pitch.js";
import type { Placed } from "../../src/model/playing.js";
import { OTHER_NOTE_CENTS } from "../../src/model/written-place.js";
import { defineRule, plain } from "../../src/rule/define.js";
import type { Sight } from "../../src/rule/types.js";
import { joined, type Phrase, phrase, phraseOf } from "../../src/words.js";
import { placeOnString, soundedNote, stringsWithPlace } from "../shared/intended-place.js";

export default defineRule(
  {
    id: "written-place-mismatch",
    kind: "intonation",
    title: phrase("The written place sounds another note", "所写徽位是另一个音"),
    topic: phrase("places that sound another note", "音位不对的音"),
    principle: phrase(
      "String and place decide the pitch. A written place belongs to its note when it lies within half a tenth or 25 cents of it, whichever is more.",
      "弦与徽位定音高。所写徽位离该音不出半分或25音分（取大者），就算它的音位。",
    ),
    why: phrase(
      "A player reads the tablature, not the staff, and will play the wrong note.",
      "演奏者看的是减字谱，不是五线谱，会照着弹错。",
    ),
    whenRight: phrase(
      "Only where the staff is wrong and the tablature right: then correct the staff.",
      "只有谱上的音错而指法对的时候：那就改谱上的音。",
    ),
    remedy: phrase(
      "Write the place that sounds the note on this string, or the string on which this place does.",
      "写出该音在这根弦上的徽位，或写出用这个徽位能得该音的那根弦。",
    ),
    sources: [
      phrase(
        "places of the semitones: J. Thompson, silkqin.com, list of a Ming handbook; the beginner's list of hui-fen signs at kxting.com",
        "各半音的徽位：J. Thompson，silkqin.com，一部明代琴谱的音位表；kxting.com初学徽分表",
      ),
      phrase("the tolerance: our judgement", "允许的偏差：我们的判断"),
    ],
    unit: "cents",
    parameters: {
      wrongPlace: {
        default: 1,
        unit: "spare moves",
        doc: phrase("a wrong place weighs as much as a wrong note", "徽位写错，与音错同重"),
        evidence: "our judgement",
      },
      outOfTune: {
        default: 0.5,
        unit: "spare moves",
        doc: phrase("a place that sounds the note itself out of tune", "还是这个音，只是不准"),
        evidence: "our judgement",
      },
      otherNote: {
        default: OTHER_NOTE_CENTS,
        unit: "cents",
        doc: phrase("from here on it is heard as another note", "从这里起，听来就是另一个音"),
        evidence: "our judgement",
      },
      tolerance: {
        default: 25,
        unit: "cents",
        doc: phrase(
          "a place this near is the note's own, or one within half a tenth where that is more",
          "这么近就算该音的音位；半分比它大时，以半分为准",
        ),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("hui 10 of string 4 sounds C3", "四弦十徽正是C3"),
        kind: "passes",
        melody: "C3",
        fingering: ["ming 10 gou 4"],
        finds: [],
      },
      {
        shows: phrase("hui 9 of string 4 sounds D3, not C3", "四弦九徽是D3，不是C3"),
        kind: "breaks",
        melody: "C3",
        fingering: ["ming 9 gou 4"],
        finds: [
          [
            1,
            "problem",
            phrase(
              "ming 9 gou 4 sounds D3, not C3 (204 cents too high, where 25 are allowed). On string 4 C3 is at 10; string 3 sounds it at 9.",
              "“名九勾四”是D3，不是C3（高了204音分，容许25）。四弦上C3在十徽；三弦的九徽才是这个音。",
            ),
          ],
        ],
      },
      {
        shows: phrase("7.9 where 7.6 is meant", "该写七徽六分，写成了七徽九分"),
        kind: "breaks",
        melody: "F3",
        fingering: ["da 7.9 tiao 4"],
        finds: [
          [
            1,
            "problem",
            phrase(
              "da 7.9 tiao 4 sounds E3, not F3 (83 cents too low, where 25 are allowed). On string 4 F3 is at 7.6.",
              "“大七九挑四”是E3，不是F3（低了83音分，容许25）。四弦上F3在七徽六分。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a left hand alone has nothing to slide from", "只写左手走音，前面却没有按音可走"),
        kind: "breaks",
        melody: "C3",
        fingering: ["shang 10"],
        finds: [
          [
            1,
            "blocker",
            phrase(
              '"shang 10" cannot sound C3: a slide needs a stopped note before it, under the same finger on the same string.',
              "“上十”弹不出C3：上下走音之前，要有同一指在同一根弦上的按音。",
            ),
          ],
        ],
      },
      {
        shows: phrase("three tenths beside hui 10: the note itself, out of tune", "偏离十徽三分：还是这个音，但不准"),
        kind: "breaks",
        melody: "C3",
        fingering: ["ming 10.3 gou 4"],
        finds: [
          [
            1,
            "caution",
            phrase(
              "ming 10.3 gou 4 sounds C3 34 cents too low, where 25 are allowed; on string 4 C3 is at 10.",
              "“名十徽三勾四”弹出的C3低了34音分，容许25；四弦上C3在十徽。",
            ),
          ],
        ],
      },
      {
        shows: phrase("an open string for a note that another one sounds", "写了散音，而这个音在别的散音上"),
        kind: "breaks",
        melody: "C3",
        fingering: ["san gou 5"],
        finds: [
          [
            1,
            "problem",
            phrase(
              "san gou 5 sounds A2, not C3 (294 cents too low, where 25 are allowed). On string 5 C3 is at 12.2; string 6 sounds it when open.",
              "“散勾五”是A2，不是C3（低了294音分，容许25）。五弦上C3在十二徽二分；六弦散音就是这个音。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a string that begins above the note", "这根弦的散音已经高过该音"),
        kind: "breaks",
        melody: "C2",
        fingering: ["gou 7"],
        finds: [
          [
            1,
            "blocker",
            phrase(
              '"gou 7" cannot sound C2: C2 lies below string 7, which is D3 when open.',
              "“勾七”弹不出C2：C2低于七弦散音D3。",
            ),
          ],
        ],
      },
      {
        shows: phrase("hui 8 is near enough for 7.9: a comma apart", "八徽离七徽九分够近：只差一个音差"),
        kind: "exception",
        melody: "A3",
        fingering: ["da 8 tiao 6"],
        finds: [],
      },
    ],
  },
  (values, setting) => {
    const misplaced = ({ spoken, measured }: Sight, placed: Placed, wanted: MomentNote): Phrase => {
      const name = pitchName(wanted.sounding);
      const off = `${plain(measured, 0)} cents too ${placed.offCents > 0 ? "high" : "low"}`;
      const offZh = `${placed.offCents > 0 ? "高" : "低"}了${plain(measured, 0)}音分，容许${values.tolerance}`;
      const reading = `“${inCharacters(spoken)}”`;
      const here = placeOnString(placed.string, placed.sound, wanted, setting);
      if (measured < values.otherNote)
        return phraseOf({
          en: (say) => `${spoken} sounds ${name} ${off}, where ${values.tolerance} are allowed; ${say(here)}.`,
          zh: (say) => `${reading}弹出的${name}${offZh}；${say(here)}。`,
        });
      const there = stringsWithPlace(placed, wanted, setting);
      const sounded = soundedNote(placed, setting);
      const also = there === null ? here : joined([here, there], phrase("; ", "；"));
      return phraseOf({
        en: (say) =>
          `${spoken} sounds ${sounded}, not ${name} (${off}, where ${values.tolerance} are allowed). ${capital(say(also))}.`,
        zh: (say) => `${reading}是${sounded}，不是${name}（${offZh}）。${say(also)}。`,
      });
    };

    const impossible = (written: string, wanted: MomentNote): Phrase => {
      const { arrival, string, sound } = wanted.given;
      const name = pitchName(wanted.sounding);
      const cannot = phrase(`"${written}" cannot sound ${name}`, `“${inCharacters(written)}”弹不出${name}`);
      const reason = whyNot(arrival) ?? (string === null ? null : placeOnString(string, sound, wanted, setting));
      const full = reason === null ? cannot : joined([cannot, reason], phrase(": ", "："));
      return joined([full, phrase(".", "。")]);
    };

    return {
      reach: "place",
      limit: values.tolerance,
      breaks: "above",
      severities: [
        [values.tolerance, "caution"],
        [values.otherNote, "problem"],
      ],
      measure: (placed, missing, note) => {
        if (placed === null) return missing?.cause === "given" ? 0 : Number.NaN;
        if (placed.mismatch) return Math.abs(placed.offCents);
        return note.given.position !== null || note.given.string !== null ? 0 : Number.NaN;
      },
      charge: (cents) => (cents === 0 ? 0 : cents < values.otherNote ? values.outOfTune : values.wrongPlace),
      message: (sight) => {
        if (sight.wanted === null) return "";
        return sight.placed === null
          ? impossible(sight.written, sight.wanted)
          : misplaced(sight, sight.placed, sight.wanted);
      },
    };
  },
);

const capital = (sentence: string): string => sentence.charAt(0).toUpperCase() + sentence.slice(1);

/** What a left hand that sounds a note by itself needs before it. */
const NEEDS: Readonly<Record<Exclude<Arrival, "plucked">, Phrase>> = {
  slid: phrase(
    "a slide needs a stopped note before it, under the same finger on the same string",
    "上下走音之前，要有同一指在同一根弦上的按音",
  ),
  "pulled-off": phrase(
    "a pull-off needs a stopped note before it on the same string",
    "带起抓起之前，要有同一根弦上的按音",
  ),
  hammered: phrase(
    "a tap needs the ring finger before it on the same string, nearer the nut",
    "罨之前，要有名指按在同一根弦上更靠龙龈的地方",
  ),
};

const whyNot = (arrival: Arrival | null): Phrase | null =>
  arrival === null || arrival === "plucked" ? null : NEEDS[arrival];
