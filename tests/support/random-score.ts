// SPDX-License-Identifier: AGPL-3.0-or-later
// Random scores of several parts and voices, written the way that notation editors write them, for comparing readers.
import * as fc from "fast-check";

/** Lengths in twelfths of a quarter note, so that sixteenths and triplets are whole numbers. */
const QUARTER = 12;

interface Value {
  readonly length: number;
  readonly type: string;
  readonly dots: number;
}

const VALUES: readonly Value[] = [
  { length: 48, type: "whole", dots: 0 },
  { length: 36, type: "half", dots: 1 },
  { length: 24, type: "half", dots: 0 },
  { length: 18, type: "quarter", dots: 1 },
  { length: 12, type: "quarter", dots: 0 },
  { length: 9, type: "eighth", dots: 1 },
  { length: 6, type: "eighth", dots: 0 },
  { length: 3, type: "16th", dots: 0 },
];
/** Written value and sounding length of the notes of a triplet. */
const TRIPLETS: readonly Value[] = [
  { length: 8, type: "quarter", dots: 0 },
  { length: 4, type: "eighth", dots: 0 },
];
const METERS = [
  { beats: 4, type: 4 },
  { beats: 3, type: 4 },
  { beats: 2, type: 4 },
  { beats: 6, type: 8 },
  { beats: 5, type: 8 },
  { beats: 7, type: 8 },
] as const;
/** Each holds sixteenths and triplets. */
const DIVISIONS = [12, 24, 480, 10_080] as const;
const TRANSPOSITIONS = [
  "",
  "",
  "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>",
  "<transpose><diatonic>2</diatonic><chromatic>3</chromatic></transpose>",
  "<transpose><diatonic>-4</diatonic><chromatic>-7</chromatic></transpose>",
  "<transpose><diatonic>0</diatonic><chromatic>0</chromatic><octave-change>-1</octave-change></transpose>",
  "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic><octave-change>-1</octave-change></transpose>",
] as const;

interface Event {
  readonly value: Value;
  /** so many notes of this value instead, in the time of two */
  readonly triplet: Value | null;
  readonly pitches: readonly VoicePitch[];
  readonly kind: "note" | "rest" | "tied";
}

/** One voice: its events are used again from the first when they run out. */
interface Voice {
  readonly events: readonly Event[];
  /** an octave sign over the first notes of each bar */
  readonly octaveSign: "up" | "down" | null;
  /** bars begin with a `<forward>` in place of a rest */
  readonly late: boolean;
}

const SEMITONES = { A: 9, B: 11, C: 0, D: 2, E: 4, F: 5, G: 7 } as const;

/** A pitch within two octaves; each voice adds its own octaves. */
interface VoicePitch {
  readonly step: keyof typeof SEMITONES;
  readonly alter: number;
  readonly octave: number;
}

const pitch: fc.Arbitrary<VoicePitch> = fc.record({
  step: fc.constantFrom(...(["A", "B", "C", "D", "E", "F", "G"] as const)),
  alter: fc.constantFrom(0, 0, 0, 1, -1),
  octave: fc.constantFrom(0, 1),
});

/** The lowest octave of the first voice and of the second: of ties at one height in two voices Verovio mixes up the ends. */
const OCTAVES = [6, 3] as const;

/** Chords hold no height twice: of a tied unison under two names Verovio mixes up the ends, too. */
const chord = fc.uniqueArray(pitch, {
  minLength: 1,
  maxLength: 3,
  selector: ({ step, alter, octave }) => 12 * octave + SEMITONES[step] + alter,
});

function pitchElement({ step, alter, octave }: VoicePitch, voice: number): string {
  const altered = alter === 0 ? "" : `<alter>${alter}</alter>`;
  return `<pitch><step>${step}</step>${altered}<octave>${octave + (OCTAVES[voice - 1] ?? 3)}</octave></pitch>`;
}

const event: fc.Arbitrary<Event> = fc.record({
  value: fc.constantFrom(...VALUES),
  triplet: fc.option(fc.constantFrom(...TRIPLETS), { freq: 6 }),
  pitches: chord,
  kind: fc.constantFrom("note", "note", "note", "rest", "tied"),
});

const voice: fc.Arbitrary<Voice> = fc.record({
  events: fc.array(event, { minLength: 1, maxLength: 7 }),
  octaveSign: fc.constantFrom(null, null, "up", "down"),
  late: fc.boolean(),
});

/** A score of one or two parts of one or two voices, with changing divisions and meters. */
export const randomScore: fc.Arbitrary<string> = fc
  .record({
    bars: fc.array(fc.record({ meter: fc.constantFrom(...METERS), divisions: fc.constantFrom(...DIVISIONS) }), {
      minLength: 1,
      maxLength: 4,
    }),
    parts: fc.array(
      fc.record({
        transpose: fc.constantFrom(...TRANSPOSITIONS),
        voices: fc.array(voice, { minLength: 1, maxLength: 2 }),
      }),
      { minLength: 1, maxLength: 2 },
    ),
  })
  .map(({ bars, parts }) => {
    const list = parts.map((_, i) => `<score-part id="P${i + 1}"><part-name>Line ${i + 1}</part-name></score-part>`);
    const music = parts.map(({ transpose, voices }, i) => {
      const writers = voices.map((one, number) => new VoiceWriter(one, number + 1));
      const measures = bars.map(({ meter, divisions }, number) => {
        const time = `<time><beats>${meter.beats}</beats><beat-type>${meter.type}</beat-type></time>`;
        const opening = number === 0 ? `${transpose}` : "";
        const clef = number === 0 ? "<clef><sign>G</sign><line>2</line></clef>" : "";
        const attributes = `<attributes><divisions>${divisions}</divisions>${time}${clef}${opening}</attributes>`;
        const length = (4 * QUARTER * meter.beats) / meter.type;
        const back = `<backup><duration>${(length * divisions) / QUARTER}</duration></backup>`;
        const lines = writers.map((writer) => writer.bar(length, divisions, number === bars.length - 1));
        return `<measure number="${number + 1}">${attributes}${lines.join(back)}</measure>`;
      });
      return `<part id="P${i + 1}">${measures.join("")}</part>`;
    });
    return `<score-partwise version="4.0"><part-list>${list.join("")}</part-list>${music.join("")}</score-partwise>`;
  });

/** Writes one voice bar by bar. */
class VoiceWriter {
  #next = 0;
  /** what the note before is tied to; null where it is not */
  #tied: readonly VoicePitch[] | null = null;

  constructor(
    readonly voice: Voice,
    readonly number: number,
  ) {}

  bar(length: number, divisions: number, last: boolean): string {
    const { octaveSign, late } = this.voice;
    let left = length;
    let music = "";
    if (late && this.#tied === null && left > QUARTER) {
      left -= QUARTER;
      music += `<forward><duration>${divisions}</duration></forward>`;
    }
    if (octaveSign !== null) music += octaveShift(octaveSign, this.number);
    let signed = octaveSign !== null;
    while (left > 0) {
      const { value, triplet, pitches, kind } = this.voice.events[this.#next++ % this.voice.events.length] as Event;
      const count = triplet !== null && left >= 3 * triplet.length ? 3 : 1;
      const fits = VALUES.find((one) => one.length <= Math.min(left, value.length)) as Value;
      const written = count === 3 && triplet !== null ? triplet : fits;
      left -= count * written.length;
      for (let i = 0; i < count; i++) {
        const ends = last && left === 0 && i === count - 1;
        music += this.#notes(
          written,
          pitches,
          ends && kind === "tied" ? "note" : kind,
          divisions,
          count === 1 ? null : i,
        );
      }
      if (signed) music += octaveShift("stop", this.number);
      signed = false;
    }
    return music;
  }

  #notes(
    value: Value,
    wished: readonly VoicePitch[],
    kind: Event["kind"],
    divisions: number,
    inTriplet: number | null,
  ): string {
    const stops = this.#tied !== null;
    const pitches = this.#tied ?? wished;
    this.#tied = kind === "tied" ? pitches : null;
    const duration = `<duration>${(value.length * divisions) / QUARTER}</duration>`;
    const ratio = "<actual-notes>3</actual-notes><normal-notes>2</normal-notes>";
    const modified = inTriplet === null ? "" : `<time-modification>${ratio}</time-modification>`;
    const shape = `<voice>${this.number}</voice><type>${value.type}</type>${"<dot/>".repeat(value.dots)}${modified}`;
    const tuplet = inTriplet === 0 ? "start" : inTriplet === 2 ? "stop" : null;
    const sign = tuplet === null ? "" : `<tuplet type="${tuplet}" number="${this.number}"/>`;
    if (kind === "rest" && !stops) return `<note><rest/>${duration}${shape}<notations>${sign}</notations></note>`;
    const ends = [...(stops ? ["stop"] : []), ...(kind === "tied" ? ["start"] : [])];
    const tie = ends.map((type) => `<tie type="${type}"/>`).join("");
    const tied = ends.map((type) => `<tied type="${type}"/>`).join("");
    return pitches
      .map((one, i) => {
        const notations = `<notations>${i === 0 ? sign : ""}${tied}</notations>`;
        return `<note>${i === 0 ? "" : "<chord/>"}${pitchElement(one, this.number)}${duration}${tie}${shape}${notations}</note>`;
      })
      .join("");
  }
}

function octaveShift(type: string, number: number): string {
  return `<direction><direction-type><octave-shift type="${type}" size="8" number="${number}"/></direction-type><voice>${number}</voice></direction>`;
}
