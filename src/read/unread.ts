// SPDX-License-Identifier: AGPL-3.0-or-later
// What a score holds beyond the melody, collected while reading and told once per kind.
import type { Bar, Unread } from "../model/score.js";
import { inWords, joined, type Phrase, phrase, phraseOf, type Said } from "../words.js";

/** One of a kind, several of it, and what became of it; in Chinese the kind behind its number, and the same. */
type Wording = readonly [one: string, several: string, fate: string, inChinese: string, fateInChinese: string];

const WORDINGS = {
  jump: [
    "a repeat or jump is",
    "repeats or jumps are",
    "not followed: the music is read once, as printed",
    "个反复或跳跃记号",
    "没有照走：乐谱按印出的顺序只读一遍",
  ],
  cue: ["a cue note is", "cue notes are", "left out", "个提示小音符", "略去不读"],
  unpitched: ["a note without pitch is", "notes without pitch are", "left out", "个没有音高的音符", "略去不读"],
  chordSymbol: ["a chord symbol is", "chord symbols are", "not part of the melody", "个和弦标记", "不属于旋律"],
  figuredBass: ["a figured bass is", "figured basses are", "not part of the melody", "处数字低音", "不属于旋律"],
  looseWedge: [
    "a crescendo or diminuendo wedge without both ends at notes of this voice is",
    "crescendo or diminuendo wedges without both ends at notes of this voice are",
    "not read",
    "个渐强或渐弱号",
    "两端不全落在本声部的音上，没有读入",
  ],
  pedal: ["a pedal mark is", "pedal marks are", "not read", "个踏板记号", "没有读入"],
  barlineFermata: [
    "a fermata on a barline is",
    "fermatas on barlines are",
    "not read",
    "个小节线上的延长记号",
    "没有读入",
  ],
  // The notes that such a sign stands for belong into the file (MusicXML 4.0, measure-repeat), but some editors omit them.
  emptyRepeat: [
    "a bar with a repeat sign in place of its notes is",
    "bars with repeat signs in place of their notes are",
    "read without them: write the notes out to have them fingered",
    "个用反复记号代替音符的小节",
    "读时没有这些音：要配指法，请把音写出来",
  ],
  hidden: [
    "a note that is not printed is",
    "notes that are not printed are",
    "read, as editors play what is hidden",
    "个没有印出的音符",
    "照样读入，因为打谱软件会播放隐藏的音",
  ],
  slashed: [
    "a note or passage in slashes or crosses is",
    "notes or passages in slashes or crosses are",
    "read with the pitches that the file gives",
    "处斜线或叉形符头",
    "按文件里的音高读",
  ],
  heldPitch: [
    "a harmonic that is written where the string is held or touched is",
    "harmonics that are written where the string is held or touched are",
    "read as if that pitch sounded",
    "个写在按弦处或触弦处的泛音",
    "按所写音高发声来读",
  ],
  graceTime: [
    "a grace note that adds time is",
    "grace notes that add time are",
    "read as taking no time",
    "个占时值的装饰音",
    "按不占时值来读",
  ],
  restMark: ["a mark on a rest is", "marks on rests are", "not read", "个休止符上的记号", "没有读入"],
  otherMark: ["a playing mark is", "playing marks are", "not read", "个演奏记号", "没有读入"],
  fretted: [
    "a string number beside a fret is",
    "string numbers beside frets are",
    "not read: another instrument is meant",
    "个与品位写在一起的弦号",
    "没有读入：那是写给别的乐器的",
  ],
  signatureWithin: [
    "a key or time signature within a bar is",
    "key or time signatures within bars are",
    "read from the next bar on",
    "个写在小节中间的调号或拍号",
    "从下一小节起才读入",
  ],
  swing: [
    "a swing rhythm is",
    "swing rhythms are",
    "not applied: durations are as written",
    "处摇摆节奏",
    "没有采用：时值照所写",
  ],
  timeOnly: [
    "a note for one repeat only is",
    "notes for one repeat only are",
    "read as if always played",
    "个只在某一遍反复时才奏的音",
    "按每遍都奏来读",
  ],
  tempoTimeOnly: [
    "a tempo for a repeat only is",
    "tempos for repeats only are",
    "not read",
    "个只在某一遍反复时才用的速度",
    "没有读入",
  ],
  doubled: [
    "an octave doubling of the part is",
    "octave doublings of the part are",
    "not read: only the written line is",
    "处整个声部的八度重叠",
    "没有读入：只读写出的这一行",
  ],
  scordatura: [
    "a string tuning in the score is",
    "string tunings in the score are",
    "not read: choose one with --tuning",
    "处谱上的定弦",
    "没有读入：请用--tuning选定",
  ],
  tempoWithoutNumber: [
    "a metronome mark without a plain number is",
    "metronome marks without a plain number are",
    "not read",
    "个没有单一数字的速度记号",
    "没有读入",
  ],
  keyUnusual: [
    "a key signature that is not in the circle of fifths is",
    "key signatures that are not in the circle of fifths are",
    "read as no sharps or flats",
    "个不在五度圈里的调号",
    "按没有升降号来读",
  ],
  meterUnusual: [
    "a time signature that is no plain number is",
    "time signatures that are no plain number are",
    "read as free time",
    "个不是单纯数字的拍号",
    "按自由节拍来读",
  ],
  octaveShiftUnusual: [
    "an octave sign of an unknown size is",
    "octave signs of an unknown size are",
    "not read",
    "个大小不明的八度记号",
    "没有读入",
  ],
  looseTie: [
    "a tie that meets no note of its pitch in this voice is",
    "ties that meet no note of their pitch in this voice are",
    "not read",
    "条延音线",
    "在本声部没有同音高的音可连，没有读入",
  ],
  looseSlur: [
    "a slur without its other end in this voice is",
    "slurs without their other end in this voice are",
    "not read",
    "条连线",
    "在本声部缺了另一端，没有读入",
  ],
  looseSlide: [
    "a slide that leads to no note of this voice is",
    "slides that lead to no note of this voice are",
    "not read",
    "个滑音记号",
    "在本声部没有通向的音，没有读入",
  ],
  looseWords: [
    "a text beside no note of this voice is",
    "texts beside no note of this voice are",
    "not read",
    "处文字",
    "旁边没有本声部的音，没有读入",
  ],
  backupBeyond: [
    "a step back before the start of its bar is",
    "steps back before the start of their bar are",
    "read as the bar's start",
    "处退到小节开头之前的回退",
    "按小节开头来读",
  ],
  overlap: [
    "a note that begins while another of its voice sounds is",
    "notes that begin while another of their voice sounds are",
    "read as written",
    "个音",
    "在同声部的前音未止时就开始，照所写读入",
  ],
  noDivisions: [
    "a bar without divisions is",
    "bars without divisions are",
    "read with one division to the quarter note",
    "个没有写明时值单位的小节",
    "按每个四分音符一个单位来读",
  ],
  otherDirection: [
    "a playing direction of another kind is",
    "playing directions of other kinds are",
    "not read",
    "个别种演奏提示",
    "没有读入",
  ],
} as const satisfies Readonly<Record<string, Wording>>;

/** A kind of thing that is not read. */
export type UnreadKind = keyof typeof WORDINGS;

const NAMED_AT_MOST = 3;
const BARS_NAMED_AT_MOST = 12;

interface Found {
  readonly bar: number;
  readonly detail: Said | null;
}

/** Collects what was not read. Each kind becomes one line, with its count and its bars. */
export class UnreadList {
  readonly #found = new Map<UnreadKind, Found[]>();
  readonly #whole: Said[] = [];
  readonly #once = new Set<string>();

  /**
   * @param bar    index of the bar
   * @param detail what exactly: the first few are quoted
   */
  add(kind: UnreadKind, bar: number, detail: Said | null = null): void {
    const list = this.#found.get(kind);
    if (list === undefined) this.#found.set(kind, [{ bar, detail }]);
    else list.push({ bar, detail });
  }

  /** The same, if it was not told of that bar before. */
  addOnce(kind: UnreadKind, bar: number, detail: Said): void {
    const key = `${kind} ${bar} ${inWords(detail, "en")}`;
    if (this.#once.has(key)) return;
    this.#once.add(key);
    this.add(kind, bar, detail);
  }

  /** A sentence on the whole score, told once. */
  addWhole(what: Said): void {
    const isTold = this.#whole.some((one) => inWords(one, "en") === inWords(what, "en"));
    if (!isTold) this.#whole.push(what);
  }

  /** The lines, in order of their first bar. @param keeps whether a bar, by its index, is among those read */
  lines(bars: readonly Bar[], keeps: (bar: number) => boolean): Unread[] {
    const kept = [...this.#found]
      .map(([kind, all]) => ({ kind, found: all.filter((one) => keeps(one.bar)).sort((a, b) => a.bar - b.bar) }))
      .filter(({ found }) => found.length > 0)
      .sort((a, b) => (a.found[0] as Found).bar - (b.found[0] as Found).bar);
    return [
      ...this.#whole.map((what) => ({ bar: null, what })),
      ...kept.map(({ kind, found }) => ({
        bar: bars[(found[0] as Found).bar]?.label ?? null,
        what: sentence(WORDINGS[kind], found, bars),
      })),
    ];
  }
}

function sentence(
  [one, several, fate, inChinese, fateInChinese]: Wording,
  found: readonly Found[],
  bars: readonly Bar[],
): Phrase {
  const details = new Map(found.flatMap(({ detail }) => (detail === null ? [] : [[inWords(detail, "en"), detail]])));
  const quoted = [...details.values()].slice(0, NAMED_AT_MOST).map(quotedDetail);
  const more = details.size > NAMED_AT_MOST ? [phrase("...", "等")] : [];
  const list = joined([joined(quoted, phrase(", ", "、")), ...more], phrase(", ", ""));
  const named =
    quoted.length === 0 ? "" : phraseOf({ en: (say) => ` (${say(list)})`, zh: (say) => `（${say(list)}）` });
  const places = placesOf(found, bars);
  return phraseOf({
    en: (say) =>
      found.length === 1
        ? `${one} ${fate}${say(named)}`
        : `${found.length} ${several} ${fate}, ${say(places)}${say(named)}`,
    zh: (say) => `${found.length === 1 ? "" : say(places)}有${found.length}${inChinese}${say(named)}，${fateInChinese}`,
  });
}

const quotedDetail = (detail: Said): Phrase =>
  phraseOf({ en: (say) => `"${say(detail)}"`, zh: (say) => `“${say(detail)}”` });

/** Where all of a kind are. */
function placesOf(found: readonly Found[], bars: readonly Bar[]): Phrase {
  const all = [...new Set(found.map(({ bar }) => bar))].map((bar) => bars[bar]?.label ?? String(bar + 1));
  const [first] = all;
  if (all.length === 1) return phrase(`${found.length === 2 ? "both" : "all"} in bar ${first}`, `第${first}小节`);
  const more = all.length - BARS_NAMED_AT_MOST;
  const labels = all.slice(0, BARS_NAMED_AT_MOST);
  const inChinese = `第${labels.join("、")}小节${more > 0 ? `等${all.length}小节` : ""}`;
  const last = more > 0 ? `${more} more` : labels.pop();
  return phrase(`in bars ${labels.join(", ")} and ${last}`, inChinese);
}
