// SPDX-License-Identifier: AGPL-3.0-or-later
// Documents to annotate: the fixtures, the public test suite where it lies beside the project, and random ones.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import * as fc from "fast-check";

/** A file by its name. */
export interface DocumentFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

function filesIn(url: URL): DocumentFile[] {
  const folder = fileURLToPath(url);
  if (!existsSync(folder)) return [];
  return readdirSync(folder)
    .filter((name) => /\.(musicxml|xml|mxl)$/.test(name))
    .map((name) => ({ name, bytes: readFileSync(folder + name) }));
}

/** The scores of fixtures/melodies, fixtures/musicxml and fixtures/submissions. */
export const FIXTURES: readonly DocumentFile[] = ["melodies", "musicxml", "submissions"].flatMap((folder) =>
  filesIn(new URL(`../../fixtures/${folder}/`, import.meta.url)),
);

/** The unofficial MusicXML test suite (LilyPond repository, input/regression/musicxml, MIT); empty where it is missing. */
export const SUITE: readonly DocumentFile[] = filesIn(
  new URL("../../../shared/corpora/musicxml-suite/", import.meta.url),
);
if (SUITE.length === 0) console.warn("SKIPPED: the MusicXML test suite is not beside the project");

const PITCHES = ["C2", "D2", "E2", "F2", "G2", "A2", "C3", "D3", "E3", "F3", "G3", "A3", "C4", "D4", "A4", "A1", "F6"];
/** What a writer may have said: forms that fit some of the pitches, some that fit none, and words to sing. */
const LYRICS = [
  ...["san gou 1", "fan 9 tiao 5", "da 9 tiao 4", "ming jie 10 gou 3", "shang 9", "dai qi", "gou 4", "la"],
  ...["san lun 1", "san li 7 5", "chuo da 9 tiao 4", "fan 7 gou ti 6", "san da yuan 1 6", "san gun 4 1", "qia qi"],
  ...["da 9 tiao 4 yin", "ming 10 gou 3 huan", "shang 9 nao", "san quan fu 1 2", "wang lai", "san gou 1 fen kai"],
];
const MARKS = [
  "<string>4</string>",
  "<harmonic><natural/></harmonic>",
  "<string>1</string><open-string/><pluck>tiao</pluck>",
  "<fingering>ring</fingering>",
  "<string>3</string><other-technical>da 9 gou 5</other-technical>",
];

/** One note of a random document. */
interface RandomNote {
  readonly pitch: string;
  readonly over: string | null;
  readonly eighths: number;
  readonly luck: number;
  readonly lyric: string | null;
  readonly marks: string | null;
}

const rarely = (values: readonly string[]): fc.Arbitrary<string | null> =>
  fc.oneof({ weight: 6, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: fc.constantFrom(...values) });

const note: fc.Arbitrary<RandomNote> = fc.record({
  pitch: fc.constantFrom(...PITCHES),
  over: rarely(PITCHES),
  eighths: fc.constantFrom(1, 1, 2, 2, 2, 3, 4, 8),
  luck: fc.integer({ min: 0, max: 11 }),
  lyric: rarely(LYRICS),
  marks: rarely(MARKS),
});

/** A short line with its slur, as one bar of a document in a layout of its own. */
export const randomDocument: fc.Arbitrary<string> = fc
  .record({
    notes: fc.array(note, { minLength: 1, maxLength: 5 }),
    slurFrom: fc.integer({ min: 0, max: 6 }),
    slurNotes: fc.constantFrom(2, 2, 3, 4),
    tempo: fc.constantFrom(40, 72, 120, 200),
    lead: fc.constantFrom("", "\n", "\r\n\t", "\n      "),
  })
  .map(({ notes, slurFrom, slurNotes, tempo, lead }) => {
    const music = notes.flatMap((one, index) => {
      const slurs = [
        index === slurFrom && slurFrom + slurNotes <= notes.length ? '<slur type="start"/>' : "",
        index === slurFrom + slurNotes - 1 ? '<slur type="stop"/>' : "",
      ];
      return noteElements(one, slurs.join(""), lead);
    });
    const attributes = "<attributes><divisions>2</divisions></attributes>";
    const bar = `<measure number="1">${attributes}<sound tempo="${tempo}"/>${music.join(lead)}</measure>`;
    const list = '<part-list><score-part id="P1"><part-name>Line</part-name></score-part></part-list>';
    return `<score-partwise version="4.0">${list}<part id="P1">${bar}</part></score-partwise>`;
  });

function noteElements({ pitch, over, eighths, luck, lyric, marks }: RandomNote, slurs: string, lead: string): string[] {
  const technical = marks === null ? "" : `<technical>${marks}</technical>`;
  const length = `<duration>${eighths}</duration>`;
  const notations = `<notations>${slurs}${technical}</notations>`;
  const sung = lyric === null ? "" : `<lyric number="1"><text>${lyric}</text></lyric>`;
  const held = luck === 3 ? '<tie type="start"/>' : "";
  // What a writer may ask of a single note, such as a slide, cannot be done in a chord, and stays a wish.
  if (over !== null) return [noteElement(pitch, length, "", lead), noteElement(over, length, "", lead, "<chord/>")];
  const main = noteElement(pitch, `${length}${held}`, `${notations}${sung}`, lead);
  if (luck === 0) return [main, `<note><rest/><duration>${eighths}</duration></note>`];
  if (luck === 1) return [noteElement("G2", "", "", lead, "<grace/>"), main];
  if (luck === 3) return [main, noteElement(pitch, `${length}<tie type="stop"/>`, "", lead)];
  return [main];
}

function noteElement(pitch: string, length: string, behind: string, lead: string, before = ""): string {
  const named = `<pitch><step>${pitch[0]}</step><octave>${pitch[1]}</octave></pitch>`;
  return `<note>${lead}${before}${named}${length}<voice>1</voice>${behind}</note>`;
}
