// SPDX-License-Identifier: AGPL-3.0-or-later
// The melody as it is to sound: plain data, made once and played in Node and in the page.

/** How the left hand leaves the string: free, stopped by a nail or by flesh, or touched lightly. */
export const TOUCHES = ["open", "nail", "flesh", "harmonic"] as const;
/** One of {@link TOUCHES}. */
export type Touch = (typeof TOUCHES)[number];

/** What sets the string going: a stroke of the right hand, or a left finger that pulls off or taps. */
export const ATTACKS = ["bo", "tuo", "mo", "tiao", "gou", "ti", "da", "zhai", "pull", "tap"] as const;
/** One of {@link ATTACKS}. */
export type AttackKind = (typeof ATTACKS)[number];

/** Ornaments that bend one tone: into the place from below or above, swings about it, flicks away from it. */
export const BENDS = ["chuo", "zhu", "yin", "nao", "zhuang", "dou", "huan"] as const;
/** One of {@link BENDS}. */
export type Bend = (typeof BENDS)[number];

/** The finger slides on: the pitch that it reaches, and when. Seconds after the tone's beginning, at the written tempo. */
export interface Slide {
  readonly at: number;
  readonly hz: number;
}

/** An ornament from a moment of the tone to another. Seconds after the tone's beginning, at the written tempo. */
export interface Bent {
  readonly at: number;
  readonly until: number;
  readonly bend: Bend;
}

/** One sound of one string, from its attack to the moment when the string is stopped or struck again. */
export interface Tone {
  /** seconds from the start at the written tempo */
  readonly at: number;
  /** seconds later by the hand alone, which no slower tempo stretches: the rolls of a compound stroke */
  readonly after: number;
  /**
   * when a finger stops it, in seconds after its beginning at the written tempo; null where it rings until its string is
   * struck again
   */
  readonly until: number | null;
  /** 1 (lowest) to 7 */
  readonly string: number;
  readonly touch: Touch;
  readonly attack: AttackKind;
  /** what sounds */
  readonly hz: number;
  readonly slides: readonly Slide[];
  readonly bends: readonly Bent[];
}

/** One written note, to be followed in the score. */
export interface LineNote {
  readonly id: string;
  /** index into {@link SoundLine.bars} */
  readonly bar: number;
  readonly beat: string;
  /** seconds from the start at the written tempo */
  readonly at: number;
  readonly lasts: number;
}

/** A melody as it is to sound. */
export interface SoundLine {
  /** open strings 1 to 7 in Hz */
  readonly strings: readonly number[];
  /** in order of time */
  readonly tones: readonly Tone[];
  /** in order of time */
  readonly notes: readonly LineNote[];
  readonly bars: readonly { readonly label: string; readonly at: number }[];
  /** quarter notes a minute at the start; null where the score gives none */
  readonly quartersPerMinute: number | null;
  /** end of the last written note or rest, in seconds at the written tempo */
  readonly seconds: number;
}
