// SPDX-License-Identifier: AGPL-3.0-or-later
// What speaks for a setting and against it, in plain sentences.
import { ORDINARY_STOP_SEMITONES } from "../model/board.js";
import { pitchName, spell } from "../model/pitch.js";
import type { Left, MissingCause } from "../model/playing.js";
import type { Setting } from "../model/setting.js";
import { transpositionWords } from "../model/transposition-words.js";
import { STANDARD } from "../model/tuning.js";
import type { Standing } from "../search/ranking.js";
import { joined, type Phrase, phrase, phraseOf, type Said } from "../words.js";
import type { FitSettingJson } from "./fit.js";
import type { LineFigures } from "./places.js";
import { count } from "./wording.js";

/** The reasons, what cannot be played first, then how it lies, then what it takes to get there. */
export function reasonsFor(
  standing: Standing,
  figures: LineFigures,
  json: Omit<FitSettingJson, "reasons">,
): readonly Said[] {
  return [
    ...blockedWords(standing),
    openWords(figures),
    huiWords(figures),
    patternWords(figures),
    ...rangeWords(standing.setting, figures),
    ...json.octaveMoves.map(moveWords),
    keyWords(standing.setting, json.key),
    retuneWords(standing.setting),
  ];
}

const CAUSE: Readonly<Record<MissingCause, Phrase>> = {
  below: phrase("below the lowest string", "低于最低弦"),
  above: phrase("above the highest sound of the board", "高于琴面最高的音"),
  voices: phrase("too many at once", "同时发声过多"),
  given: phrase("impossible as they are written", "照所写无法演奏"),
};

function blockedWords({ played, total }: Standing): readonly Phrase[] {
  if (total.blocked === 0) return [];
  const missing = played.lefts.flatMap((left: Left) => left.missing);
  const causes = (Object.keys(CAUSE) as MissingCause[]).flatMap((cause) => {
    const n = missing.filter((one) => one.cause === cause).length;
    return n === 0 ? [] : [phrase(`${n} ${CAUSE[cause].en}`, `${n}个${CAUSE[cause].zh}`)];
  });
  const others = total.blocked - missing.length;
  const all = joined(causes, phrase(", ", "，"));
  return [
    ...(missing.length === 0
      ? []
      : [
          phrase(
            `${count(missing.length, "note")} cannot be played: ${all.en}.`,
            `有${missing.length}个音不能弹：${all.zh}。`,
          ),
        ]),
    ...(others <= 0
      ? []
      : [phrase(`${count(others, "more place")} cannot be played as it stands.`, `另有${others}处照此无法演奏。`)]),
  ];
}

const be = (n: number, one: string, many: string): string => (n === 1 ? one : many);

function openWords({ open, notes }: LineFigures): Phrase {
  if (open === 0) return phrase("No note is an open string.", "没有一个音是散音。");
  return phrase(
    `${open} of ${count(notes, "note")} ${be(open, "is an open string", "are open strings")}.`,
    `${notes}个音中有${open}个是散音。`,
  );
}

function huiWords({ onHui, harmonics }: LineFigures): Phrase {
  const sung =
    harmonics === 0
      ? phrase("", "")
      : phrase(
          ` ${count(harmonics, "note")} ${be(harmonics, "is a harmonic", "are harmonics")}.`,
          `有${harmonics}个音是泛音。`,
        );
  const stopped =
    onHui === 0
      ? phrase("No note is stopped right at a stud (hui).", "没有一个按音正在徽上。")
      : phrase(
          `${count(onHui, "note")} ${be(onHui, "is", "are")} stopped right at a stud (hui).`,
          `有${onHui}个按音正在徽上。`,
        );
  return joined([stopped, sung]);
}

function patternWords({ offPattern, gong }: LineFigures): Phrase {
  if (offPattern === 0)
    return phrase(`No stop leaves the five-tone scale on ${gong}.`, `没有按音离开以${gong}为宫的五声音阶。`);
  return phrase(
    `${count(offPattern, "stop")} ${be(offPattern, "leaves", "leave")} the five-tone scale on ${gong}.`,
    `有${offPattern}个按音离开以${gong}为宫的五声音阶。`,
  );
}

function rangeWords({ tuning }: Setting, { lowest, highest }: LineFigures): readonly Phrase[] {
  const low = Math.min(...tuning.semitones);
  const ceiling = Math.max(...tuning.semitones) + ORDINARY_STOP_SEMITONES;
  const [bottom, top] = [pitchName(lowest.sounding), pitchName(highest.sounding)];
  const foot =
    lowest.semitone === low
      ? phrase(`The lowest note, ${bottom}, is the lowest string.`, `最低音${bottom}正是最低的弦。`)
      : phrase(`It sounds from ${bottom} up to ${top}.`, `实际音域从${bottom}到${top}。`);
  const limit = spell(ceiling);
  const thin =
    highest.semitone > ceiling
      ? [
          phrase(
            `The highest note, ${top}, lies above ${limit}, where even the highest string sounds thin.`,
            `最高音${top}高于${limit}，那里连最高的弦也显单薄。`,
          ),
        ]
      : [];
  return [foot, ...thin];
}

function moveWords({ bars, octaves }: FitSettingJson["octaveMoves"][number]): Phrase {
  const many = bars.includes("-");
  const up = octaves > 0;
  return phrase(
    `The phrase in ${many ? "bars" : "bar"} ${bars} is played an octave ${up ? "higher" : "lower"}.`,
    `第${bars}小节的乐句${up ? "高" : "低"}八度演奏。`,
  );
}

function keyWords({ transpose }: Setting, key: Said): Phrase {
  const moved = transpositionWords(transpose);
  if (transpose.semitones === 0)
    return phraseOf({
      en: (say) => `The key stays as written: ${say(key)}.`,
      zh: (say) => `调性照原谱：${say(key)}。`,
    });
  return phraseOf({
    en: (say) => `The melody sounds ${say(moved)} than written, in ${say(key)}.`,
    zh: (say) => `旋律比原谱${say(moved)}，为${say(key)}。`,
  });
}

/** How the strings are tuned from the standard tuning. */
function retuneWords({ tuning }: Pick<Setting, "tuning">): Phrase {
  if (tuning.name === STANDARD.name) return phrase("The standard tuning: no string is retuned.", "正调：不必改弦。");
  return phraseOf({
    en: (say) => `To tune: ${say(tuning.change)}.`,
    zh: (say) => `改弦：${say(tuning.change)}。`,
  });
}
