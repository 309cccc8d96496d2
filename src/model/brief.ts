// SPDX-License-Identifier: AGPL-3.0-or-later
// What the arranger knows beyond the notes.
import type { GivenFingering, ThumbStrokeName } from "./fingering.js";

/** How a passage is meant: flowing music wants smooth fingering; in struggling music the awkwardness is wanted. */
export const CHARACTERS = ["flowing", "struggling"] as const;
/** One of {@link CHARACTERS}. */
export type Character = (typeof CHARACTERS)[number];

/** A span of bars by index, both ends included. */
export interface Span {
  readonly fromBar: number;
  readonly toBar: number;
  /** as the brief says it, such as "9-12" */
  readonly text: string;
}

/** A passage and how it is meant. */
export interface Passage extends Span {
  /** null where only harmonics are asked for */
  readonly character: Character | null;
  readonly reason: string | null;
  /** the passage is to be played in harmonics */
  readonly harmonics: boolean;
}

/** A rule set aside over a span, on purpose. */
export interface Acceptance extends Span {
  readonly rule: string;
  readonly reason: string;
}

/** What the brief wants for one note. */
export interface Pin {
  readonly note: string;
  readonly given: GivenFingering;
  /** where the brief says it: file and line */
  readonly place: string;
  /** the line itself */
  readonly text: string;
}

/** Parameters of rules by rule and name, in place of the book's own. */
export type Parameters = Readonly<Record<string, Readonly<Record<string, number | readonly number[]>>>>;

/** A brief, its bars and notes found in the score. */
export interface Brief {
  readonly passages: readonly Passage[];
  readonly pins: readonly Pin[];
  readonly accept: readonly Acceptance[];
  readonly parameters: Parameters;
  /** factors by rule, 1 where none is given */
  readonly weights: Readonly<Record<string, number>>;
  /** quarter notes a minute in place of the score's; null for none */
  readonly tempo: number | null;
  /** what the thumb's stroke opposite to tuo is called in readings */
  readonly thumbStroke: ThumbStrokeName;
}

/** The brief of somebody who says nothing. */
export const NO_BRIEF: Brief = {
  passages: [],
  pins: [],
  accept: [],
  parameters: {},
  weights: {},
  tempo: null,
  thumbStroke: "bo",
};
