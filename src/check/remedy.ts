// SPDX-License-Identifier: AGPL-3.0-or-later
// Remedies that were computed: the cheapest line without the finding, and what it changes.
import { choicesOf } from "../candidates/candidates.js";
import { givesNothing, setFree } from "../model/fingering.js";
import type { Moment } from "../model/moments.js";
import type { Score } from "../model/score.js";
import type { Setting } from "../model/setting.js";
import { transpositionWords } from "../model/transposition-words.js";
import { type Cost, unweigh } from "../rule/cost.js";
import type { Rule } from "../rule/types.js";
import type { Weighting } from "../rule/weighting.js";
import { chargesOf, type Played } from "../search/charges.js";
import { type Searched, type Solution, search } from "../search/solve.js";
import { type Finding, readingAt, severityOf, type Verdicts } from "./check.js";
import { strict } from "./strict.js";
import { clearingTransposition } from "./transposition.js";

/** A change that removes a finding, and what the whole line costs after it. */
export interface Remedy {
  readonly text: string;
  readonly after: Cost;
}

/** A line with all that its remedies are searched with. */
export interface Remediable {
  readonly score: Score;
  readonly setting: Setting;
  readonly rules: readonly Rule[];
  readonly weighting: Weighting;
  readonly played: Played;
  readonly searched: Searched;
  readonly verdicts: Verdicts;
  /** the rule book made for another setting */
  readonly bookFor: (setting: Setting) => readonly Rule[];
}

/** At most this many findings get a remedy of their own; the others keep the rule's sentence. */
const MOST_REMEDIES = 120;
/** Where the writer's notes are set free each remedy is a search of its own, so fewer are made. */
const MOST_FREED = 40;
/** A remedy names so many changed notes; a larger change is counted. */
const NAMED_CHANGES = 4;

/**
 * The remedies of a line, by finding. A finding has none where it cannot be avoided, where its rule sees the whole line,
 * or where nothing about the fingering can change it.
 */
export function remediesOf(line: Remediable): ReadonlyMap<Finding, Remedy> {
  const remedies = new Map<Finding, Remedy>();
  const outside = line.verdicts.findings.filter((finding) => liesOutside(finding, line.played));
  const cleared =
    outside.length === 0 ? null : clearingTransposition(line.score, line.setting, line.played.moments, line.bookFor);
  if (cleared !== null)
    for (const finding of outside)
      remedies.set(finding, {
        text: `Play the whole melody ${transpositionWords(cleared.transpose)}: every note then lies on the strings.`,
        after: cleared.cost,
      });
  let freed = 0;
  const local = line.verdicts.findings.filter((finding) => finding.at !== null && finding.status === "open");
  for (const finding of local.slice(0, MOST_REMEDIES)) {
    const pinned = concerned(finding, line.played).some((moment) =>
      moment.notes.some((note) => !givesNothing(note.given)),
    );
    if (pinned && ++freed > MOST_FREED) continue;
    const remedy = remedyOf(finding, line, pinned);
    if (remedy !== null) remedies.set(finding, remedy);
  }
  return remedies;
}

/** A note below the lowest or above the highest sound. */
function liesOutside(finding: Finding, played: Played): boolean {
  const missing = finding.at === null ? [] : (played.lefts[finding.at]?.missing ?? []);
  return (
    finding.severity === "blocker" &&
    finding.kind === "range" &&
    missing.some(({ cause }) => cause === "below" || cause === "above")
  );
}

function concerned(finding: Finding, played: Played): readonly Moment[] {
  return [finding.from, finding.at].flatMap((at) => (at === null ? [] : [played.moments[at] as Moment]));
}

function remedyOf(finding: Finding, line: Remediable, pinned: boolean): Remedy | null {
  const at = finding.at as number;
  const raised = Math.max(1, line.weighting.between(finding.from ?? at, at).of(finding.rule));
  const rules = line.rules.map((rule) =>
    rule.id === finding.rule && rule.reach !== "passage" ? strict(rule, raised) : rule,
  );
  const searched = pinned ? searchFreed(finding, line) : line.searched;
  const other = searched.excepting(at, rules);
  const after = unweigh(other.weight);
  const { total } = line.verdicts;
  const avoided = finding.severity === "blocker" ? total.blocked - 1 : total.blocked;
  if (after.blocked > avoided) return null;
  const changes = changesBetween(line.played, other);
  if (changes.length === 0) return null;
  return { text: `${changeText(changes, at, line)}${worseText(changes, other, finding, line)}`, after };
}

/** The line with the finding's own notes set free from what the score gives. */
function searchFreed(finding: Finding, line: Remediable): Searched {
  const free = new Set(concerned(finding, line.played));
  const moments = line.played.moments.map((moment) =>
    free.has(moment)
      ? { ...moment, notes: moment.notes.map((note) => ({ ...note, given: setFree(note.given) })) }
      : moment,
  );
  return search(choicesOf(moments, line.setting, line.rules), line.setting, line.rules, { weighting: line.weighting });
}

/** A moment that is played in another way. */
interface Change {
  readonly at: number;
  readonly old: string;
  readonly now: string;
}

function changesBetween(played: Played, other: Solution): readonly Change[] {
  const then: Played = { moments: played.moments, lefts: other.lefts, rights: other.rights };
  return played.moments.flatMap((_, at) => {
    const old = readingAt(played, at);
    const now = readingAt(then, at);
    return old === now ? [] : [{ at, old, now }];
  });
}

function placeOf(
  at: number,
  line: Pick<Remediable, "score" | "played">,
): { readonly bar: string; readonly beat: string } {
  const note = line.played.moments[at]?.notes[0]?.source;
  return { bar: note === undefined ? "" : (line.score.bars[note.bar]?.label ?? ""), beat: note?.beat ?? "" };
}

/** The changes in words, those nearest to the finding by name; a bar is named once. */
function changeText(changes: readonly Change[], finding: number, line: Remediable): string {
  const far = (change: Change): number => Math.abs(change.at - finding);
  const nearest = new Set([...changes].sort((a, b) => far(a) - far(b)).slice(0, NAMED_CHANGES));
  let bar = "";
  const named = changes
    .filter((change) => nearest.has(change))
    .map(({ at, old, now }) => {
      const place = placeOf(at, line);
      const where = place.bar === bar ? `beat ${place.beat}` : `bar ${place.bar}, beat ${place.beat}`;
      bar = place.bar;
      return `${where}, ${now} instead of ${old || "nothing"}`;
    });
  const rest = changes.length - named.length;
  const more = rest > 0 ? `; and ${rest} more ${rest === 1 ? "note" : "notes"} with it` : "";
  return `Another way: ${named.join("; ")}${more}.`;
}

/** What the change makes worse, in words; empty where nothing new is to be found. */
function worseText(changes: readonly Change[], other: Solution, finding: Finding, line: Remediable): string {
  const then: Played = { moments: line.played.moments, lefts: other.lefts, rights: other.rights };
  const from = Math.max(0, (changes[0] as Change).at - 1);
  const to = Math.min(then.moments.length - 1, (changes.at(-1) as Change).at + 1);
  const before = new Set(line.verdicts.findings.map((one) => `${one.rule} ${one.at}`));
  const fresh = chargesOf(then, line.rules, line.weighting, from, to)
    .filter((charge) => severityOf(charge) !== null && !before.has(`${charge.rule.id} ${charge.at}`))
    .filter((charge) => charge.rule.id !== finding.rule || charge.at !== finding.at);
  const [first] = fresh;
  if (first === undefined) return "";
  const more = fresh.length > 1 ? `, and ${fresh.length - 1} more` : "";
  const place = placeOf(first.at, line);
  return ` But then: ${first.rule.title} (bar ${place.bar}, beat ${place.beat}${more}).`;
}
