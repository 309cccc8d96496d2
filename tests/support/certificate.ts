// SPDX-License-Identifier: AGPL-3.0-or-later
// Checks a certificate without a search: it asks the slow evaluator what each move costs, and compares.
import type { Choice } from "../../src/candidates/candidates.js";
import { countOfRights, type Left, type Right, rightAt } from "../../src/model/playing.js";
import type { Setting } from "../../src/model/setting.js";
import { type CertificateJson, strokeEntry } from "../../src/report/certificate.js";
import { weigh } from "../../src/rule/cost.js";
import type { Rule } from "../../src/rule/types.js";
import { costAt, faultsAt } from "./evaluator.js";

/** One pair of hands with what the certificate says of the rest of the line. */
interface Pair {
  readonly left: Left;
  readonly right: Right;
  readonly rest: number;
  readonly chosen: boolean;
}

/** What is wrong with a certificate; empty where it proves its total. */
export function faultsInCertificate(
  certificate: CertificateJson,
  choices: readonly Choice[],
  setting: Setting,
  rules: readonly Rule[],
): readonly string[] {
  const pairs = choices.map((choice, at) => pairsOf(choice, certificate, at));
  if (pairs.some((here) => here.length === 0)) return ["it does not list the hands and strokes that there are"];
  const faults = new Set<string>();
  const judge = (at: number, falls: number, costs: number, chosen: boolean): void => {
    if (falls > costs) faults.add(`moment ${at}: a move costs less than the potential falls by`);
    if (chosen && falls !== costs) faults.add(`moment ${at}: the chosen move costs more than the potential falls by`);
  };
  const cost = new Costs(choices, setting, rules);
  for (const to of pairs[0] ?? []) judge(0, certificate.total, cost.of(0, null, to) + to.rest, to.chosen);
  for (let at = 1; at < pairs.length; at++)
    for (const from of pairs[at - 1] as readonly Pair[])
      for (const to of pairs[at] as readonly Pair[])
        judge(at, from.rest, cost.of(at, from, to) + to.rest, from.chosen && to.chosen);
  if (pairs.at(-1)?.some(({ rest }) => rest !== 0)) faults.add("something is left after the last moment");
  if (pairs.some((here) => here.filter(({ chosen }) => chosen).length !== 1)) faults.add("it does not choose one line");
  return [...faults];
}

/** Every pair of hands of a moment with its entry; none where the certificate leaves out hands or strokes. */
function pairsOf(
  { lefts, plucked, rights }: Choice,
  { moments, strokes }: CertificateJson,
  at: number,
): readonly Pair[] {
  const { hands, chosen } = moments[at] as CertificateJson["moments"][number];
  const offered = [...rights.keys()].filter((id) => rights[id] === 1).map(rightAt);
  const named = new Map(ALL_RIGHTS().map((right) => [JSON.stringify(strokeEntry(right)), right]));
  const pairs = lefts.map((left, l) => {
    const listed = hands[l]?.strokes.map((number) => named.get(JSON.stringify(strokes[number])) as Right) ?? [];
    // A note without a pluck keeps the stroke it hangs on, which was offered before.
    const wanted = l < plucked ? offered.filter((right) => right.strings === left.strings) : listed;
    if (wanted.some((right) => !listed.includes(right))) return [];
    return listed.map((right, j) => ({
      left,
      right,
      rest: hands[l]?.rest[j] ?? Number.POSITIVE_INFINITY,
      chosen: chosen[0] === l && chosen[1] === j,
    }));
  });
  return pairs.some((own) => own.length === 0) ? [] : pairs.flat();
}

const ALL_RIGHTS = (): readonly Right[] => Array.from({ length: countOfRights() }, (_, id) => rightAt(id));

/** What moves cost by the slow evaluator: the hands' part and the strokes' part are each asked once. */
class Costs {
  private readonly known = new Map<string, number>();
  private readonly ids = new Map<Left, number>();

  constructor(
    private readonly choices: readonly Choice[],
    private readonly setting: Setting,
    private readonly rules: readonly Rule[],
  ) {}

  of(at: number, from: Pair | null, to: Pair): number {
    const line = this.lineOf(at, from, to);
    const chained = to.left.chain > 0;
    if (chained && from?.right !== to.right) return Number.POSITIVE_INFINITY;
    const key = `${at} ${this.id(from?.left)} ${this.id(to.left)}`;
    const hands = this.once(`hands ${key}`, () => {
      if (chained && faultsAt(line, at, this.setting).length > 0) return Number.POSITIVE_INFINITY;
      return weigh(
        costAt(
          line,
          at,
          this.rules.filter(({ reach }) => reach === "hand-move" || reach === "place"),
        ),
      );
    });
    if (chained) return hands;
    const strokes = this.once(`strokes ${at} ${from?.left.chain} ${from?.right.id} ${to.right.id}`, () =>
      weigh(
        costAt(
          line,
          at,
          this.rules.filter(({ reach }) => reach === "strike" || reach === "stroke-move"),
        ),
      ),
    );
    return hands + strokes;
  }

  private once(key: string, ask: () => number): number {
    const known = this.known.get(key) ?? ask();
    this.known.set(key, known);
    return known;
  }

  private id(left: Left | undefined): number {
    if (left === undefined) return -1;
    const known = this.ids.get(left) ?? this.ids.size;
    this.ids.set(left, known);
    return known;
  }

  /** A line that ends in this move: before it the hand has hung on its pluck as long as it says. */
  private lineOf(at: number, from: Pair | null, to: Pair) {
    const lefts: Left[] = [];
    const rights: Right[] = [];
    if (from !== null) {
      const pluck = at - 1 - from.left.chain;
      for (let i = pluck; i < at; i++) {
        lefts[i] = i === pluck && from.left.chain > 0 ? { ...from.left, arrival: "plucked" } : from.left;
        rights[i] = from.right;
      }
    }
    lefts[at] = to.left;
    rights[at] = to.right;
    return { moments: this.choices.map(({ moment }) => moment), lefts, rights };
  }
}
