// SPDX-License-Identifier: AGPL-3.0-or-later
// The rule book, in the order in which a teacher checks. Adding a rule: its file, and one line here.
import type { RuleBook } from "../src/rule/types.js";
import alternateStrokes from "./efficiency/alternate-strokes.js";
import crossedHand from "./efficiency/crossed-hand.js";
import handShift from "./efficiency/hand-shift.js";
import retainedFinger from "./efficiency/retained-finger.js";
import stringLeap from "./efficiency/string-leap.js";
import tipAndJoint from "./efficiency/tip-and-joint.js";

/** All rules. */
export const RULES: RuleBook = [alternateStrokes, crossedHand, handShift, tipAndJoint, stringLeap, retainedFinger];
