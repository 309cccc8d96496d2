// SPDX-License-Identifier: AGPL-3.0-or-later
// A remedy as a small before and after: the notes that it changes, or what it changes in the music, with both costs.
import type { EngravedMusic } from "../src/engrave/music.js";
import type { CostJson, FindingJson, NoteJson, PlacedNote, Report } from "../src/report.js";
import { phrase, type Said } from "../src/words.js";
import { hundredths, placeWords, spokenWords } from "./words.js";

/** A note as it is played: its glyph, and the words. */
interface SignView {
  readonly symbol: string;
  readonly said: Said;
}

/** One of the two rows. */
interface RowView {
  readonly name: Said;
  /** what the whole line costs so */
  readonly cost: Said;
  /** its share of the dearer row; empty where a sum would say too little */
  readonly share: string;
  /** by column the notes of a chord, the highest first */
  readonly columns: readonly (readonly SignView[])[];
  /** what stands in the music; empty where only the fingering is changed */
  readonly words: Said;
}

/** The two rows with the heads of their columns. */
export interface SwapView {
  readonly heads: readonly Said[];
  readonly rows: readonly RowView[];
}

/** The before and after of a finding's remedy; none where it has none, or where nothing that is written changes. */
export type SwapOf = (finding: FindingJson) => readonly SwapView[];

/** Makes the views. */
export function swapsFrom({ json, instead }: Report, music: EngravedMusic): SwapOf {
  const byId = new Map(json.fingering.notes.map((note) => [note.id, note]));
  const chords = new Map<string, NoteJson[]>();
  for (const note of json.fingering.notes)
    if (note.chord !== null) chords.set(note.chord, [...(chords.get(note.chord) ?? []), note]);
  return ({ id, remedy }) => {
    if (remedy === null) return [];
    const { total } = json.fingering;
    const after = { blocked: remedy.blockedAfter, effort: remedy.effortAfter };
    const placed = instead.get(id) ?? [];
    const leads = placed.filter((note) => note.chord === null || note.chord === note.id);
    if (leads.length === 0 && remedy.music === null) return [];
    const now = leads.map((lead) => signs(chordOf(byId.get(lead.id), chords), music.cells));
    const then = leads.map((lead) =>
      signs(
        placed.filter((note) => note.id === lead.id || (lead.chord !== null && note.chord === lead.chord)),
        music.instead.get(id) ?? new Map(),
      ),
    );
    const [from, to] = [remedy.music?.from ?? "", remedy.music?.to ?? ""];
    return [
      {
        heads: leads.map((lead) => placeWords(byId.get(lead.id)?.bar ?? "", byId.get(lead.id)?.beat ?? "")),
        rows: [
          { name: phrase("Now", "现在"), ...costOf(total, after), columns: now, words: from },
          { name: phrase("Instead", "改后"), ...costOf(after, total), columns: then, words: to },
        ],
      },
    ];
  };
}

function chordOf(lead: NoteJson | undefined, chords: ReadonlyMap<string, readonly NoteJson[]>): readonly NoteJson[] {
  if (lead === undefined) return [];
  return lead.chord === null ? [lead] : (chords.get(lead.chord) ?? [lead]);
}

/** The notes of one moment, the highest first as in the score. */
function signs(notes: readonly PlacedNote[], symbols: ReadonlyMap<string, string>): readonly SignView[] {
  return [...notes].reverse().map((note) => ({ symbol: `#${symbols.get(note.id)}`, said: spokenWords(note) }));
}

function costOf(own: CostJson, other: CostJson): Pick<RowView, "cost" | "share"> {
  if (own.blocked + other.blocked > 0 && own.blocked !== other.blocked)
    return { cost: phrase(`${own.blocked} left out`, `略去${own.blocked}处`), share: "" };
  const most = Math.max(own.effort, other.effort);
  return {
    cost: hundredths(own.effort),
    share: most === 0 ? "" : `--share: ${Math.round((100 * own.effort) / most)}%`,
  };
}
