// SPDX-License-Identifier: AGPL-3.0-or-later
import { RULES } from "../../rules/index.js";
import type { Brief } from "../model/brief.js";
import type { Setting } from "../model/setting.js";
import type { Rule } from "../rule/types.js";

/** The rule book made for a setting, with the brief's numbers. */
export function bookFor(setting: Setting, brief: Brief): readonly Rule[] {
  return RULES.map((entry) => entry.make(setting, brief.parameters[entry.prose.id]));
}
