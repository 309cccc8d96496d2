// SPDX-License-Identifier: AGPL-3.0-or-later
// The annotated score: the user's own document with the fingering and the setting put in.
import { OWN_LINE, SETTING_FIELD, type StoredSetting } from "../model/annotation.js";
import type { SourceText } from "../read/score.js";
import type { XmlElement } from "../read/xml.js";
import type { NoteJson } from "../report.js";
import { type Edit, escaped, insertion, intoEmpty, leadOf, removal, replacement } from "./splice.js";

/** What stands behind the notations in a note, by the schema. */
const BEHIND_NOTATIONS = new Set(["lyric", "play", "listen"]);
/** What stands behind the lyrics. */
const BEHIND_LYRICS = new Set(["play", "listen"]);
/** What stands before the identification in a score. */
const BEFORE_IDENTIFICATION = new Set(["work", "movement-number", "movement-title"]);

/**
 * The changes that put a fingering into a document: notations that are not printed and a lyric line to read at each
 * note, and the setting among the miscellaneous fields. What huipath put in before is replaced. Notes keep their pitch;
 * of tied notes only the first is annotated.
 *
 * @param notes the fingering, notes in score order; what cannot be placed gets no marks
 */
export function annotate(source: SourceText, notes: readonly NoteJson[], setting: StoredSetting): readonly Edit[] {
  const entries = new Map(notes.map((note) => [note.id, note]));
  const verses = versesOf(notes, freeVerse(source));
  const own = [...source.notes].flatMap(([id, note]) => {
    const entry = entries.get(id);
    const marks = entry === undefined ? null : marksOf(entry);
    const line = entry?.spoken ? lyricOf(entry.spoken, verses.get(id) as number) : null;
    return [
      ...childEdits(source.text, note.element, note.own.notations, marks, BEHIND_NOTATIONS),
      ...childEdits(source.text, note.element, note.own.lyrics, line, BEHIND_LYRICS),
    ];
  });
  return [settingEdit(source, setting), ...own];
}

/** The marks of a note that is placed, in notations that are not printed; strings count from the highest. */
function marksOf(note: NoteJson): string | null {
  if (note.spoken === null || note.string === null) return null;
  const held = note.contact === null || note.contact === "tip" ? note.finger : `${note.finger} ${note.contact}`;
  const marks = [
    `<string>${8 - note.string}</string>`,
    note.sound === "open" ? "<open-string/>" : "",
    note.sound === "harmonic" ? "<harmonic><natural/></harmonic>" : "",
    held === null ? "" : `<fingering>${held}</fingering>`,
    note.stroke === null ? "" : `<pluck>${note.stroke}</pluck>`,
    `<other-technical>${escaped(note.spoken)}</other-technical>`,
  ];
  return `<notations print-object="no"><technical>${marks.join("")}</technical></notations>`;
}

function lyricOf(spoken: string, verse: number): string {
  return `<lyric number="${verse}" name="${OWN_LINE}"><syllabic>single</syllabic><text>${escaped(spoken)}</text></lyric>`;
}

/** Puts an element into a note, in the place of what huipath put there before or before what the schema wants behind it. */
function childEdits(
  text: string,
  note: XmlElement,
  own: readonly XmlElement[],
  insert: string | null,
  behind: ReadonlySet<string>,
): Edit[] {
  const [first, ...more] = own;
  const removed = (insert === null ? own : more).map((element) => removal(text, element));
  if (insert === null) return removed;
  if (first !== undefined) return [replacement(first, insert), ...removed];
  const before = note.children.findLast((inner) => !behind.has(inner.nodeName)) as XmlElement;
  return [insertion(before.end, leadOf(text, note.children[0] as XmlElement) + insert)];
}

/** The verse of each note: of a chord the highest note stands in the first line, the next below it. */
function versesOf(notes: readonly NoteJson[], first: number): ReadonlyMap<string, number> {
  const verses = new Map<string, number>();
  let above: { readonly chord: string | null; readonly verse: number } = { chord: null, verse: first };
  for (const { id, chord } of notes.toReversed()) {
    above = { chord, verse: chord !== null && chord === above.chord ? above.verse + 1 : first };
    verses.set(id, above.verse);
  }
  return verses;
}

/** The verse behind all that the document numbers, huipath's own line left out. */
function freeVerse({ root, notes }: SourceText): number {
  const ours = new Set([...notes.values()].flatMap(({ own }) => own.lyrics));
  let last = 0;
  const look = (element: XmlElement): void => {
    for (const inner of element.children)
      if (inner.nodeName !== "lyric") look(inner);
      else if (!ours.has(inner) && inner.getAttribute("name") !== OWN_LINE)
        last = Math.max(last, Number.parseInt(inner.getAttribute("number") ?? "1", 10) || 0);
  };
  look(root);
  return last + 1;
}

/** Stores the setting in its field; identification and miscellaneous are made where they are missing. */
function settingEdit({ text, root }: SourceText, setting: StoredSetting): Edit {
  const field = `<miscellaneous-field name="${SETTING_FIELD}">${escaped(JSON.stringify(setting))}</miscellaneous-field>`;
  const identification = childNamed(root, "identification");
  if (identification === undefined) {
    const next = root.children.find((inner) => !BEFORE_IDENTIFICATION.has(inner.nodeName)) as XmlElement;
    const made = `<identification><miscellaneous>${field}</miscellaneous></identification>`;
    return insertion(next.start, made + leadOf(text, next));
  }
  const miscellaneous = childNamed(identification, "miscellaneous");
  if (miscellaneous === undefined) {
    const made = `<miscellaneous>${field}</miscellaneous>`;
    const last = identification.children.at(-1);
    return last === undefined ? intoEmpty(text, identification, made) : insertion(last.end, leadOf(text, last) + made);
  }
  const stored = miscellaneous.children.find((inner) => inner.getAttribute("name") === SETTING_FIELD);
  if (stored !== undefined) return replacement(stored, field);
  const first = miscellaneous.children[0];
  return first === undefined
    ? intoEmpty(text, miscellaneous, field)
    : insertion(first.start, field + leadOf(text, first));
}

function childNamed(element: XmlElement, name: string): XmlElement | undefined {
  return element.children.find((inner) => inner.nodeName === name);
}
