// SPDX-License-Identifier: AGPL-3.0-or-later
// The findings part of the page: one entry per rule with all its places, so that a long list stays calm.
import type { EngravedMusic } from "../src/engrave/music.js";
import type { CheckJson, FindingJson, Report, RuleText } from "../src/report.js";
import type { Severity } from "../src/rule/types.js";
import { isSame, joined, type Phrase, phrase, phraseOf, type Said } from "../src/words.js";
import { anchor, barAnchors } from "./anchors.js";
import { type CompactView, compactly, type HrefOf, type LeftAloneView, viewLeftAlone } from "./check-compact.js";
import { type ExcerptsOf, type ExcerptView, excerptsFrom } from "./check-excerpts.js";
import { type FilterView, hasClasses, viewFilter } from "./check-filter.js";
import type { NoteMark } from "./check-score.js";
import { type SwapOf, type SwapView, swapsFrom } from "./check-swap.js";
import {
  count,
  effectOf,
  hundredths,
  KINDS,
  moves,
  placeWords,
  SEVERITY_PLACES,
  SEVERITY_WORD,
  WORST_FIRST,
} from "./words.js";

/** Places of an entry that stand open, the worst ones; the others unfold. Both in order of the melody. */
const OPEN_PLACES = 3;

/** What was computed for a place; both empty where nothing was. */
interface AnswerView {
  /** that no fingering helps, if so */
  readonly unavoidable: Said;
  /** the change that helps and what the line then costs */
  readonly remedy: Said;
  /** the words before it */
  readonly lead: Said;
  readonly swap: readonly SwapView[];
}

/** Places of one severity. */
interface CountView {
  readonly severity: Severity;
  /** "3 places", or "3" behind other counts */
  readonly places: Said;
  readonly word: Said;
}

interface PlaceView {
  readonly id: string;
  readonly where: Said;
  /** empty for a finding on the whole line */
  readonly href: string;
  readonly severity: Severity;
  readonly word: Said;
  readonly message: Said;
  /** the price with what it is a part of; empty when nothing is charged */
  readonly cost: Said;
  readonly answer: AnswerView;
  /** why it is left alone; empty without */
  readonly reason: string;
}

/** An open place that stands by itself. */
interface OpenPlaceView extends PlaceView {
  readonly excerpts: readonly ExcerptView[];
  /** indices of its first and last bar, "4-5", or "all" */
  readonly bars: string;
  /** links to the places before and after it in the melody; empty for none */
  readonly previous: string;
  readonly next: string;
}

interface EntryView {
  readonly id: string;
  readonly number: number;
  readonly title: Said;
  /** the worst of its places */
  readonly severity: Severity;
  /** class names that say which severities its places have */
  readonly has: string;
  readonly counts: readonly CountView[];
  readonly effect: Said;
  readonly why: Said;
  /** the one answer for all its places, which then have none of their own; empty where they differ */
  readonly shared: readonly AnswerView[];
  readonly remedy: Said;
  readonly principle: Said;
  readonly whenRight: Said;
  readonly shown: readonly OpenPlaceView[];
  readonly folded: readonly OpenPlaceView[];
  readonly foldedHas: string;
  readonly foldedLabel: Said;
  /** findings that only follow from this one; empty for none */
  readonly following: readonly CompactView[];
  readonly followingPlaces: readonly PlaceView[];
  readonly followingLabel: Said;
}

type Following = Pick<EntryView, "following" | "followingPlaces" | "followingLabel">;

/** What the findings template prints. */
export interface FindingsView {
  readonly groups: readonly {
    readonly title: Said;
    readonly about: Said;
    readonly kind: string;
    readonly has: string;
    readonly entries: readonly EntryView[];
  }[];
  readonly accepted: readonly LeftAloneView<PlaceView>[];
  readonly unsure: readonly PlaceView[];
  /** open findings that stand by themselves by severity, worst first, those with none left out */
  readonly counts: readonly CountView[];
  readonly marks: ReadonlyMap<string, NoteMark>;
  readonly filter: FilterView;
  /** the bars of the findings were left out, since the page would be too large */
  readonly bare: boolean;
}

/** What places are printed with. */
interface Means {
  readonly json: CheckJson;
  readonly hrefOf: HrefOf;
  readonly swapOf: SwapOf;
}

/**
 * Groups and numbers the findings.
 *
 * @param bare leaves out the bars of the findings
 */
export function viewFindings(report: Report, music: EngravedMusic, bare = false): FindingsView {
  const order = placeOrder(report);
  const inOrder = [...report.json.findings].sort((a, b) => order(a) - order(b));
  const open = inOrder.filter(({ status, followsFrom }) => status === "open" && followsFrom === null);
  const hrefOf = barHrefs(report);
  const means: Means = { json: report.json, hrefOf, swapOf: swapsFrom(report, music) };
  const place = (finding: FindingJson): PlaceView => viewPlace(finding, means);
  const standing = standingPlaces(report, open, bare ? () => [] : excerptsFrom(report, music));
  const openPlace = (finding: FindingJson): OpenPlaceView => ({ ...place(finding), ...standing(finding) });
  const quiet = (finding: FindingJson): PlaceView => ({ ...place(finding), reason: "" });
  const followers = (cause: string): Following => {
    const following = inOrder.filter(({ followsFrom }) => followsFrom === cause);
    return {
      following: compactly(following, report.rules, hrefOf),
      followingPlaces: following.map(place),
      followingLabel: phrase(
        `${count(following.length, "more finding")} that only ${following.length === 1 ? "follows" : "follow"} from this`,
        `另有${following.length}处只是由此而来`,
      ),
    };
  };
  let next = 1;
  const groups = KINDS.flatMap(({ kind, title, about }) => {
    const ofKind = open.filter((finding) => finding.kind === kind);
    const rules = [...new Set(ofKind.map((finding) => finding.rule))];
    const entries = rules
      .map((rule) => ofKind.filter((finding) => finding.rule === rule))
      .sort((a, b) => rank(worst(a)) - rank(worst(b)))
      .map((list) => ({
        ...viewEntry(list, next++, report.rules, openPlace),
        ...followers((list[0] as FindingJson).rule),
      }));
    return entries.length === 0 ? [] : [{ title, about, kind, has: hasClasses(ofKind), entries }];
  });
  return {
    groups,
    accepted: viewLeftAlone(inOrder, report.rules, hrefOf, quiet),
    unsure: inOrder.filter((finding) => finding.status === "unsure").map(place),
    counts: countsOf(open),
    marks: markNotes(open, new Map(groups.flatMap(({ entries }) => entries.map((e) => [e.id, e.number] as const)))),
    filter: viewFilter(open, report.score),
    bare: bare && music.systems.length > 0,
  };
}

/** What only open places have that stand by themselves: their bars as pictures, and the way to the places beside them. */
function standingPlaces(
  { score }: Report,
  open: readonly FindingJson[],
  excerptsOf: ExcerptsOf,
): (finding: FindingJson) => Omit<OpenPlaceView, keyof PlaceView> {
  const barOf = new Map(score.notes.map(({ id, bar }) => [id, bar]));
  const order = new Map(open.map((finding, i) => [finding, i]));
  const hrefAt = (at: number): string => {
    const finding = open[at];
    return finding === undefined ? "" : `#${anchor("f", finding.id)}`;
  };
  return (finding) => {
    const bars = finding.notes.flatMap((note) => barOf.get(note) ?? []);
    const at = order.get(finding) as number;
    return {
      excerpts: excerptsOf(finding),
      bars: bars.length === 0 ? "all" : `${Math.min(...bars)}-${Math.max(...bars)}`,
      previous: hrefAt(at - 1),
      next: hrefAt(at + 1),
    };
  };
}

/** How many places each severity has, worst first, those with none left out. */
function countsOf(findings: readonly FindingJson[]): readonly CountView[] {
  const found = WORST_FIRST.filter((severity) => findings.some((finding) => finding.severity === severity));
  return found.map((severity, i) => {
    const n = findings.filter((finding) => finding.severity === severity).length;
    return {
      severity,
      places: i === 0 ? phrase(count(n, "place"), `${n}处`) : phrase(String(n), `${n}处`),
      word: SEVERITY_PLACES[severity],
    };
  });
}

const rank = (severity: Severity): number => WORST_FIRST.indexOf(severity);

function worst(findings: readonly FindingJson[]): Severity {
  return WORST_FIRST.find((severity) => findings.some((finding) => finding.severity === severity)) ?? "note";
}

/** Findings by the place of their last note in the melody; those on the whole line come first. */
function placeOrder(report: Report): (finding: FindingJson) => number {
  const index = new Map(report.score.notes.map((note, i) => [note.id, i]));
  return (finding) => index.get(finding.notes.at(-1) ?? "") ?? -1;
}

/** The link to the bar of a finding. */
function barHrefs(report: Report): HrefOf {
  const anchors = barAnchors(report.score);
  const hrefs = new Map(report.score.notes.map((note) => [note.id, `#${anchors[note.bar]}`]));
  return ({ notes, bar }) => hrefs.get(notes.at(-1) ?? "") ?? (bar === null ? "" : `#${anchor("bar", bar)}`);
}

function viewPlace(finding: FindingJson, { json, hrefOf, swapOf }: Means): PlaceView {
  return {
    id: anchor("f", finding.id),
    where: finding.bar === null ? phrase("The whole line", "全曲") : placeWords(finding.bar, finding.beat),
    href: hrefOf(finding),
    severity: finding.severity,
    word: SEVERITY_WORD[finding.severity],
    message: finding.message,
    cost: costWords(finding, json),
    answer: answerOf(finding, json, swapOf),
    reason: finding.reason ?? "",
  };
}

function costWords(finding: FindingJson, json: CheckJson): Said {
  if (finding.blocked > 0)
    return phrase("The note is left out; the line goes on without it.", "此音略去，旋律接着往下。");
  if (finding.effort === 0) return "";
  const own = moves(finding.effort);
  const all = hundredths(json.fingering.total.effort);
  return phrase(`Costs ${own.en} of the line's ${all}.`, `费${own.zh}（全曲${all}）。`);
}

const NO_ANSWER: AnswerView = { unavoidable: "", remedy: "", lead: "", swap: [] };

function answerOf(finding: FindingJson, json: CheckJson, swapOf: SwapOf): AnswerView {
  const { unavoidable, remedy } = finding;
  const none =
    remedy === null
      ? phrase(
          "No other fingering avoids this; the notes would have to change.",
          "没有别的指法可以避开；除非改动音符。",
        )
      : phrase("No other fingering avoids this.", "没有别的指法可以避开。");
  return {
    unavoidable: unavoidable ? none : "",
    remedy: remedy === null ? "" : joined([remedy.text, phrase(" ", ""), afterwards(remedy, json)]),
    lead: unavoidable
      ? phrase("A change of the music that avoids it:", "改动音乐可以避开：")
      : phrase("To avoid it here:", "此处的改法："),
    swap: swapOf(finding),
  };
}

function afterwards(remedy: NonNullable<FindingJson["remedy"]>, json: CheckJson): Phrase {
  const { total } = json.fingering;
  const then = moves(remedy.effortAfter);
  if (remedy.blockedAfter < total.blocked) {
    const left = remedy.blockedAfter;
    return left === 0
      ? phrase(`Everything can then be played, for ${then.en}.`, `这样全部都能弹，费${then.zh}。`)
      : phrase(`${count(left, "place")} still cannot be played then.`, `这样仍有${left}处不能弹。`);
  }
  const now = hundredths(total.effort);
  if (hundredths(remedy.effortAfter) === now) return phrase("The line then costs the same.", "全曲费力不变。");
  return remedy.effortAfter > total.effort
    ? phrase(
        `The line as a whole then costs more: ${then.en} instead of ${now}.`,
        `但全曲会更费力：${then.zh}，原为${now}。`,
      )
    : phrase(`The line then costs ${then.en} instead of ${now}.`, `全曲则费${then.zh}，原为${now}。`);
}

/** The answer that all places of an entry share, if there are several: it need not be read at each of them. */
function sharedAnswer(places: readonly PlaceView[]): readonly AnswerView[] {
  const [first, ...others] = places.map(({ answer }) => answer) as [AnswerView, ...AnswerView[]];
  const isShared = others.every(
    (one) => isSame(one.unavoidable, first.unavoidable) && isSame(one.remedy, first.remedy),
  );
  if (others.length === 0 || !isShared || (first.unavoidable === "" && first.remedy === "")) return [];
  return [{ ...first, lead: phrase("To avoid it at all these places:", "这些地方共同的改法：") }];
}

function viewEntry(
  list: readonly FindingJson[],
  number: number,
  rules: readonly RuleText[],
  place: (finding: FindingJson) => OpenPlaceView,
): Omit<EntryView, keyof Following> {
  const first = list[0] as FindingJson;
  const rule = rules.find(({ id }) => id === first.rule);
  const severity = worst(list);
  const open = new Set([...list].sort((a, b) => rank(a.severity) - rank(b.severity)).slice(0, OPEN_PLACES));
  const rest = list.filter((finding) => !open.has(finding));
  const places = new Map(list.map((finding) => [finding, place(finding)]));
  const shared = sharedAnswer([...places.values()]);
  const viewed = (finding: FindingJson): OpenPlaceView => {
    const own = places.get(finding) as OpenPlaceView;
    return shared.length === 0 ? own : { ...own, answer: NO_ANSWER };
  };
  const bars = [...new Set(rest.map((finding) => finding.bar))].filter((bar) => bar !== null);
  return {
    id: anchor("rule", first.rule),
    number,
    title: rule?.title ?? first.rule,
    severity,
    has: hasClasses(list),
    counts: countsOf(list),
    effect: effectOf(first.rule, first.kind),
    why: rule?.why ?? "",
    shared,
    remedy: rule?.remedy ?? "",
    principle: rule?.principle ?? "",
    whenRight: rule?.whenRight ?? "",
    shown: list.filter((finding) => open.has(finding)).map(viewed),
    folded: rest.map(viewed),
    foldedHas: hasClasses(rest),
    foldedLabel: phrase(
      `${count(rest.length, "more place")}${bars.length === 0 ? "" : `: ${bars.length === 1 ? "bar" : "bars"} ${bars.join(", ")}`}`,
      `另有${rest.length}处${bars.length === 0 ? "" : `：第${bars.join("、")}小节`}`,
    ),
  };
}

/** The mark above a note is that of its worst finding; a finding over several notes is marked on the last. */
function markNotes(open: readonly FindingJson[], numbers: ReadonlyMap<string, number>): ReadonlyMap<string, NoteMark> {
  const byNote = new Map<string, FindingJson[]>();
  for (const finding of open) {
    const note = finding.notes.at(-1);
    if (note !== undefined) byNote.set(note, [...(byNote.get(note) ?? []), finding]);
  }
  return new Map(
    [...byNote].map(([note, list]) => {
      const [first] = [...list].sort((a, b) => rank(a.severity) - rank(b.severity)) as [FindingJson];
      const entry = numbers.get(anchor("rule", first.rule)) ?? 0;
      const more = new Set(list.map((finding) => finding.rule)).size - 1;
      const word = SEVERITY_WORD[first.severity];
      const { message } = first;
      const label = phraseOf({
        en: (say) => `Finding ${entry}, ${word.en}: ${say(message)}${more === 0 ? "" : `, and ${more} more here`}`,
        zh: (say) => `发现${entry}，${word.zh}：${say(message)}${more === 0 ? "" : `（此处另有${more}条）`}`,
      });
      return [note, { severity: first.severity, entry, more, href: `#${anchor("f", first.id)}`, label }];
    }),
  );
}
