// SPDX-License-Identifier: AGPL-3.0-or-later
// A report value built by hand: an own tune of sixteen bars (made for these tests) with every thing that a page has to
// show. The fingering is plausible, the findings are examples; what huipath itself would say is tested elsewhere.

import { centsAt, HUI_PARTIAL, harmonicCents } from "../../src/model/board.js";
import { type Finger, NOTHING_GIVEN, type Sound, STROKES, type Stroke } from "../../src/model/fingering.js";
import { parsePitch, pitchName, spell } from "../../src/model/pitch.js";
import { type Bar, NO_MARKS, type Score, type ScoreNote } from "../../src/model/score.js";
import { hertz } from "../../src/model/temperament.js";
import { beatLabel, type Quarters, quarters, ZERO } from "../../src/model/time.js";
import { STANDARD } from "../../src/model/tuning.js";
import type { FindingJson, NoteJson, Report, RuleText } from "../../src/report.js";
import type { Slide, SoundLine, Tone } from "../../src/sound/line.js";
import { samplePictures } from "./sample-pictures.js";
import { sampleWays } from "./sample-ways.js";

/** Bars apart by `|`, notes by `,`: fingering as spoken, `:`, quarters; `+` joins a pinch, `~` ties on, `g` is a grace note, `r` a rest. */
const TUNE = `
san gou 1:1, da 9 tiao 6:1, da 10 tiao 6:1, san tiao 6:1
| san tiao 7:3/2, san tiao 6:1/2, ming 10 gou 5:1, san gou 4:1
| ming 10 gou 4:1, san tiao 6:1/2, san tiao 7:1/2, da 9 tiao 7:2
| g:da 9 tiao 7, da 7.9 tiao 6:1, xia 9:1, san gou 4:2
| san gou 3:1/3, san gou 4:1/3, san tiao 5:1/3, san tiao 6:1, da 7.6 tiao 7:1, da 9 tiao 7:1
| da jie 9 mo 6:1/2, da 9 gou 5:1/2, san gou 4:1/2, san gou 3:1/2, san gou 2:1, san gou 1:1
| ming 13.1 gou 1:1, san tiao 4:1, san gou 2:1, da 7 tiao 4:1~
| da 7 tiao 4:1, r:1, ming gui 5.6 mo 7:1, da 5 tiao 7:1
| fan 7 tiao 7:1, fan 7 tiao 6:1, fan 9 tiao 5:1, fan 7 gou 4:1
| fan 9 gou 3:2, fan 9 tiao 7:1, fan 7 tiao 6:1
| fan 7 gou 3:1, fan 7 tiao 5:1, fan 7 tiao 6:2
| fan 5 tiao 7:4
| san gou 1:1/2, san tiao 4:1/2, san gou 1:1/2, san tiao 4:1/2, da 9 tiao 5:1, none:1
| san tiao 7:1/2, da 9 tiao 7:1/2, shang 7.6:1/2, xia 9:1/2, san tiao 7:1/2, san tiao 6:1/2, san tiao 5:1
| ming 10 gou 1:1, da 9 tiao 4:1, san gou 2:1, san tiao 7:1
| san gou 1+san tuo 6:4`;

const FINGER_OF: Readonly<Record<string, Finger>> = { da: "thumb", shi: "index", zhong: "middle", ming: "ring" };

interface Played {
  readonly sound: Sound | null;
  readonly string: number | null;
  readonly position: number | null;
  readonly finger: Finger | null;
  readonly contact: NoteJson["contact"];
  readonly arrival: NoteJson["arrival"];
  readonly stroke: Stroke | null;
  readonly spoken: string | null;
  readonly semitone: number;
}

function played(spoken: string, before: Played | undefined): Played {
  if (spoken === "none") {
    const nothing = { sound: null, string: null, position: null, finger: null, contact: null, arrival: null };
    return { ...nothing, stroke: null, spoken: null, semitone: 29 };
  }
  const words = spoken.split(" ");
  if (before !== undefined && (words[0] === "shang" || words[0] === "xia")) {
    const position = Number(words[1]);
    return {
      ...before,
      position,
      arrival: "slid",
      stroke: null,
      spoken,
      semitone: stopOn(before.string ?? 1, position),
    };
  }
  const string = Number(words.at(-1));
  const stroke = STROKES.find((name) => name === words.at(-2)) ?? null;
  const open = STANDARD.semitones[string - 1] as number;
  const common = { string, stroke, spoken, arrival: "plucked" as const, contact: null, finger: null };
  if (words[0] === "san") return { ...common, sound: "open", position: null, semitone: open };
  const position = Number(words.find((word) => /^\d/.test(word)));
  if (words[0] === "fan") {
    const partial = HUI_PARTIAL[position] as number;
    return { ...common, sound: "harmonic", position, semitone: open + Math.round(12 * Math.log2(partial)) };
  }
  const contact = words[1] === "jie" ? "joint" : words[1] === "gui" ? "kneeling" : "tip";
  const finger = FINGER_OF[words[0] ?? ""] ?? "ring";
  return { ...common, sound: "stopped", position, contact, finger, semitone: stopOn(string, position) };
}

function stopOn(string: number, position: number): number {
  return (STANDARD.semitones[string - 1] as number) + Math.round(centsAt(position) / 100);
}

interface Built {
  readonly bars: Bar[];
  readonly notes: ScoreNote[];
  readonly json: NoteJson[];
}

function build(times: number): Built {
  const built: Built = { bars: [], notes: [], json: [] };
  let onset = ZERO;
  let tie = false;
  let before: Played | undefined;
  Array.from({ length: times }, () => TUNE.trim().split("|"))
    .flat()
    .forEach((text, index) => {
      const start = onset;
      let count = 0;
      for (const event of text.trim().split(/\s*,\s*/)) {
        if (event.startsWith("g:")) {
          before = played(event.slice(2), before);
          add(built, [before], { bar: index, from: start, onset, duration: ZERO, grace: true, count: ++count });
          continue;
        }
        const [what = "", length = "1"] = event.split(":");
        const duration = quarters(length.replace("~", ""));
        if (tie) {
          const last = built.notes.at(-1) as ScoreNote;
          built.notes[built.notes.length - 1] = {
            ...last,
            duration: last.duration.add(duration),
            tiedIds: [`p1b${index + 1}n1`],
          };
        } else if (what !== "r") {
          const sounds = what.split("+").map((spoken) => played(spoken, before));
          before = sounds[0];
          add(built, sounds, { bar: index, from: start, onset, duration, grace: false, count: ++count });
        }
        tie = length.endsWith("~");
        onset = onset.add(duration);
      }
      const label = String(index + 1);
      const inSection = index % 16;
      built.bars.push({
        index,
        label,
        onset: start,
        length: onset.sub(start),
        firstBeat: quarters(1),
        meter: { beats: 4, beatType: 4 },
        key: { fifths: -1, mode: "major" },
        repeatStart: inSection === 8,
        repeatTimes: inSection === 11 ? 2 : null,
        endings: [],
      });
    });
  return built;
}

interface When {
  readonly bar: number;
  readonly from: typeof ZERO;
  readonly onset: typeof ZERO;
  readonly duration: typeof ZERO;
  readonly grace: boolean;
  readonly count: number;
}

function add(built: Built, sounds: readonly Played[], when: When): void {
  const chord = sounds.length > 1 ? `p1b${when.bar + 1}n${when.count}` : null;
  sounds.forEach((sound, i) => {
    const id = `p1b${when.bar + 1}n${when.count + i}`;
    const pitch = parsePitch(spell(sound.semitone, true));
    if (pitch === null) throw new Error(`no pitch for ${sound.spoken}`);
    const beat = beatLabel(when.onset.sub(when.from).add(1));
    built.notes.push({
      id,
      tiedIds: [],
      bar: when.bar,
      beat,
      onset: when.onset,
      duration: when.duration,
      written: pitch,
      sounding: pitch,
      grace: when.grace,
      chord,
      marks: { ...NO_MARKS, fermata: sounds.length > 1 },
      dynamic: null,
      lyrics: [],
      words: [],
      given: NOTHING_GIVEN,
    });
    const { semitone: _, ...fingering } = sound;
    built.json.push({
      id,
      bar: String(when.bar + 1),
      beat,
      written: pitchName(pitch),
      sounding: pitchName(pitch),
      grace: when.grace,
      chord,
      ...fingering,
      writtenPosition: null,
      compound: chord === null ? null : "large-cuo",
      planted: built.json.length % 5 === 2 ? 4 : null,
      given: [],
      blocked: sound.sound === null ? 1 : 0,
      effort: sound.sound === null ? 0 : (built.json.length % 4) * 0.15,
      alternatives: sampleWays(sound, `bar: ${when.bar + 1}, beat: ${beat}`),
    });
  });
}

const RULES: readonly RuleText[] = [
  {
    id: "above-the-board",
    kind: "range",
    title: "Above the board",
    principle: "Beyond hui 1 no string can be stopped, and few harmonics lie there.",
    why: "There is no place on any string that sounds this note.",
    whenRight: "Never: the note has to move.",
    remedy: "Set the phrase an octave lower, or choose a harmonic in another octave.",
  },
  {
    id: "thin-register",
    kind: "range",
    title: "Thin register",
    principle: "High stops shorten the string so far that little tone is left.",
    why: "Above hui 5 the sound is thin and gone soon, most of all on the thick strings.",
    whenRight: "Where a far, glassy colour is wanted.",
    remedy: "Take the phrase an octave lower, or a thinner string.",
  },
  {
    id: "harmonic-off-pitch",
    kind: "intonation",
    title: "Harmonic off pitch",
    principle: "A harmonic sounds its own pure interval, whatever the melody's scale.",
    why: "Beside stopped notes the difference is heard as out of tune.",
    whenRight: "In a phrase that is all harmonics.",
    remedy: "Take another hui or string, or stop the note.",
  },
  {
    id: "colour-switching",
    kind: "idiom",
    title: "Colour switching",
    principle: "A phrase keeps one colour: open, stopped or harmonic.",
    why: "Each change asks the hand for another kind of touch, and the ear for another kind of sound.",
    whenRight: "At the start of a phrase, or as an echo.",
    remedy: "Keep one colour to the end of the phrase.",
  },
  {
    id: "alternate-strokes",
    kind: "efficiency",
    title: "Alternate closing and opening strokes",
    principle: "Strokes that close the hand alternate with strokes that open it.",
    why: "After a closing stroke the hand is ready to open; a second closing stroke needs a silent move back first.",
    whenRight: "Where an echo wants the same stroke, or where the same stroke travels on to the next inner string.",
    remedy: "Use a stroke that opens the hand here, such as tiao.",
  },
  {
    id: "hand-shift",
    kind: "efficiency",
    title: "Hand shift",
    principle: "The left hand stays where ring finger and thumb reach what comes next.",
    why: "Every shift takes time and may break the sound.",
    whenRight: "Between phrases, and as a slide that is meant to be heard.",
    remedy: "Look for the note on another string near the hand.",
  },
  {
    id: "assumed-tempo",
    kind: "notation",
    title: "Assumed tempo",
    principle: "Speed decides what can be reached in time.",
    why: "The score gives no tempo, so every judgement of speed rests on a guess.",
    whenRight: "Where the player is free to choose.",
    remedy: "Write a metronome mark.",
  },
  {
    id: "string-leap",
    kind: "efficiency",
    title: "String leap",
    principle: "The right hand stays over neighbouring strings.",
    why: "A wide move over the strings is easily missed.",
    whenRight: "Between low and high voices that answer each other.",
    remedy: "Take the note on a nearer string.",
  },
];

function findings(json: readonly NoteJson[]): readonly FindingJson[] {
  const list: FindingJson[] = [];
  const find = (rule: string, note: NoteJson, rest: Partial<FindingJson>): void => {
    const text = RULES.find(({ id }) => id === rule);
    list.push({
      id: `${rule}-${note.id}`,
      rule,
      kind: text?.kind ?? "idiom",
      severity: "caution",
      status: "open",
      bar: note.bar,
      beat: note.beat,
      notes: [note.id],
      measured: null,
      limit: null,
      unit: null,
      message: "",
      blocked: 0,
      effort: 0,
      remedy: null,
      unavoidable: false,
      reason: null,
      followsFrom: null,
      ...rest,
    });
  };
  json.forEach((note, i) => {
    const before = json[i - 1];
    if (note.sound === null)
      find("above-the-board", note, {
        severity: "blocker",
        message: "F1 lies 7 semitones below the lowest string and has no place.",
        measured: 7,
        limit: 0,
        unit: "semitones",
        blocked: 1,
      });
    else if (note.position !== null && note.position < 6 && note.sound === "stopped")
      find("thin-register", note, {
        severity: note.position <= 5 ? "caution" : "note",
        message: `The stop at ${note.position} is high on string ${note.string}.`,
        measured: note.position,
        limit: 5,
        unit: "hui",
        effort: 0.15,
      });
    if (before?.stroke === "gou" && note.stroke === "gou")
      find("alternate-strokes", note, {
        severity: "problem",
        status: note.bar === "6" ? "accepted" : "open",
        reason: note.bar === "6" ? "the falling line wants one colour of stroke" : null,
        notes: [before.id, note.id],
        message: `gou ${note.string} after gou ${before.string}: both close the hand.`,
        measured: 1,
        limit: 0,
        unit: "spare moves",
        effort: 1,
        remedy: {
          text: `Play it as "san tiao ${note.string}".`,
          blockedAfter: 1,
          effortAfter: 13.5,
          changes: [
            { note: note.id, bar: note.bar, beat: note.beat, from: note.spoken ?? "", to: `san tiao ${note.string}` },
          ],
          music: null,
        },
      });
    if (before !== undefined && before.sound === "harmonic" && note.sound === "open")
      find("colour-switching", note, {
        severity: "note",
        notes: [before.id, note.id],
        message: "From harmonics to open strings in 0.7 seconds.",
        measured: 0.7,
        limit: 0.4,
        unit: "seconds",
        effort: 0.3,
      });
  });
  return list;
}

const EMPTY = { places: [] } as const;

function positionTable(json: readonly NoteJson[]): Report["table"] {
  const uses = (string: number, position: number): number =>
    json.filter((note) => note.string === string && (note.position ?? 14) === position && note.sound !== "harmonic")
      .length;
  const row = (
    degree: string,
    name: string,
    pitchClass: string,
    core: boolean,
    places: readonly (readonly number[])[],
  ) => ({
    degree,
    name,
    pitchClass,
    core,
    cells: places.map((list, i) =>
      list.length === 0 ? EMPTY : { places: list.map((position) => ({ position, uses: uses(i + 1, position) })) },
    ),
  });
  return {
    gong: "F",
    rows: [
      row("1", "gong", "F", true, [
        [10, 5.6],
        [12.2, 6.2],
        [14, 7, 4],
        [7.6, 4.4],
        [8.5, 4.8],
        [10, 5.6],
        [12.2, 6.2],
      ]),
      row("2", "shang", "G", true, [
        [9, 5],
        [10, 5.6],
        [13.1, 6.4],
        [14, 7, 4],
        [7.6, 4.4],
        [9, 5],
        [10, 5.6],
      ]),
      row("3", "jue", "A", true, [
        [7.9, 4.6],
        [9, 5],
        [10.8, 5.9],
        [13.1, 6.4],
        [14, 7, 4],
        [7.9, 4.6],
        [9, 5],
      ]),
      row("4", "qingjue", "Bb", false, [
        [7.6, 4.4],
        [8.5, 4.8],
        [10, 5.6],
        [12.2, 6.2],
        [13.6, 6.7],
        [7.6, 4.4],
        [8.5, 4.8],
      ]),
      row("5", "zhi", "C", true, [
        [14, 7, 4],
        [7.6, 4.4],
        [9, 5],
        [10, 5.6],
        [12.2, 6.2],
        [14, 7, 4],
        [7.6, 4.4],
      ]),
      row("6", "yu", "D", true, [
        [13.1, 6.4],
        [14, 7, 4],
        [7.9, 4.6],
        [9, 5],
        [10, 5.6],
        [13.1, 6.4],
        [14, 7, 4],
      ]),
      row("7", "biangong", "E", false, [
        [10.8, 5.9],
        [13.1, 6.4],
        [7.3, 4.2],
        [7.9, 4.6],
        [9, 5],
        [10.8, 5.9],
        [13.1, 6.4],
      ]),
    ],
    harmonics: [
      { string: 4, hui: 7, pitch: "G3", uses: 1 },
      { string: 6, hui: 7, pitch: "C4", uses: 3 },
      { string: 7, hui: 7, pitch: "D4", uses: 1 },
    ],
  };
}

/** The line as it sounds, by the places of the JSON at their written tenths. */
function sampleSound(score: Score, json: readonly NoteJson[]): SoundLine {
  const seconds = (at: Quarters): number => Math.round((at.valueOf() * 6e5) / 66) / 1e4;
  const tones: (Tone & { slides: Slide[] })[] = [];
  for (const [i, { onset }] of score.notes.entries()) {
    const { sound, string, position, arrival, stroke } = json[i] as NoteJson;
    if (sound === null || string === null) continue;
    const open = STANDARD.semitones[string - 1] as number;
    const above = sound === "harmonic" ? harmonicCents(position ?? 7) : sound === "open" ? 0 : centsAt(position ?? 7);
    const hz = hertz(open + above / 100);
    const at = seconds(onset);
    const before = tones.findLast((tone) => tone.string === string);
    if (arrival === "slid" && before !== undefined) before.slides.push({ at: at - before.at, hz });
    else {
      const touch = sound === "stopped" ? "nail" : sound;
      tones.push({ at, after: 0, until: null, string, touch, attack: stroke ?? "pull", hz, slides: [], bends: [] });
    }
  }
  const end = score.bars.at(-1);
  return {
    strings: STANDARD.semitones.map(hertz),
    tones,
    notes: score.notes.map(({ id, bar, beat, onset, duration }) => ({
      ...{ id, bar, beat },
      at: seconds(onset),
      lasts: seconds(duration),
    })),
    bars: score.bars.map(({ label, onset }) => ({ label, at: seconds(onset) })),
    quartersPerMinute: 66,
    seconds: end === undefined ? 0 : seconds(end.onset.add(end.length)),
  };
}

/** The report value. @param times how often the sixteen bars are played; 4 gives 64 bars */
export function sampleReport(times = 1): Report {
  const { bars, notes, json } = build(times);
  const found = findings(json);
  const sum = (key: "blocked" | "effort"): number =>
    Math.round(1000 * json.reduce((total, note) => total + note[key], 0)) / 1000;
  const score: Score = {
    file: "evening-bell.musicxml",
    title: "Evening Bell",
    creator: "made for the tests of huipath",
    part: { id: "P1", name: "Melody" },
    voice: "1",
    bars,
    notes,
    tempos: [{ onset: ZERO, quartersPerMinute: 66 }],
    slurs: notes.flatMap((note, i) => {
      const next = notes[i + 1];
      return json[i + 1]?.arrival === "slid" && next !== undefined ? [{ from: note.id, to: next.id, count: 2 }] : [];
    }),
    wedges: [],
    choice: null,
    leftOut: [],
    oddMarks: [],
    stringNumbers: "musicxml",
    stringMarks: [],
    unread: [],
  };
  return {
    json: {
      schema: 1,
      tool: { name: "huipath", version: "0.1.0" },
      command: "check",
      score: {
        file: score.file,
        title: score.title,
        part: "P1",
        voice: "1",
        choice: null,
        others: [],
        bars: bars.length,
        notes: notes.length,
        tempo: 66,
        tempoAssumed: false,
      },
      setting: {
        tuning: "zhengdiao",
        strings: STANDARD.strings,
        transpose: -12,
        temperament: "pythagorean",
        hand: "medium",
        scaleLengthCm: 110,
        chosenFrom: null,
      },
      verdict: {
        playable: false,
        sentence:
          "Playable in standard tuning an octave lower, except for one note in bar 13; three places need a move.",
      },
      fingering: {
        source: "searched",
        total: { blocked: sum("blocked"), effort: sum("effort") },
        notes: json,
        bill: [],
        objective: { wanted: "total", worst: null, instead: null },
        ways: null,
        sameFigures: null,
        taste: {
          written: {
            possible: false,
            weights: [],
            dominated: {
              rules: ["string-leap"],
              changes: json
                .slice(0, 1)
                .map(({ id, bar, beat }) => ({ note: id, bar, beat, from: "san tiao 6", to: "san gou 1" })),
            },
            sentence:
              "No taste makes the written fingering the best one: with san gou 1 instead of san tiao 6 in bar 1, beat 1 it costs more under no rule, and less in leaps over the strings.",
            rounds: 2,
          },
          flips: [
            {
              ...{ rule: "string-leap", from: 1, to: 0.8 },
              changes: json
                .slice(1, 2)
                .map(({ id, bar, beat }) => ({ note: id, bar, beat, from: "san gou 1", to: "san tiao 6" })),
              sentence: "Give leaps over the strings 0.8 times the weight, and 1 moment is best played another way.",
            },
          ],
          robust: json.length - 1,
        },
        better: [
          {
            total: { blocked: 0, effort: 1.5 },
            changes: json
              .slice(0, 3)
              .map(({ id, bar, beat }) => ({ note: id, bar, beat, from: "san gou 1", to: "san tiao 6" })),
            places: [
              {
                fromBar: "1",
                fromBeat: "1",
                toBar: "1",
                toBeat: "3",
                notes: json.slice(0, 3).map(({ id }) => id),
                difference: { blocked: 0, effort: -0.5 },
                saves: [
                  {
                    rule: "alternate-strokes",
                    notes: json.slice(1, 2).map(({ id }) => id),
                    difference: { blocked: 0, effort: -0.5 },
                  },
                ],
                costs: [],
                place: "Bar 1, beats 1 to 3",
                rest: "3 notes played another way save 0.5 in strokes of one kind in a row.",
                sentence: "Bar 1, beats 1 to 3: 3 notes played another way save 0.5 in strokes of one kind in a row.",
              },
            ],
          },
        ],
      },
      findings: found,
      tallies: RULES.map(({ id }) => ({
        rule: id,
        looked: id === "assumed-tempo" ? 1 : notes.length - 1,
        open: found.filter((finding) => finding.rule === id && finding.status === "open").length,
        accepted: found.filter((finding) => finding.rule === id && finding.status === "accepted").length,
        unsure: id === "harmonic-off-pitch" ? 2 : 0,
        crashed: null,
      })),
      practice: {
        strokes: STROKES.map((stroke) => ({ stroke, strings: [0, 0, 1, 0, 2, 0, 0] })),
        places: [{ position: 14, strings: [1, 0, 0, 2, 0, 0, 0] }],
        harmonics: [{ hui: 7, strings: [0, 0, 0, 0, 0, 1, 0] }],
        pairs: [{ from: "gou", to: "tiao", uses: 3 }],
        signs: [
          { sign: "gou", uses: 3 },
          { sign: "zhai", uses: 0 },
        ],
      },
      study: {
        sign: "zhai",
        uses: 0,
        strings: [1, 2].map((string) => ({ string, uses: 0 })),
        before: [{ sign: "gou", uses: 0 }],
        after: [{ sign: "tiao", uses: 0 }],
        places: [{ string: 1, position: 14, uses: 0 }],
        lines: [
          {
            notes: [
              { pitch: "C2", spoken: "san zhai 1" },
              { pitch: "D2", spoken: "san gou 2" },
            ],
            total: { blocked: 0, effort: 1.5 },
            brings: { strings: [1], before: [], after: ["gou"], places: [{ string: 1, position: 14 }] },
          },
        ],
        left: 1,
      },
      unread: [{ bar: "4", what: "a pedal mark was not read: the guqin has no pedal" }],
    },
    score,
    rules: RULES,
    tuning: {
      title: "zhèng diào",
      characters: "正調",
      simplified: "正调",
      change: "the standard tuning",
      note: "the open strings are sol la do re mi sol la on F",
    },
    transposition: "an octave lower",
    figures: [
      { value: "35 of 60", label: "notes on open strings" },
      { value: "17", label: "stops on a hui" },
      { value: "0", label: "stops off the mode's pattern" },
      { value: "C2–D5", label: "range on the instrument" },
    ],
    line: [],
    instead: new Map(
      found.flatMap(({ id, remedy }) => {
        const changed = json.filter((note) => remedy?.changes.some((change) => change.note === note.id));
        const then = changed.map((note) => ({
          ...note,
          stroke: "tiao" as const,
          spoken: `san tiao ${note.string}`,
        }));
        return remedy === null ? [] : [[id, then] as const];
      }),
    ),
    assumptions: [
      "The strings are 110 cm long; published instruments measure 109 to 113 cm.",
      "The hand is of medium span: 11 cm between thumb and ring finger are comfortable.",
    ],
    table: positionTable(json),
    pictures: samplePictures(score, json),
    sounding: sampleSound(score, json),
    costByRule: [
      { rule: "alternate-strokes", title: "Alternate closing and opening strokes", places: 5, blocked: 0, effort: 5 },
      { rule: "hand-shift", title: "Hand shift", places: 9, blocked: 0, effort: 3.45 },
      { rule: "thin-register", title: "Thin register", places: 3, blocked: 0, effort: 0.45 },
      { rule: "above-the-board", title: "Above the board", places: 1, blocked: 1, effort: 0 },
    ],
    reading: "lies well",
    studyMusic: [{ score, notes: json.slice(0, 1) }],
    certificate: null,
  };
}
