// SPDX-License-Identifier: AGPL-3.0-or-later
// What the pictures say in words: descriptions for those who do not see them, and the tables behind them.
import { placeInCharacters, stringInCharacters, strokeCharacter } from "../src/model/characters.js";
import type { PictureMoment, Pictures, PictureZone } from "../src/report/pictures.js";
import type { RuleKind } from "../src/report.js";
import { joined, type Phrase, phrase, phraseOf, type Said } from "../src/words.js";
import type { UsedPlace } from "./check-pictures-board.js";
import { count, FINGER_WORD, hundredths, KINDS, moves } from "./words.js";

const COMMA = phrase(", ", "、");
const DASH = "–";

/** A kind of rule. */
export function kindWord(kind: RuleKind): Phrase {
  return KINDS.find((one) => one.kind === kind)?.title ?? phrase(kind, kind);
}

/** Parts of the board. */
const ZONE_WORD: Readonly<Record<PictureZone["zone"], Phrase>> = {
  "low down": phrase("Low down", "十二徽以下"),
  "around hui 10": phrase("Around hui 10", "十徽一带"),
  "around hui 9": phrase("Around hui 9", "九徽一带"),
};

/** One zone as a row of words. */
export interface ZoneWords {
  readonly zone: Said;
  readonly common: Said;
  readonly odd: Said;
}

const placesWords = (places: readonly number[]): Said =>
  places.length === 0
    ? phrase("no place", "无音位")
    : joined(
        places.map((place) => phrase(String(place), placeInCharacters(place))),
        COMMA,
      );

/** The zones and their odd strings. */
export function zoneWords(zones: readonly PictureZone[]): readonly ZoneWords[] {
  return zones.map(({ zone, from, to, common, odd }) => ({
    zone: phraseOf({
      en: (say) => `${say(ZONE_WORD[zone])} (${from} to ${to})`,
      zh: (say) => `${say(ZONE_WORD[zone])}（${placeInCharacters(from)}至${placeInCharacters(to)}）`,
    }),
    common: placesWords(common),
    odd:
      odd.length === 0
        ? phrase("none", "无")
        : joined(
            odd.map(({ string, places }) =>
              phraseOf({
                en: (say) => `string ${string}: ${say(placesWords(places))}`,
                zh: (say) => `${stringInCharacters(string)}：${say(placesWords(places))}`,
              }),
            ),
            phrase("; ", "；"),
          ),
  }));
}

/** What a place is called in the table of places. */
export function usedPlaceWords({ sound, position }: UsedPlace): Said {
  switch (sound) {
    case "open":
      return phrase("open", "散音");
    case "harmonic":
      return phrase(`harmonic ${position}`, `泛音${placeInCharacters(position ?? 1)}`);
    case "stopped":
      return phrase(String(position), placeInCharacters(position ?? 1));
  }
}

/** What the board shows, in one or two sentences. */
export function boardDescription(places: readonly UsedPlace[], zones: readonly PictureZone[]): Phrase {
  const most = places.reduce<UsedPlace | null>((a, b) => (a === null || b.uses > a.uses ? b : a), null);
  const odd = new Set(zones.flatMap((zone) => zone.odd.map(({ string }) => string)));
  const often =
    most === null
      ? phrase("The piece uses no place.", "本曲未用任何音位。")
      : phraseOf({
          en: (say) =>
            `The piece uses ${count(places.length, "place")}; the most used is string ${most.string}, ${say(usedPlaceWords(most))}, ${count(most.uses, "time")}.`,
          zh: (say) =>
            `本曲用到${places.length}个音位；用得最多的是${stringInCharacters(most.string)}${say(usedPlaceWords(most))}，${most.uses}次。`,
        });
  return phraseOf({
    en: (say) =>
      `${say(often)} ${count(odd.size, "string")} of seven ${odd.size === 1 ? "is" : "are"} odd in some part of the board.`,
    zh: (say) => `${say(often)}七弦中有${odd.size}根在某一区域与众不同。`,
  });
}

/** Where the left hand is at a moment: "73.3 thumb", "open", "harmonic 55". */
function touchWords({ places }: PictureMoment): Said {
  if (places.length === 0) return DASH;
  return joined(
    places.map(({ sound, cm, finger }) =>
      sound === "open"
        ? phrase("open", "散")
        : sound === "harmonic"
          ? phrase(`harmonic ${cm}`, `泛${cm}`)
          : phraseOf({
              en: (say) => `${say(finger === null ? "" : FINGER_WORD[finger])} ${cm}`,
              zh: (say) => `${say(finger === null ? "" : FINGER_WORD[finger])}${cm}`,
            }),
    ),
    "+",
  );
}

function strokeWords({ stroke }: PictureMoment): Said {
  if (stroke === null) return "";
  const { strokes, breakEffort } = stroke;
  const names = joined(
    strokes.map((one) => phrase(one, strokeCharacter(one))),
    phrase(" ", ""),
  );
  const all =
    strokes.length > 1 ? phraseOf({ en: (say) => `(${say(names)})`, zh: (say) => `（${say(names)}）` }) : names;
  if (breakEffort === 0) return all;
  return phraseOf({
    en: (say) => `${say(all)} [break ${hundredths(breakEffort)}]`,
    zh: (say) => `${say(all)}【同类${hundredths(breakEffort)}】`,
  });
}

/** One bar in words and numbers. */
export interface BarWords {
  readonly hand: Said;
  readonly travel: string;
  readonly strokes: Said;
  readonly waits: Said;
  readonly effort: string;
  readonly kinds: Said;
}

/** What the strip shows of one bar. @param moments those of the bar */
export function barWords(moments: readonly PictureMoment[], effort: Pictures["bars"][number]): BarWords {
  const plucked = moments.filter(({ stroke }) => stroke !== null);
  const waiting = [...new Set(plucked.flatMap(({ planted }) => planted ?? []))];
  return {
    hand: joined(moments.map(touchWords), COMMA),
    travel: hundredths(moments.reduce((sum, { travelCm }) => sum + travelCm, 0)),
    strokes: joined(plucked.map(strokeWords), COMMA),
    waits: joined(
      waiting.map((string) => {
        const times = plucked.filter(({ planted }) => planted === string).length;
        return phrase(`${string} (${times})`, `${stringInCharacters(string)}（${times}）`);
      }),
      COMMA,
    ),
    effort: String(effort.effort),
    kinds: joined(
      [
        ...(effort.blocked > 0 ? [phrase(`${effort.blocked} cannot be played`, `${effort.blocked}处无法演奏`)] : []),
        ...effort.kinds.map(({ kind, effort: part }) =>
          phraseOf({ en: (say) => `${say(kindWord(kind))} ${part}`, zh: (say) => `${say(kindWord(kind))}${part}` }),
        ),
      ],
      COMMA,
    ),
  };
}

/** What one row of bars shows, for those who do not see it. @param bars label and effort of each */
export function rowDescription(
  moments: readonly PictureMoment[],
  bars: readonly { readonly label: string; readonly effort: number }[],
  spanCm: number,
): Phrase {
  const travel = Math.round(moments.reduce((sum, one) => sum + one.travelCm, 0));
  const far = moments.filter(({ travelCm }) => travelCm > spanCm).length;
  const strokes = moments.flatMap(({ stroke }) => stroke ?? []);
  const breaks = strokes.filter(({ breakEffort }) => breakEffort > 0).length;
  const waits = moments.filter(({ planted }) => planted !== null).length;
  const dearest = bars.reduce((a, b) => (b.effort > a.effort ? b : a));
  const sum = bars.reduce((total, { effort }) => total + effort, 0);
  const most =
    dearest.effort === 0 ? phrase("", "") : phrase(`, most in bar ${dearest.label}`, `，第${dearest.label}小节最多`);
  return phraseOf({
    en: (say) =>
      `The left hand travels ${travel} cm, ${far === 0 ? "never" : count(far, "time")} farther than its span. ${count(strokes.length, "stroke")}, ${count(breaks, "break")}. The middle finger waits during ${count(waits, "stroke")}. Effort ${say(moves(sum))}${most.en}.`,
    zh: (say) =>
      `左手共移动${travel}厘米，其中${far}次超过手的跨度。${strokes.length}次弹弦，${breaks}处同类连弹。中指停候${waits}次。费${say(moves(sum))}${most.zh}。`,
  });
}
