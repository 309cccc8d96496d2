// SPDX-License-Identifier: AGPL-3.0-or-later
// A line that may be fingered in any way, what is given for it among the others: searched once, whoever asks.
import type { Choice } from "../candidates/candidates.js";
import { type Opened, openedUp } from "../candidates/opened.js";
import type { Setting } from "../model/setting.js";
import type { Rule } from "../rule/types.js";
import type { Weighting } from "../rule/weighting.js";
import { type Searched, search } from "../search/solve.js";

/** What a line was searched with. */
export interface LineTerms {
  readonly setting: Setting;
  readonly rules: readonly Rule[];
  readonly weighting: Weighting;
  /** what the given fingering leaves to choose from */
  readonly choices: readonly Choice[];
}

/** The line opened up, and its search. */
export interface OpenLine {
  readonly opened: Opened;
  readonly searched: Searched;
}

/** Opens a line up and searches it. */
export function openLine({ setting, rules, weighting, choices }: LineTerms): OpenLine {
  const opened = openedUp(choices, setting, rules);
  return { opened, searched: search(opened.choices, setting, rules, { weighting }) };
}
