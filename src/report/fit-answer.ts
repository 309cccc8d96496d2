// SPDX-License-Identifier: AGPL-3.0-or-later
// The answer of `fit`, and how it came about.
import { joined, type Phrase, phrase, phraseOf, type Said } from "../words.js";
import type { Asked, Fit, FitEntry, FitJson } from "./fit.js";
import { count, effortReading } from "./wording.js";

/** A setting in a few words, such as "in standard tuning, a fifth lower". */
function settingWords({ json, tuning, transposition }: FitEntry): Phrase {
  const strings = tuningWords(json.tuning, tuning);
  return phraseOf({
    en: (say) => `in ${strings.en}, ${say(transposition)}`,
    zh: (say) => `用${strings.zh}、${say(transposition)}`,
  });
}

function tuningWords(name: string, { title, characters, simplified }: FitEntry["tuning"]): Phrase {
  if (name === "zhengdiao") return phrase("standard tuning", "正调");
  return characters === ""
    ? phrase(`the tuning ${name}`, `定弦${name}`)
    : phrase(`${title} tuning`, `${simplified}定弦`);
}

/** What a setting costs, in words. */
function costWords({ json }: FitEntry): Phrase {
  const { blocked, effort } = json.total;
  if (blocked > 0)
    return phrase(
      `${count(blocked, "place")} cannot be played, and the rest costs ${moves(effort)}`,
      `有${blocked}处不能弹，其余费${hundredths(effort)}空动`,
    );
  const reading = effortReading(json.effortPerNote);
  const each = hundredths(json.effortPerNote);
  return phrase(
    `${moves(effort)}, ${each} a note: ${reading.en}`,
    `${hundredths(effort)}空动，每音${each}：${reading.zh}`,
  );
}

const hundredths = (value: number): string => String(Math.round(value * 100) / 100);
const moves = (effort: number): string => `${hundredths(effort)} spare ${effort === 1 ? "move" : "moves"}`;

/**
 * The best setting; beside it the best one that needs no retuning and the setting of the call.
 *
 * @param entries the best first; of none nothing could be compared
 */
export function answerWords(entries: readonly FitEntry[], written: FitEntry): Pick<Fit, "sentence" | "beside"> {
  const [best] = entries;
  if (best === undefined)
    return {
      sentence: phrase(
        "No setting can be compared: in none of them do the pins of the brief sound.",
        "没有可比较的设置：编配说明所指定的音在任何一种设置里都弹不出来。",
      ),
      beside: "",
    };
  const sentence = bestWords(best);
  if (isSame(best, written))
    return { sentence, beside: phrase("That is the setting of this call already.", "这正是本次所用的设置。") };
  const ready = entries.find(({ json }) => json.retune.length === 0) ?? written;
  const own = { place: settingWords(written), cost: costWords(written) };
  const others = [
    ...(isSame(ready, best) || isSame(ready, written) ? [] : [readyWords(ready)]),
    phrase(`${upper(own.place.en)}: ${own.cost.en}.`, `${own.place.zh}：${own.cost.zh}。`),
  ];
  return { sentence, beside: joined(others, phrase(" ", "")) };
}

function bestWords(best: FitEntry): Phrase {
  const [place, moving, cost] = [settingWords(best), moved(best), costWords(best)];
  const playable = best.json.total.blocked === 0;
  const lead = playable ? "It lies best" : "No setting makes all of it playable; it goes best";
  return phrase(
    `${lead} ${place.en}${moving.en} (${cost.en}).`,
    `${playable ? "" : "没有一种设置能全部弹出；"}${place.zh}${moving.zh}最合适（${cost.zh}）。`,
  );
}

function readyWords(ready: FitEntry): Phrase {
  const { transposition } = ready;
  const [moving, cost] = [moved(ready), costWords(ready)];
  return phraseOf({
    en: (say) => `Without retuning it lies best ${say(transposition)}${moving.en}: ${cost.en}.`,
    zh: (say) => `不改定弦时，${say(transposition)}${moving.zh}最合适：${cost.zh}。`,
  });
}

const isSame = (a: FitEntry, b: FitEntry): boolean =>
  a.json.tuning === b.json.tuning && a.json.transpose === b.json.transpose;

function moved({ json: { octaveMoves } }: FitEntry): Phrase {
  const n = octaveMoves.length;
  return n === 0 ? phrase("", "") : phrase(`, with ${count(n, "phrase")} moved by an octave`, `，其中${n}句移八度，`);
}

const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** What was compared, and what the order is by. */
export function compared({ searched }: FitJson, { tunings, keepKey, octaves }: Asked): readonly Said[] {
  const range = keepKey
    ? phrase("the written key and its octaves, two up and two down", "原调及其上下各两个八度")
    : phrase("two octaves up and two down, by semitones", "上下各两个八度、逐半音");
  const { settings, exact, skipped } = searched;
  return [
    phrase(
      `Compared: ${count(settings, "setting")}, ${count(tunings.length, "tuning")} in ${range.en}.`,
      `共比较${settings}种设置：${tunings.length}种定弦，${range.zh}。`,
    ),
    phrase(
      `${exact} were searched to the end; the other ${skipped} were given up as soon as they could not be among those shown, so the order is exact.`,
      `其中${exact}种搜索到底；其余${skipped}种一旦确定进不了下表就停止，因此次序是准确的。`,
    ),
    phrase(
      "First comes what has the fewest places that cannot be played, then the least effort; of equals the fewest strings retuned, then the smallest transposition.",
      "先看不能弹之处最少，再看最省力；相同时取改弦最少的，再取移调最小的。",
    ),
    ...(octaves
      ? [
          phrase(
            "A phrase with notes below the lowest string or above hui 4 of the highest may move by one octave, if that leaves fewer of its notes there; it moves where the whole then costs less. Phrases end at rests, fermatas and long slurs, else every four bars.",
            "一句中若有音低于最低弦或高于最高弦的四徽，而移一个八度后这样的音更少，就可以移；全曲因此更省力时才移。乐句以休止、延长记号和长连线为界，否则每四小节一句。",
          ),
        ]
      : []),
  ];
}

/** A fingering that the score gives, which is kept; nothing where it gives none. */
export function keptWords({ notes }: Asked["score"]): readonly Said[] {
  const given = notes.filter(({ given: { sound, string, stroke } }) => sound ?? string ?? stroke).length;
  if (given === 0) return [];
  return [
    phrase(
      `The score gives a fingering for ${count(given, "note")}. It is kept in every setting, as check keeps it, though elsewhere it may not sound the notes: compare the score without it to rank the melody alone.`,
      `乐谱给出了${given}个音的指法。每种设置都像huipath check那样保留它，尽管换了设置未必弹得出原音；若只想为旋律本身排序，请用不带指法的乐谱。`,
    ),
  ];
}
