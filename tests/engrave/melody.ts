// SPDX-License-Identifier: AGPL-3.0-or-later
// Melodies for the engraver's tests, written in one line.
import Fraction from "fraction.js";
import { NOTHING_GIVEN } from "../../src/model/fingering.js";
import { parsePitch } from "../../src/model/pitch.js";
import { type Bar, type Meter, NO_MARKS, type Score, type ScoreNote, type Slur } from "../../src/model/score.js";
import { beatLabel, type Quarters, ZERO } from "../../src/model/time.js";

/** What a melody may have besides its notes. */
export interface MelodyOptions {
  readonly meter?: Meter;
  readonly fifths?: number;
  readonly bars?: readonly Partial<Bar>[];
  readonly slurs?: readonly Slur[];
}

/**
 * A melody: bars apart by `|`; a note is `C4:1/2` (quarters), a chord `C4+E4:1`, a rest `r:1`, a grace note `g:D4`;
 * `~` at the end ties the note to the next one. Ids are n0, n1, ... in order.
 *
 * @example melody("C4:1 D4:1/3 E4:1/3 F4:1/3 | g:B3 C4:2")
 */
export function melody(text: string, options: MelodyOptions = {}): Score {
  const bars: Bar[] = [];
  const notes: ScoreNote[] = [];
  let onset: Quarters = ZERO;
  let tied = false;
  text.split("|").forEach((content, index) => {
    const start = onset;
    for (const event of content.trim().split(/\s+/)) {
      const [what = "", length = "1"] = event.startsWith("g:") ? [event.slice(2), "0"] : event.split(":");
      const duration = new Fraction(length.replace("~", ""));
      const last = notes.at(-1);
      if (tied && last !== undefined)
        for (const [i, note] of notes.entries())
          if (note.onset.equals(last.onset) && !note.grace)
            notes[i] = { ...note, duration: note.duration.add(duration), tiedIds: [...note.tiedIds, `t${i}`] };
      if (!tied && what !== "r") addNotes(notes, what.split("+"), index, start, onset, duration);
      tied = length.endsWith("~");
      onset = onset.add(duration);
    }
    bars.push({
      index,
      label: String(index + 1),
      onset: start,
      length: onset.sub(start),
      firstBeat: new Fraction(1),
      meter: options.meter ?? { beats: 4, beatType: 4 },
      key: { fifths: options.fifths ?? 0, mode: null },
      repeatStart: false,
      repeatTimes: null,
      endings: [],
      ...options.bars?.[index],
    });
  });
  return {
    file: "test.musicxml",
    title: null,
    creator: null,
    part: { id: "P1", name: null },
    voice: null,
    bars,
    notes,
    tempos: [],
    slurs: options.slurs ?? [],
    wedges: [],
    choice: null,
    leftOut: [],
    oddMarks: [],
    stringNumbers: "musicxml",
    stringMarks: [],
    unread: [],
  };
}

function addNotes(
  notes: ScoreNote[],
  names: readonly string[],
  bar: number,
  start: Quarters,
  onset: Quarters,
  duration: Quarters,
): void {
  const chord = names.length > 1 ? `n${notes.length}` : null;
  for (const name of names) {
    const pitch = parsePitch(name);
    if (pitch === null) throw new Error(`no pitch: ${name}`);
    notes.push({
      id: `n${notes.length}`,
      tiedIds: [],
      bar,
      beat: beatLabel(onset.sub(start).add(1)),
      onset,
      duration,
      written: pitch,
      sounding: pitch,
      grace: duration.equals(0),
      chord,
      marks: NO_MARKS,
      dynamic: null,
      lyrics: [],
      words: [],
      given: NOTHING_GIVEN,
    });
  }
}
