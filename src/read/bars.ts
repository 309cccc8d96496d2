// SPDX-License-Identifier: AGPL-3.0-or-later
// The bars of a part: labels, lengths, meter, key, pickups, repeat signs and endings.
import type { Key as MusicKey, Time } from "musicxml-interfaces";
import type { Bar, Key, Meter } from "../model/score.js";
import { type Quarters, quarters, ZERO } from "../model/time.js";
import { phrase } from "../words.js";
import { musicxml, parseAttributes, parseBarline } from "./bridge.js";
import type { PartElements } from "./document.js";
import type { UnreadList } from "./unread.js";
import type { Placed, WalkedPart } from "./walk.js";
import { child, children, type XmlElement } from "./xml.js";

const NO_KEY: Key = { fifths: 0, mode: null };

/** What the elements of one bar say about it. */
interface BarFacts {
  meter: Meter | null;
  key: Key;
  repeatStart: boolean;
  repeatTimes: number | null;
  endings: readonly number[];
}

/** How far the bars of a part reach, given whether a bar may be longer than it reaches in this part. */
export type Reaches = (wanted: (bar: number) => boolean) => readonly Quarters[];

/**
 * Builds the bars of a part.
 *
 * @param staff   the staff whose key and meter count where staves differ
 * @param aligned the bars' lengths, with those of other parts where this one does not fill its meter
 */
export function readBars(
  part: PartElements,
  walked: WalkedPart,
  staff: string,
  aligned: Reaches,
  unread: UnreadList,
): Bar[] {
  const byBar = part.bars.map((): Placed[] => []);
  for (const one of walked.placed) byBar[one.bar]?.push(one);
  const facts = barFacts(byBar, walked.lengths, staff, unread);
  const reaches = aligned((bar) => {
    const full = fullLength((facts[bar] as BarFacts).meter);
    return full === null || (walked.lengths[bar] as Quarters).compare(full) < 0;
  });
  const bars: Bar[] = [];
  let onset = ZERO;
  for (const [index, { measure }] of part.bars.entries()) {
    const fact = facts[index] as BarFacts;
    const full = fullLength(fact.meter);
    const reach = withoutLongRests(byBar[index] as Placed[], reaches[index] as Quarters, full);
    const length = reach.n === 0n && full !== null ? full : reach;
    const firstBeat = firstBeatOf(index, part, length, full, bars.at(-1), fact.meter);
    const label = measure.getAttribute("text")?.trim() || measure.getAttribute("number")?.trim() || String(index + 1);
    bars.push({ index, label, onset, length, firstBeat, ...fact });
    onset = onset.add(length);
  }
  return bars;
}

/** How long a bar of a meter is; null in free time. */
function fullLength(meter: Meter | null): Quarters | null {
  return meter === null ? null : quarters(4 * meter.beats, meter.beatType);
}

/**
 * A bar that only its whole-bar rests make longer than its meter is as long as that: some editors write every such rest as
 * a whole note.
 */
function withoutLongRests(here: readonly Placed[], reach: Quarters, full: Quarters | null): Quarters {
  if (full === null || reach.compare(full) <= 0) return reach;
  const notes = here.filter((one) => one.element.nodeName === "note");
  const isWholeBar = ({ element }: Placed): boolean => child(element, "rest")?.getAttribute("measure") === "yes";
  const fits = notes.every((one) => isWholeBar(one) || one.at.add(one.duration).compare(full) <= 0);
  return fits && notes.some(isWholeBar) ? full : reach;
}

/** A short bar begins late when it opens the piece, or when it completes the short bar before it. */
function firstBeatOf(
  index: number,
  part: PartElements,
  length: Quarters,
  full: Quarters | null,
  before: Bar | undefined,
  meter: Meter | null,
): Quarters {
  const one = quarters(1);
  if (full === null || meter === null || length.compare(full) >= 0) return one;
  const missing = full.sub(length);
  const late = one.add(missing.mul(quarters(meter.beatType, 4)));
  if (before !== undefined)
    return before.length.equals(missing) && before.firstBeat.equals(one) && before.length.n !== 0n ? late : one;
  const measure = part.bars[index]?.measure;
  const marked = measure?.getAttribute("implicit") === "yes" || measure?.getAttribute("number") === "0";
  return marked || part.bars.length > 1 ? late : one;
}

function barFacts(
  byBar: readonly (readonly Placed[])[],
  lengths: readonly Quarters[],
  staff: string,
  unread: UnreadList,
): readonly BarFacts[] {
  const signatures = new Signatures(staff, unread);
  const endings = new EndingBrackets();
  return byBar.map((here, bar) => {
    const changes = here.filter((one) => one.element.nodeName === "attributes");
    for (const { element } of changes.filter((one) => one.at.n === 0n)) signatures.read(element, bar);
    const barlines = here.filter((one) => one.element.nodeName === "barline").map((one) => one.element);
    const fact = {
      meter: signatures.meter,
      key: signatures.key,
      ...repeatsOf(barlines),
      endings: endings.over(barlines),
    };
    // A change in the middle of a bar holds for the bars behind it.
    for (const { element, at } of changes.filter((one) => one.at.n !== 0n)) {
      const signed = signatures.read(element, bar);
      if (signed && at.compare(lengths[bar] as Quarters) < 0) unread.add("signatureWithin", bar);
    }
    for (const barline of barlines) tellBarline(barline, bar, unread);
    return fact;
  });
}

function tellBarline(barline: XmlElement, bar: number, unread: UnreadList): void {
  if (child(barline, "fermata") !== null) unread.add("barlineFermata", bar);
  for (const name of ["segno", "coda"])
    if (child(barline, name) !== null || barline.getAttribute(name) !== null) unread.addOnce("jump", bar, name);
  for (const repeat of children(barline, "repeat"))
    if (repeat.getAttribute("direction") === "backward") unread.addOnce("jump", bar, phrase("repeat sign", "反复号"));
  for (const ending of children(barline, "ending"))
    if (ending.getAttribute("type") === "start") {
      const number = (ending.getAttribute("number") ?? "").slice(0, 20);
      unread.addOnce("jump", bar, phrase(`ending ${number}`.trim(), `第${number}结尾`));
    }
}

/** Meter and key in force on one staff. */
class Signatures {
  meter: Meter | null = null;
  key: Key = NO_KEY;

  constructor(
    readonly staff: string,
    readonly unread: UnreadList,
  ) {}

  /** @returns whether there was one for this staff */
  read(element: XmlElement, bar: number): boolean {
    const parsed = parseAttributes(element);
    const time = this.#ownIndex(element, "time");
    if (time !== null) this.#readMeter(parsed.times?.[time], bar);
    const key = this.#ownIndex(element, "key");
    if (key !== null) this.#readKey(parsed.keySignatures?.[key], bar);
    return time !== null || key !== null;
  }

  /** Which of several per-staff signatures holds: the staff's own, else one for all staves. */
  #ownIndex(element: XmlElement, name: string): number | null {
    const numbers = children(element, name).map((one) => one.getAttribute("number"));
    const index = numbers.includes(this.staff) ? numbers.indexOf(this.staff) : numbers.indexOf(null);
    return index < 0 ? null : index;
  }

  #readMeter(time: Time | undefined, bar: number): void {
    this.meter = null;
    if (time === undefined || time.senzaMisura !== undefined) return;
    const beats = time.beats ?? [];
    const types = time.beatTypes ?? [];
    const plain = beats.every((text) => /^\d{1,3}(\s*\+\s*\d{1,3})*$/.test(text));
    const known = types.every((type) => Number.isInteger(type) && type > 0 && type <= 1024);
    if (!plain || !known || beats.length === 0 || beats.length !== types.length) {
      this.unread.add("meterUnusual", bar);
      return;
    }
    // Several fractions (2/4 + 3/8) are added in units of the smallest.
    const beatType = types.reduce((a, b) => Math.max(a, b));
    const total = beats.reduce((sum, text, i) => sum + (sumOf(text) * beatType) / (types[i] as number), 0);
    if (Number.isInteger(total) && total > 0) this.meter = { beats: total, beatType };
    else this.unread.add("meterUnusual", bar);
  }

  #readKey(key: MusicKey | undefined, bar: number): void {
    const fifths = key?.fifths;
    if (fifths === undefined || !Number.isInteger(fifths) || Math.abs(fifths) > 14) {
      this.unread.add("keyUnusual", bar);
      this.key = NO_KEY;
      return;
    }
    const mode = key?.mode?.trim().toLowerCase();
    this.key = { fifths, mode: mode === undefined || mode === "" || mode === "none" ? null : mode };
  }
}

function sumOf(text: string): number {
  return text.split("+").reduce((sum, part) => sum + Number(part), 0);
}

function repeatsOf(barlines: readonly XmlElement[]): Pick<BarFacts, "repeatStart" | "repeatTimes"> {
  const repeats = barlines.flatMap((barline) => parseBarline(barline).repeat ?? []);
  const back = repeats.find((repeat) => repeat.direction === musicxml.DirectionTypeBg.Backward);
  const times = Number(back?.times ?? 2);
  return {
    repeatStart: repeats.some((repeat) => repeat.direction === musicxml.DirectionTypeBg.Forward),
    repeatTimes: back === undefined ? null : Number.isInteger(times) && times > 0 ? times : 2,
  };
}

/** Follows volta brackets from bar to bar. Their numbers are read from the text: "1, 2" is two numbers. */
class EndingBrackets {
  #open: readonly number[] = [];

  over(barlines: readonly XmlElement[]): readonly number[] {
    let here = this.#open;
    for (const barline of barlines)
      for (const ending of children(barline, "ending"))
        if (ending.getAttribute("type") === "start") {
          here = (ending.getAttribute("number") ?? "").match(/\d{1,4}/g)?.map(Number) ?? [];
          this.#open = here;
        } else this.#open = [];
    const backward = barlines.some((barline) => child(barline, "repeat")?.getAttribute("direction") === "backward");
    if (backward) this.#open = [];
    return here;
  }
}
