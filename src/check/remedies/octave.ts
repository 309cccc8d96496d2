// SPDX-License-Identifier: AGPL-3.0-or-later
// Another octave: of one note, or of all notes in a row that share the finding.

import { quotedReading } from "../../model/characters.js";
import { setFree } from "../../model/fingering.js";
import type { MomentNote } from "../../model/moments.js";
import { octavesUp, pitchName, semitoneOf } from "../../model/pitch.js";
import { barAndBeat } from "../../model/place-words.js";
import type { Score, ScoreNote } from "../../model/score.js";
import { transpositionWords } from "../../model/transposition-words.js";
import { joined, type Phrase, phrase, phraseOf, type Said } from "../../words.js";
import { type Finding, readingAt } from "../check.js";
import { blocksWithout, cheapest, type Remediable, type Remedy } from "./line.js";
import { fresh, remains, signsOf, worseWords } from "./signs.js";
import type { Trials } from "./trials.js";
import { placeAt } from "./words.js";

/** Notes in a row that share a finding, as ids and moments. */
interface Shared {
  readonly ids: readonly string[];
  readonly from: number;
  readonly to: number;
  /** octaves that the farthest of them is out of reach, at least 1 */
  readonly octaves: number;
  /** where the strings lie: 1 above the note, -1 below it, null where it is within reach */
  readonly side: 1 | -1 | null;
}

/** The note of a finding, with neighbours that share it, an octave lower or higher; null where neither way helps. */
export function otherOctave(finding: Finding, trials: Trials): Remedy | null {
  const shared = sharing(finding, trials.line);
  if (shared === null) return null;
  const sides = shared.side === null ? ([-1, 1] as const) : [shared.side];
  return cheapest(sides.flatMap((side) => moved(finding, shared, side * shared.octaves, trials) ?? []));
}

function sharing(finding: Finding, { played, verdicts }: Remediable): Shared | null {
  if (finding.at === null) return null;
  const alike = new Map<number, Finding[]>();
  for (const one of verdicts.findings)
    if (one.rule === finding.rule && one.at !== null && one.status === "open")
      alike.set(one.at, [...(alike.get(one.at) ?? []), one]);
  let [from, to] = [finding.at, finding.at];
  while (alike.has(from - 1) && !played.moments[from]?.rested) from -= 1;
  while (alike.has(to + 1) && !played.moments[to + 1]?.rested) to += 1;
  const all = [...alike].flatMap(([at, ones]) => (at >= from && at <= to ? ones : []));
  const cause = played.lefts[finding.at]?.missing.find(
    ({ note }) => idOf(note, finding, played) === finding.place,
  )?.cause;
  const outside = cause === "below" || cause === "above";
  const farthest = outside ? Math.max(...all.map(({ measured }) => measured ?? 0)) : 0;
  return {
    ids: all.flatMap(({ place }) => place ?? []),
    from,
    to,
    octaves: Math.max(1, Math.ceil(farthest / 12)),
    side: outside ? (cause === "below" ? 1 : -1) : null,
  };
}

function idOf(note: number, finding: Finding, played: Remediable["played"]): string | undefined {
  return played.moments[finding.at as number]?.notes[note]?.source.id;
}

function moved(finding: Finding, shared: Shared, octaves: number, trials: Trials): Remedy | null {
  const { line } = trials;
  const ids = new Set(shared.ids);
  const trial = trials.attempt(`octave ${octaves} ${shared.ids.join()}`, () => ({
    score: withOctave(line.score, ids, octaves),
    brief: { ...line.brief, pins: line.brief.pins.filter((pin) => !ids.has(pin.note)) },
  }));
  if (trial === null || remains(finding, trial.verdicts)) return null;
  const { total } = trial.verdicts;
  if (total.blocked > blocksWithout(finding, line.verdicts)) return null;
  const way = transpositionWords({
    semitones: 12 * octaves,
    interval: `${octaves < 0 ? "-" : ""}${7 * Math.abs(octaves) + 1}P`,
  });
  const [which, how] = [notesWords(shared, line), howWords(shared, line, trial.played)];
  const text = phraseOf({
    en: (say) => `Take ${say(which)} ${say(way)}${say(how)}.`,
    zh: (say) => `把${say(which)}移${say(way)}${say(how)}。`,
  });
  return {
    text: joined([text, worseWords(fresh(signsOf(trial.verdicts), line.verdicts), line)]),
    after: total,
    played: null,
    music: { from: pitchesOf(shared, line.played), to: pitchesOf(shared, trial.played) },
  };
}

/** The score with some notes in another octave; what was given for them is set free. */
function withOctave(score: Score, ids: ReadonlySet<string>, octaves: number): Score {
  const notes = score.notes.map((note) =>
    ids.has(note.id)
      ? {
          ...note,
          written: octavesUp(note.written, octaves),
          sounding: octavesUp(note.sounding, octaves),
          given: setFree(note.given),
        }
      : note,
  );
  return { ...score, notes: lowestFirst(notes) };
}

/** Chord notes stand lowest first. */
function lowestFirst(notes: readonly ScoreNote[]): readonly ScoreNote[] {
  const sorted: ScoreNote[] = [];
  for (let i = 0; i < notes.length; ) {
    const chord = notes[i]?.chord ?? null;
    let end = i + 1;
    while (chord !== null && notes[end]?.chord === chord) end += 1;
    sorted.push(...notes.slice(i, end).sort((a, b) => semitoneOf(a.sounding) - semitoneOf(b.sounding)));
    i = end;
  }
  return sorted;
}

/** The notes in words. @example "Bb4 (bar 3, beat 2)" */
function notesWords({ ids, from, to }: Shared, line: Remediable): Phrase {
  const notes = line.played.moments
    .slice(from, to + 1)
    .flatMap((moment) => moment.notes.filter(({ source }) => ids.includes(source.id)));
  const named = (note: MomentNote, at: number): Phrase => {
    const { bar, beat } = placeAt(at, line);
    const [pitch, place] = [pitchName(note.sounding), barAndBeat(bar, beat)];
    return phraseOf({ en: (say) => `${pitch} (${say(place)})`, zh: (say) => `${pitch}（${say(place)}）` });
  };
  const first = named(notes[0] as MomentNote, from);
  if (notes.length === 1) return first;
  const last = named(notes.at(-1) as MomentNote, to);
  return phraseOf({
    en: (say) => `the ${notes.length} notes from ${say(first)} to ${say(last)}`,
    zh: (say) => `${say(first)}到${say(last)}的${notes.length}个音`,
  });
}

/** The pitch of the note, or of the first and last of several. @example "E6", "E6–G6" */
function pitchesOf({ ids, from, to }: Shared, { moments }: Remediable["played"]): string {
  const notes = moments
    .slice(from, to + 1)
    .flatMap((moment) => moment.notes.filter(({ source }) => ids.includes(source.id)));
  const [first, last] = [notes[0], notes.at(-1)] as [MomentNote, MomentNote];
  return [first, ...(first === last ? [] : [last])].map(({ sounding }) => pitchName(sounding)).join("–");
}

/** How a single note is then played. */
function howWords({ from, to }: Shared, line: Remediable, then: Remediable["played"]): Said {
  if (from !== to) return "";
  const [old, now] = [line.played, then].map((played) => quotedReading(readingAt(played, from))) as [Said, Said];
  if (old === "") return joined([phrase(", as ", "，弹作"), now]);
  return phraseOf({
    en: (say) => `: ${say(now)} instead of ${say(old)}`,
    zh: (say) => `：${say(old)}改为${say(now)}`,
  });
}
