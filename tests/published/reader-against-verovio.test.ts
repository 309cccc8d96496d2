// SPDX-License-Identifier: AGPL-3.0-or-later
// Reference: Verovio 6.3 (RISM Digital, LGPL-3.0-or-later), an independent MusicXML reader. Onsets come from its
// timemap with repeats not expanded, pitches from its MIDI values.
//
// Left out, since the two mean different things there: the onset of grace notes and of the notes they take time from,
// and of broken chords (Verovio spreads them); timewise documents and archives (not read by Verovio); a
// transposition that changes within the part (Verovio keeps the first).
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { VerovioToolkit } from "verovio/esm";
import createVerovioModule from "verovio/wasm";
import { beforeAll, describe, expect, test } from "vitest";
import { semitoneOf } from "../../src/model/pitch.js";
import type { ScoreNote } from "../../src/model/score.js";
import { readScore, type SourceText } from "../../src/read/score.js";

/** What this test asks of Verovio beyond what engraving declares. */
interface TimingToolkit {
  setOptions(options: Readonly<Record<string, unknown>>): void;
  loadData(data: string): boolean;
  renderToTimemap(options: object): readonly { readonly qstamp: number; readonly on?: readonly string[] }[];
  getMIDIValuesForElement(id: string): { readonly pitch: number };
}

const ROOT = fileURLToPath(new URL("../../fixtures/", import.meta.url));
const NOT_FOLLOWED = ["timewise.musicxml", "transposing-change.musicxml"];
const files = ["melodies", "musicxml"].flatMap((folder) =>
  readdirSync(ROOT + folder)
    .filter((name) => name.endsWith(".musicxml") && !NOT_FOLLOWED.includes(name))
    .map((name) => `${folder}/${name}`),
);

let module: object;
beforeAll(async () => {
  module = await createVerovioModule();
});

describe("onset and pitch of every note", () => {
  test.each(files)("%s", (name) => {
    const { score, source } = readScore(readFileSync(ROOT + name), name);
    const { text, names } = withIds(source);
    const toolkit = new VerovioToolkit(module) as unknown as TimingToolkit;
    toolkit.setOptions({ expandNever: true, transposeToSoundingPitch: true });
    expect(Boolean(toolkit.loadData(text))).toBe(true);
    const onsets = new Map<string, number>();
    for (const { qstamp, on = [] } of toolkit.renderToTimemap({})) for (const id of on) onsets.set(id, qstamp);
    const compared = score.notes.filter((note) => !timedOtherwise(note, score.notes));
    const ours = compared.map((note) => [note.id, rounded(note.onset.valueOf()), semitoneOf(note.sounding)]);
    const theirs = compared.map(({ id }) => {
      const own = names.get(id) ?? id;
      return [id, rounded(onsets.get(own) ?? Number.NaN), toolkit.getMIDIValuesForElement(own).pitch];
    });
    expect(ours).toEqual(theirs);
  });
});

/** Verovio's stamps are ticks turned into decimals. */
function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}

function timedOtherwise(note: ScoreNote, notes: readonly ScoreNote[]): boolean {
  if (note.grace || note.marks.others.includes("arpeggiate")) return true;
  return notes.some((other) => other.grace && other.onset.equals(note.onset));
}

/** The document with an id on every note of the melody, from the last to the first so that offsets hold. */
function withIds({ text, notes }: SourceText): { text: string; names: Map<string, string> } {
  const names = new Map<string, string>();
  let named = text;
  const elements = [...notes].map(([id, { element }]) => ({ id, start: element.start, end: element.end }));
  for (const { id, start, end } of elements.sort((a, b) => b.start - a.start)) {
    const opening = text.slice(start, text.indexOf(">", start));
    if (start >= end || / id="/.test(opening)) continue;
    names.set(id, `melody-${id}`);
    named = `${named.slice(0, start)}<note id="melody-${id}"${named.slice(start + "<note".length)}`;
  }
  return { text: named, names };
}
