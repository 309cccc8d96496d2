// SPDX-License-Identifier: AGPL-3.0-or-later
// A rule that bars what it would report: the search then finds the cheapest way around a finding.
import type {
  HandMoveRule,
  LocalRuleBody,
  PlaceRule,
  Rule,
  RuleProse,
  Severity,
  StrikeRule,
  StrokeMoveRule,
} from "../rule/types.js";

/** Charges from which on a rule without thresholds of its own reports. */
export const BY_CHARGE: readonly (readonly [number, Severity])[] = [
  [0.3, "note"],
  [0.6, "caution"],
  [1, "problem"],
];

/**
 * The severity of a number that blocks nothing; null where it is no finding.
 *
 * @param charge spare moves, raised where the passage raises them
 */
export function severityFor(
  rule: LocalRuleBody,
  measured: number,
  limit: number | null,
  charge: number,
): Exclude<Severity, "blocker"> | null {
  const beyond = (threshold: number): boolean =>
    rule.breaks === "above" ? measured > threshold : measured < threshold;
  if (limit !== null && !beyond(limit)) return null;
  const steps = rule.severities ?? BY_CHARGE;
  const passed = steps.filter(([threshold]) => (rule.severities ? beyond(threshold) : charge >= threshold - 1e-9));
  return (passed.at(-1)?.[1] as Exclude<Severity, "blocker"> | undefined) ?? null;
}

/**
 * The rule with every finding turned into a block. The number is judged where it is measured, since only there all that
 * it depends on is at hand; the answer is asked for directly afterwards.
 *
 * @param factor by which the passage raises the charge, at least 1
 */
export function strict(rule: LocalRuleBody & RuleProse, factor: number): Rule {
  let found = false;
  const judge = (measured: number, limit: number | null, charge: number): void => {
    found = severityFor(rule, measured, limit, charge * factor) !== null;
  };
  switch (rule.reach) {
    case "place": {
      const measure: PlaceRule["measure"] = (placed, missing, note, moment, left) => {
        const measured = rule.measure(placed, missing, note, moment, left);
        found = false;
        if (placed === null || Number.isNaN(measured)) return measured;
        const limit = rule.limitAt?.(placed, note, moment, left) ?? rule.limit;
        judge(measured, limit, rule.charge(measured, placed, note, moment, left));
        return measured;
      };
      return { ...rule, measure, blocks: (measured: number) => found || (rule.blocks?.(measured) ?? false) };
    }
    case "strike": {
      const measure: StrikeRule["measure"] = (right) => {
        const measured = rule.measure(right);
        judge(measured, rule.limit, Number.isNaN(measured) ? 0 : rule.charge(measured, right));
        return measured;
      };
      return { ...rule, measure, blocks: (measured: number) => found || (rule.blocks?.(measured) ?? false) };
    }
    case "hand-move": {
      const measure: HandMoveRule["measure"] = (from, to, gap) => {
        const measured = rule.measure(from, to, gap);
        judge(measured, rule.limit, Number.isNaN(measured) ? 0 : rule.charge(measured, from, to, gap));
        return measured;
      };
      const blocks: HandMoveRule["blocks"] = (measured, from, to, gap) =>
        found || (rule.blocks?.(measured, from, to, gap) ?? false);
      return { ...rule, measure, blocks };
    }
    case "stroke-move": {
      const measure: StrokeMoveRule["measure"] = (before, right, gap) => {
        const measured = rule.measure(before, right, gap);
        const limit = rule.limitAt?.(before, right) ?? rule.limit;
        judge(measured, limit, Number.isNaN(measured) ? 0 : rule.charge(measured, before, right, gap));
        return measured;
      };
      return { ...rule, measure, blocks: (measured: number) => found || (rule.blocks?.(measured) ?? false) };
    }
  }
}
