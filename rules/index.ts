// SPDX-License-Identifier: AGPL-3.0-or-later
// The rule book, in the order in which a teacher checks. Adding a rule: its file, and one line here.

import type { RuleBook } from "../src/rule/types.js";
import knot from "./character/knot.js";
import knotInSong from "./character/knot-in-song.js";
import alternateStrokes from "./efficiency/alternate-strokes.js";
import crossedHand from "./efficiency/crossed-hand.js";
import dampedNeighbour from "./efficiency/damped-neighbour.js";
import fingerAndPlace from "./efficiency/finger-and-place.js";
import handShift from "./efficiency/hand-shift.js";
import retainedFinger from "./efficiency/retained-finger.js";
import strainedHand from "./efficiency/strained-hand.js";
import stringLeap from "./efficiency/string-leap.js";
import strokeAndString from "./efficiency/stroke-and-string.js";
import tipAndJoint from "./efficiency/tip-and-joint.js";
import clashingResonance from "./idiom/clashing-resonance.js";
import colourSwitching from "./idiom/colour-switching.js";
import fadingNote from "./idiom/fading-note.js";
import fewOpenStrings from "./idiom/few-open-strings.js";
import foreignOrnament from "./idiom/foreign-ornament.js";
import growingNote from "./idiom/growing-note.js";
import hardToFindPosition from "./idiom/hard-to-find-position.js";
import loneHarmonic from "./idiom/lone-harmonic.js";
import overloadedPluck from "./idiom/overloaded-pluck.js";
import passedOverOpenString from "./idiom/passed-over-open-string.js";
import plainRepetition from "./idiom/plain-repetition.js";
import pluckedSlur from "./idiom/plucked-slur.js";
import semitoneChain from "./idiom/semitone-chain.js";
import strayPosition from "./idiom/stray-position.js";
import tooFast from "./idiom/too-fast.js";
import travelUnderSound from "./idiom/travel-under-sound.js";
import unaskedHarmonic from "./idiom/unasked-harmonic.js";
import unaskedSlide from "./idiom/unasked-slide.js";
import wanderingFigure from "./idiom/wandering-figure.js";
import wanderingUnison from "./idiom/wandering-unison.js";
import commaBetweenUnisons from "./intonation/comma-between-unisons.js";
import harmonicOffPitch from "./intonation/harmonic-off-pitch.js";
import writtenPlaceMismatch from "./intonation/written-place-mismatch.js";
import assumedTempo from "./notation/assumed-tempo.js";
import partialLine from "./notation/partial-line.js";
import staleAcceptance from "./notation/stale-acceptance.js";
import stringsCountedBackwards from "./notation/strings-counted-backwards.js";
import tunedOtherwise from "./notation/tuned-otherwise.js";
import unreadFingering from "./notation/unread-fingering.js";
import aboveTheBoard from "./range/above-the-board.js";
import belowTheStrings from "./range/below-the-strings.js";
import thinRegister from "./range/thin-register.js";
import tooManyVoices from "./range/too-many-voices.js";

/** All rules. */
export const RULES: RuleBook = [
  belowTheStrings,
  aboveTheBoard,
  tooManyVoices,
  stringsCountedBackwards,
  tunedOtherwise,
  writtenPlaceMismatch,
  harmonicOffPitch,
  commaBetweenUnisons,
  strayPosition,
  unaskedHarmonic,
  loneHarmonic,
  passedOverOpenString,
  fewOpenStrings,
  hardToFindPosition,
  fingerAndPlace,
  handShift,
  crossedHand,
  wanderingUnison,
  wanderingFigure,
  travelUnderSound,
  tipAndJoint,
  colourSwitching,
  overloadedPluck,
  pluckedSlur,
  unaskedSlide,
  semitoneChain,
  alternateStrokes,
  plainRepetition,
  strokeAndString,
  stringLeap,
  retainedFinger,
  dampedNeighbour,
  clashingResonance,
  tooFast,
  fadingNote,
  growingNote,
  foreignOrnament,
  thinRegister,
  strainedHand,
  knot,
  knotInSong,
  unreadFingering,
  partialLine,
  assumedTempo,
  staleAcceptance,
];
