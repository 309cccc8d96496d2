// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Setting } from "../model/setting.js";
import type { LocalRuleBody, Parameter, PassageRule, RuleEntry, RuleProse } from "./types.js";

/** Values of a rule's parameters: single numbers and rows of a table, by name. */
export type Values<P extends Readonly<Record<string, Parameter>>> = {
  readonly [K in keyof P]: P[K]["default"] extends number ? number : readonly number[];
};

/**
 * Makes an entry of the rule book from its words and a body that is built once for each setting.
 *
 * @param prose words, parameters and examples
 * @param body  the body for a setting; `values` are the parameters by name
 */
export function defineRule<const P extends Readonly<Record<string, Parameter>>>(
  prose: Omit<RuleProse, "parameters"> & { readonly parameters: P },
  body: (values: Values<P>, setting: Setting) => LocalRuleBody | PassageRule,
): RuleEntry {
  const usual = Object.fromEntries(Object.entries(prose.parameters).map(([name, p]) => [name, p.default])) as Values<P>;
  return { prose, make: (setting, own = {}) => ({ ...prose, ...body({ ...usual, ...own }, setting) }) };
}

/** A number of a message: at most `digits` decimals, no trailing zeros. @example plain(0.30000001) // "0.3" */
export function plain(value: number, digits = 1): string {
  return String(Math.round(value * 10 ** digits) / 10 ** digits);
}
