// SPDX-License-Identifier: AGPL-3.0-or-later
// The words of the guide that depend on a value, shared by the page and the Markdown.
import type { Hand } from "../src/model/setting.js";
import { findTuning } from "../src/model/tuning.js";
import { unitAlone, unitInWords } from "../src/model/unit-words.js";
import { handName, temperamentName } from "../src/report/wording.js";
import { inWords, joined, type Phrase, phrase, phraseOf, type Said } from "../src/words.js";
import type { GuideJson, GuideRuleJson, ParameterJson, StepJson } from "./guide-json.js";
import { KINDS, number, SEVERITY_WORD } from "./words.js";

/** The caution that stands before the rules. */
export const STRAIN_WORDS = phrase(
  "The limits here are defaults for an assumed hand, no medical advice. Wide stretches, deep presses and long or fast repetition can hurt. Pain, numbness or tiredness is a reason to stop, and a teacher who sees the hand decides, not this book.",
  "这里的界限是按一只假定的手定的默认值，不是医学建议。大幅度的伸张、过重的按弦、长久或快速的反复都可能伤手。疼了、麻了、累了就停下；以看得见你手的老师的判断为准，不以本书为准。",
);

/** What the book is, before the first rule. */
export const ABOUT_WORDS = [
  phrase(
    "Each rule is one principle of guqin playing. huipath adds up what the rules charge, takes the cheapest fingering of a melody, and reports what a player would notice. Nothing else is charged.",
    "每条规则是弹琴的一条道理。huipath把各条规则所计的代价相加，为旋律取代价最小的指法，再报告演奏者会察觉的地方。此外不计任何代价。",
  ),
  phrase(
    "Charges are counted in spare moves: a spare move is one movement of a hand or finger that makes no sound and that an ideal line would not need. A rule is a guide, and each one says when breaking it is right.",
    "代价以空动计：手或手指做了一个不出声的动作，而理想的指法用不着它，这就是一次空动。规则只是向导，每一条都说明何时可以违反。",
  ),
  phrase(
    "Strings count from 1, the lowest and farthest from the player, to 7. Places are counted in hui, the thirteen studs along the board, and in tenths of the way to the next: 7.9 lies nine tenths of the way from hui 7 to hui 8.",
    "弦从一弦数到七弦，一弦音最低，离演奏者最远。位置用徽和分来说：琴面有十三个徽，两徽之间分作十份，七徽九分就在七徽到八徽的十分之九处。表格里写作7.9。",
  ),
] as const;

/** What a rule sees of a line. */
const REACH_WORDS: Readonly<Record<GuideRuleJson["reach"], Phrase>> = {
  place: phrase("One note as the left hand places it.", "一个音，看左手按在哪里。"),
  strike: phrase("One stroke on its string.", "在一根弦上的一次弹弦。"),
  "hand-move": phrase(
    "Two places of the left hand in a row, and the time between.",
    "左手相接的两个位置，以及其间的时间。",
  ),
  "stroke-move": phrase(
    "Two strokes in a row with the waiting finger, and the time between.",
    "相接的两次弹弦和等候的手指，以及其间的时间。",
  ),
  passage: phrase(
    "The whole line. It informs and charges nothing, since the search cannot see so far.",
    "全曲。只作提示，不计代价，因为搜索看不到这么远。",
  ),
};

/** What a rule looks at, in plain words. */
export function reachWords(rule: GuideRuleJson): Phrase {
  return REACH_WORDS[rule.reach];
}

/** The side of a threshold on which something is reported. */
type Side = "beyond" | "below" | "from";

const SIDE_IN_CHINESE: Readonly<Record<Side, string>> = { beyond: "超过", below: "低于", from: "达到" };

const COMMA = phrase(", ", "，");

/** "noticeable beyond 10 cents, a player would ask beyond 20": the unit stands once. */
function stepWords(steps: readonly StepJson[], side: Side, unit: string): Phrase {
  const parts = steps.map(({ from, severity }, at) => {
    const value = at === 0 ? amount(from, unit) : number(from);
    return phraseOf({
      en: (say) => `${say(SEVERITY_WORD[severity])} ${side} ${say(value)}`,
      zh: (say) => `${SIDE_IN_CHINESE[side]}${say(value)}为“${say(SEVERITY_WORD[severity])}”`,
    });
  });
  return joined(parts, COMMA);
}

/** A number with its unit, in the singular for one: "1 string", "2 strings", "1 s". */
function amount(value: number, unit: string): Phrase {
  const english = value === 1 ? unit.replace(/(?<=^[a-z ]{3,})s$/, "") : unit;
  return phrase(`${number(value)} ${english}`.trim(), `${number(value)}${inWords(unitInWords(unit), "zh")}`);
}

/** A sentence with the capital that an English one begins with, and a full stop. */
function sentence(words: Phrase): Phrase {
  return phrase(`${words.en.charAt(0).toUpperCase()}${words.en.slice(1)}.`, `${words.zh}。`);
}

const LIMIT_VARIES = phrase(" (some notes have a limit of their own)", "（有些音另有界限）");
const COUNTED_APART = phrase("; what cannot be played is counted apart", "；无法演奏的另计");

/** When a rule reports and how much it weighs; empty for a rule about the whole line. */
export function reportingWords(rule: GuideRuleJson): Said {
  const { reporting, unit } = rule;
  if (reporting === null) return "";
  const { limit, breaks, by, severities, blocks } = reporting;
  const side = breaks === "above" ? "beyond" : "below";
  const varies = reporting.limitVaries ? LIMIT_VARIES : "";
  const from = limit === null ? null : joined([beyond(side, amount(limit, unit ?? "")), varies]);
  if (by === "charge") return sentence(joined([chargedWords(from), blocks ? COUNTED_APART : ""]));
  const steps = stepWords(severities, side, unit ?? "");
  if (from === null || limit === severities[0]?.from) return sentence(joined([steps, varies]));
  return sentence(
    phraseOf({ en: (say) => `reported ${say(from)}: ${say(steps)}`, zh: (say) => `${say(from)}即报告：${say(steps)}` }),
  );
}

/** "beyond 2 cents" */
function beyond(side: Side, value: Phrase): Phrase {
  return phrase(`${side} ${value.en}`, `${SIDE_IN_CHINESE[side]}${value.zh}`);
}

function chargedWords(from: Phrase | null): Phrase {
  if (from === null) return phrase("by what it charges", "按所计的代价报告");
  return phrase(`${from.en}, by what it charges`, `${from.zh}时，按所计的代价报告`);
}

/** How a charge becomes a severity where a rule names no thresholds, from the first rule that does so; empty without one. */
export function chargeWords(guide: GuideJson): Said {
  const steps = guide.rules.find((rule) => rule.reporting?.by === "charge")?.reporting?.severities;
  if (steps === undefined) return "";
  return phraseOf({
    en: (say) =>
      `Where a rule names no thresholds, the charge says how much a place weighs: ${say(stepWords(steps, "from", "spare moves"))}. Smaller charges are added up but not reported.`,
    zh: (say) =>
      `没有自定界限的规则，由代价决定一处有多重：${say(stepWords(steps, "from", "spare moves"))}。更小的代价只计入总和，不报告。`,
  });
}

/** What the numbers of a hand mean. */
const HAND_WORDS: Readonly<Record<Exclude<keyof Hand, "name">, readonly [doc: Phrase, unit: string]>> = {
  frameNearCm: [
    phrase(
      "from the thumb to the ring finger, which lies nearer the nut: the least that costs nothing",
      "从大指到名指（名指靠近龙龈）：不费力的最小距离",
    ),
    "cm",
  ],
  frameFarCm: [phrase("the same: the most that costs nothing", "同上：不费力的最大距离"), "cm"],
  frameNearHighCm: [
    phrase(
      "the same: the least with the thumb above hui 7, where places lie closer",
      "同上：大指在七徽以上时的最小距离，那里音位较密",
    ),
    "cm",
  ],
  comfortableSpanCm: [phrase("the widest stretch called comfortable", "称得上舒适的最大伸张"), "cm"],
  spanLimitCm: [phrase("the widest stretch at all; beyond it the hand moves", "伸张的极限；再远就要移手"), "cm"],
  freeShiftCm: [phrase("what the hand moves along the strings without a shift", "手沿弦移动多远还不算换把"), "cm"],
  comfortableCmPerSecond: [phrase("the hand along the strings at ease", "手沿弦从容移动的速度"), "cm/s"],
  plucksPerSecond: [phrase("strokes in and out by turns at ease", "入弦、出弦交替时从容的弹速"), "plucks/s"],
  plucksPerSecondOneFinger: [
    phrase("one finger repeating its stroke at ease", "同一手指重复同一弹法时从容的弹速"),
    "plucks/s",
  ],
  plucksPerSecondWithShift: [
    phrase("plucks where each needs a shift of the left hand", "每弹一次左手都要换把时的弹速"),
    "plucks/s",
  ],
  jointAndKneelingExtra: [
    phrase("charged on top for joints and kneeling, which take practice", "用指节和跪指时另加的代价，这两种需要练习"),
    "spare moves",
  ],
};

/** The numbers of the hand that the limits hold for. */
export function handRows(hand: Hand): readonly { readonly doc: Said; readonly value: string; readonly unit: Said }[] {
  return (Object.keys(HAND_WORDS) as (keyof typeof HAND_WORDS)[]).map((name) => {
    const [doc, unit] = HAND_WORDS[name];
    return { doc, value: String(hand[name]), unit: unitAlone(unit) };
  });
}

/** What is said above the numbers of a hand. */
export function handWords({ name }: Hand): Phrase {
  return phrase(
    `Where a rule speaks of a hand, it means hand ${name}. We know of no published measures of players' hands: these are defaults of huipath, by our judgement.`,
    `规则里说到手，指的是“${handName(name)}”。我们没有见到演奏者手部尺寸的公开数据：这些是huipath的默认值，出于我们的判断。`,
  );
}

/** A parameter's value or row of values. */
export function valueWords({ default: value }: ParameterJson): string {
  return typeof value === "number" ? number(value) : value.map(number).join(", ");
}

/** Kinds of examples in plain words. */
export const EXAMPLE_WORDS: Readonly<Record<GuideRuleJson["examples"][number]["kind"], Phrase>> = {
  passes: phrase("keeps the rule", "合乎规则"),
  breaks: phrase("breaks the rule", "违反规则"),
  exception: phrase("an exception", "例外"),
};

/** What of an example's setting is not the usual; empty where all is. */
export function settingWords({ tempo, tuning, hand, temperament }: GuideRuleJson["examples"][number]): Phrase {
  const parts = [
    ...(tempo === null ? [phrase("no tempo given", "未标速度")] : []),
    ...(tempo === null || tempo === 60 ? [] : [phrase(`${tempo} beats a minute`, `每分钟${tempo}拍`)]),
    ...(tuning === "zhengdiao" ? [] : [phrase(`tuning ${tuning}`, `${tuningInChinese(tuning)}定弦`)]),
    ...(hand === "medium" ? [] : [phrase(`hand ${hand}`, handName(hand))]),
    ...(temperament === "pythagorean" ? [] : [phrase(`${temperament} temperament`, temperamentName(temperament).zh)]),
  ];
  return joined(parts, COMMA);
}

/** A tuning's name in characters; pitches as they are. */
function tuningInChinese(tuning: string): string {
  return findTuning(tuning).simplified || tuning;
}

/** Where a finding of an example stands. */
export function findingWords({ note, severity }: GuideRuleJson["examples"][number]["finds"][number]): Phrase {
  const where = note === null ? phrase("whole line", "全曲") : phrase(`note ${note}`, `第${note}个音`);
  return joined([where, SEVERITY_WORD[severity]], COMMA);
}

/** The groups that have rules, in the order of the report. */
export function groups(guide: GuideJson): readonly {
  readonly kind: string;
  readonly title: Said;
  readonly about: Said;
  readonly rules: readonly GuideRuleJson[];
}[] {
  return KINDS.map((group) => ({ ...group, rules: guide.rules.filter((rule) => rule.kind === group.kind) })).filter(
    ({ rules }) => rules.length > 0,
  );
}
