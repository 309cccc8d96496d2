// SPDX-License-Identifier: AGPL-3.0-or-later
// Findings that need no words of their own, in short: by rule, with their places by bar.
import type { FindingJson, RuleText } from "../src/report.js";
import { joined, type Phrase, phrase, type Said } from "../src/words.js";

interface BarView {
  /** "bar 5, beat" or "; bar 5, beats"; for the whole line nothing more than what parts it from the one before */
  readonly label: Said;
  readonly places: readonly { readonly before: Said; readonly href: string; readonly text: Said }[];
}

/** One rule with its places. */
export interface CompactView {
  readonly title: Said;
  readonly bars: readonly BarView[];
}

/** What is left alone for one reason; `P` is a place with its message. */
export interface LeftAloneView<P> {
  /** "Bars 5 to 8"; "The whole line" where nothing narrower is meant */
  readonly where: Said;
  readonly reason: string;
  readonly rules: readonly CompactView[];
  readonly places: readonly P[];
}

/** The address of a finding's bar on the page; empty for the whole line. */
export type HrefOf = (finding: FindingJson) => string;

/** Things by a key, the keys in the order in which they first come. */
function grouped<T, K>(things: readonly T[], keyOf: (thing: T) => K): ReadonlyMap<K, readonly T[]> {
  const groups = new Map<K, T[]>();
  for (const thing of things) {
    const key = keyOf(thing);
    groups.set(key, [...(groups.get(key) ?? []), thing]);
  }
  return groups;
}

/** Findings by rule, the rules in the order in which they first come. */
export function compactly(
  findings: readonly FindingJson[],
  rules: readonly RuleText[],
  hrefOf: HrefOf,
): readonly CompactView[] {
  return [...grouped(findings, ({ rule }) => rule)].map(([rule, own]) => ({
    title: rules.find(({ id }) => id === rule)?.title ?? rule,
    bars: [...grouped(own, ({ bar }) => bar)].map(([bar, there], i) =>
      viewBar(bar, there, { before: i === 0 ? "" : phrase("; ", "；"), hrefOf }),
    ),
  }));
}

function viewBar(
  bar: string | null,
  findings: readonly FindingJson[],
  { before, hrefOf }: { readonly before: Said; readonly hrefOf: HrefOf },
): BarView {
  const label =
    bar === null
      ? before
      : joined([before, phrase(`bar ${bar}, ${findings.length === 1 ? "beat" : "beats"} `, `第${bar}小节第`)]);
  const places = findings.map((finding, i) => ({
    before: i === 0 ? "" : phrase(", ", "、"),
    href: hrefOf(finding),
    text: finding.beat === null ? phrase("the whole line", "全曲") : phrase(finding.beat, `${finding.beat}拍`),
  }));
  return { label, places };
}

/** What is left alone on purpose, one block for each reason. */
export function viewLeftAlone<P>(
  findings: readonly FindingJson[],
  rules: readonly RuleText[],
  hrefOf: HrefOf,
  place: (finding: FindingJson) => P,
): readonly LeftAloneView<P>[] {
  const accepted = findings.filter(({ status }) => status === "accepted");
  return [...grouped(accepted, ({ reason }) => reason ?? "")].map(([reason, own]) => ({
    where: barsOf(own),
    reason,
    rules: compactly(own, rules, hrefOf),
    places: own.map(place),
  }));
}

/** From the first to the last bar of findings in order of the melody. */
function barsOf(findings: readonly FindingJson[]): Phrase {
  const bars = findings.flatMap(({ bar }) => bar ?? []);
  const [first, last] = [bars[0], bars.at(-1)];
  if (first === undefined) return phrase("The whole line", "全曲");
  return first === last
    ? phrase(`Bar ${first}`, `第${first}小节`)
    : phrase(`Bars ${first} to ${last}`, `第${first}至${last}小节`);
}
