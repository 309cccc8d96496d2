// SPDX-License-Identifier: AGPL-3.0-or-later
// When a finding is left alone on purpose: a rule accepted over a span, or awkwardness that a passage means.
import type { Brief, Span } from "../model/brief.js";
import type { Moment } from "../model/moments.js";
import type { RuleProse } from "./types.js";
import { holds, isGiven, isTaste } from "./weighting.js";

/** The moments of a finding's notes. */
export type Concerned = readonly Moment[];

/** Whether a span contains all that a finding is about; a finding on the whole line is in no span. */
function covers(span: Span, concerned: Concerned): boolean {
  return concerned.length > 0 && concerned.every((moment) => holds(span, moment));
}

/**
 * Why a finding is left alone: the reason of the acceptance that names its rule and contains all its notes, or of the
 * struggling passage that contains them, where the writer gave the fingering. Null where it stays open.
 */
export function reasonToLeave(rule: Pick<RuleProse, "id" | "kind">, concerned: Concerned, brief: Brief): string | null {
  const accepted = brief.accept.find((one) => one.rule === rule.id && covers(one, concerned));
  if (accepted !== undefined) return accepted.reason;
  if (!isTaste(rule) || !concerned.every(isGiven)) return null;
  const meant = brief.passages.find((one) => one.character === "struggling" && covers(one, concerned));
  return meant?.reason ?? null;
}
