// SPDX-License-Identifier: AGPL-3.0-or-later
// The rule book, in the order in which a teacher checks. Adding a rule: its file, and one line here.
import type { RuleBook } from "../src/rule/types.js";
import alternateStrokes from "./efficiency/alternate-strokes.js";

/** All rules. */
export const RULES: RuleBook = [alternateStrokes];
