// SPDX-License-Identifier: AGPL-3.0-or-later
// Remedies that were computed: the cheapest change that takes a finding away, and what it changes.
import { type Cure, type Rule, SEVERITIES } from "../rule/types.js";
import type { Finding } from "./check.js";
import { isPinned, otherFingering } from "./remedies/fingering.js";
import { firstWay } from "./remedies/first-way.js";
import { cheapest, type Remediable, type Remedy, type Tried } from "./remedies/line.js";
import { otherOctave } from "./remedies/octave.js";
import { otherSound } from "./remedies/other-sound.js";
import { Settings } from "./remedies/setting.js";
import { slurredByTwos } from "./remedies/slur.js";
import { Tempi } from "./remedies/tempo.js";
import { Trials } from "./remedies/trials.js";

export type { Remediable, Remedy, Tried };

/** At most this many findings are worked on, the worst first; the others keep the rule's sentence. */
const MOST_REMEDIES = 120;
/** Where the writer's notes are set free each remedy is a search of its own, so fewer are made. */
const MOST_FREED = 40;

/**
 * What was tried against each open finding that stands by itself, worst findings first. A rule names the ways that are tried for it; ways that
 * leave the music as it is come first, and only where none of them helps is the music changed. Findings that are not in
 * the map were not worked on.
 */
export function remediesOf(line: Remediable): ReadonlyMap<Finding, Tried> {
  const rules = new Map(line.rules.map((rule) => [rule.id, rule]));
  const ways = waysFor(line);
  const tried = new Map<Finding, Tried>();
  let freed = 0;
  const open = line.verdicts.findings.filter((one) => one.status === "open" && one.followsFrom === null);
  const cured = open.filter(({ rule }) => curesOf(rules.get(rule)).length > 0);
  for (const finding of [...cured].sort(bySeverity).slice(0, MOST_REMEDIES)) {
    if (isPinned(finding, line) && ++freed > MOST_FREED) continue;
    tried.set(finding, ways(finding, curesOf(rules.get(finding.rule))));
  }
  return tried;
}

const bySeverity = (a: Finding, b: Finding): number => SEVERITIES.indexOf(b.severity) - SEVERITIES.indexOf(a.severity);

/** What is tried for a rule's findings: for rules that charge another fingering, if they name nothing else. */
function curesOf(rule: Rule | undefined): readonly Cure[] {
  return rule?.cures ?? (rule === undefined || rule.reach === "passage" ? [] : ["fingering"]);
}

/** The ways out of findings of one line, sharing what they search. */
function waysFor(line: Remediable): (finding: Finding, cures: readonly Cure[]) => Tried {
  const trials = new Trials(line);
  const tempi = new Tempi(trials);
  const settings = new Settings(trials);
  const byChange: Readonly<Record<Exclude<Cure, "fingering">, (finding: Finding) => Remedy | null>> = {
    "first-way": (finding) => firstWay(finding, line),
    "other-sound": (finding) => otherSound(finding, line),
    slur: (finding) => slurredByTwos(finding, trials),
    tempo: (finding) => tempi.remedy(finding),
    octave: (finding) => otherOctave(finding, trials),
    setting: (finding) => settings.remedy(finding),
  };
  return (finding, cures) => {
    const other = cures.includes("fingering") ? otherFingering(finding, line) : NOT_TRIED;
    if (other.remedy !== null) return other;
    const found = (among: readonly Cure[]): Remedy | null =>
      cheapest(
        cures.flatMap((cure) => (cure === "fingering" || !among.includes(cure) ? [] : (byChange[cure](finding) ?? []))),
      );
    return { remedy: found(SAME_MUSIC) ?? found(OTHER_MUSIC), unavoidable: other.unavoidable };
  };
}

const NOT_TRIED: Tried = { remedy: null, unavoidable: false };
const SAME_MUSIC: readonly Cure[] = ["first-way", "other-sound"];
const OTHER_MUSIC: readonly Cure[] = ["slur", "tempo", "octave", "setting"];
