// SPDX-License-Identifier: AGPL-3.0-or-later
// Another kind of sound: the notes of a finding that ring as open strings or harmonics, sounded otherwise.
import type { Left, Placed } from "../../model/playing.js";
import type { Searched } from "../../search/solve.js";
import type { Finding } from "../check.js";
import { fingeringRemedy, freedAt } from "./fingering.js";
import { momentsOfFinding, type Remediable, type Remedy } from "./line.js";

/**
 * The cheapest line in which the open strings and harmonics of a finding are no longer those; null where that does not
 * take the finding away.
 */
export function otherSound(finding: Finding, line: Remediable): Remedy | null {
  const ringingAt = (at: number): readonly Placed[] =>
    (line.played.lefts[at]?.placed ?? []).filter(({ sound }) => sound !== "stopped");
  const concerned = momentsOfFinding(finding, line.played.moments).filter((at) => ringingAt(at).length > 0);
  let searched: Searched = freedAt(concerned, line);
  for (const at of concerned) {
    const ringing = ringingAt(at);
    searched = searched.tolling(at, {
      left: (left) => (sharesSound(left, ringing) ? Number.POSITIVE_INFINITY : 0),
      right: () => 0,
    });
    if (!Number.isFinite(searched.solution.weight)) return null;
  }
  return concerned.length > 0 ? fingeringRemedy(searched.solution, finding, line) : null;
}

/** A harmonic gives way to another sound altogether, an open string to any other place. */
function sharesSound(left: Left, ringing: readonly Placed[]): boolean {
  return left.placed.some((placed) =>
    ringing.some(
      ({ sound, string, note }) =>
        placed.note === note && placed.sound === sound && (sound === "harmonic" || placed.string === string),
    ),
  );
}
