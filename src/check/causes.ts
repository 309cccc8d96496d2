// SPDX-License-Identifier: AGPL-3.0-or-later
// Where one finding about the whole line explains others: a fingering that was read wrongly looks like a row of faults.
import type { Explained, RuleKind } from "../rule/types.js";

/** As much of a finding as tells what explains it. */
interface Traced {
  readonly rule: string;
  readonly kind: RuleKind;
  readonly notes: readonly string[];
  readonly status: "open" | "accepted";
  readonly explains: Explained | null;
  readonly followsFrom: string | null;
}

/**
 * The findings, those that only follow from another one named as such. What is left alone on purpose stays so, and of
 * several explanations the first in the book counts.
 */
export function tracedToCauses<F extends Traced>(findings: readonly F[]): readonly F[] {
  const causes = findings.flatMap(({ rule, explains }) =>
    explains === null ? [] : [{ rule, kinds: new Set(explains.kinds), notes: new Set(explains.notes) }],
  );
  if (causes.length === 0) return findings;
  return findings.map((finding) => {
    const { kind, notes, status } = finding;
    const cause = causes.find((one) => one.kinds.has(kind) && notes.every((note) => one.notes.has(note)));
    const follows = cause !== undefined && status === "open" && notes.length > 0;
    return follows ? { ...finding, followsFrom: cause.rule } : finding;
  });
}
