// SPDX-License-Identifier: AGPL-3.0-or-later
// Where one finding about the whole line explains others: a fingering that was read wrongly looks like a row of faults.
import type { Finding } from "./check.js";

/**
 * The findings, those that only follow from another one named as such. What is left alone on purpose stays so, and of
 * several explanations the first in the book counts.
 */
export function tracedToCauses(findings: readonly Finding[]): readonly Finding[] {
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
