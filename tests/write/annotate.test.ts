// SPDX-License-Identifier: AGPL-3.0-or-later
// The annotated score is the user's own document, byte for byte the same but for what is put in.
import { zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import { InputProblem } from "../../src/problem.js";
import { readScore } from "../../src/read/score.js";
import { unpackAll } from "../../src/read/unpack.js";
import { encodeText, packScore } from "../../src/write/pack.js";
import { type Edit, spliced } from "../../src/write/splice.js";
import { documentOf, quarter } from "../read/helpers.js";
import { type Annotated, annotated, fingeringOf } from "../support/annotated.js";
import { type DocumentFile, FIXTURES, SUITE } from "../support/documents.js";

const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

/** Takes every insertion out of the annotated text and puts back what it replaced. */
function withoutInsertions(text: string, edits: readonly Edit[], original: string): string {
  let rest = text;
  for (const { at, remove, insert } of [...edits].sort((a, b) => a.at - b.at)) {
    // Everything before this place is the original again, so that offsets hold.
    expect(rest.slice(at, at + insert.length)).toBe(insert);
    rest = rest.slice(0, at) + original.slice(at, at + remove) + rest.slice(at + insert.length);
  }
  return rest;
}

/** What may be put into a score that huipath has not annotated before. */
const INSERTION =
  /^\s*(<notations print-object="no"><technical>.*<\/technical><\/notations>|<lyric number="\d+" name="huipath">.*<\/lyric>|(<identification>)?(<miscellaneous>)?<miscellaneous-field name="huipath-setting">.*<\/miscellaneous-field>(<\/miscellaneous>)?(<\/identification>)?)\s*$/;

function annotatedIfMusic({ name, bytes }: DocumentFile): Annotated | null {
  try {
    return annotated(bytes, name);
  } catch (error) {
    if (error instanceof InputProblem && error.code === "no-notes") return null;
    throw error;
  }
}

test.each([...FIXTURES, ...SUITE])("$name keeps every byte of its own", (file) => {
  const made = annotatedIfMusic(file);
  if (made === null) return;
  const { source } = made.read;
  const archive = unpackAll(file.bytes, file.name);
  const original = archive?.entries.get(archive.path) ?? file.bytes;
  expect(Buffer.compare(encodeText(source.text, source), original)).toBe(0);
  const restored = encodeText(withoutInsertions(made.text, made.edits, source.text), source);
  expect(Buffer.compare(restored, original)).toBe(0);
  for (const { at, remove, insert } of made.edits) {
    expect(insert).toMatch(INSERTION);
    const removed = source.text.slice(at, at + remove);
    expect(removed === "" || INSERTION.test(removed)).toBe(true);
  }
});

describe("what is written", () => {
  const one = (behind: string, before = ""): Annotated =>
    annotated(bytesOf(documentOf(`<measure number="1">${quarter("C", 2, behind, before)}</measure>`)), "x.musicxml");

  test("an open string, its stroke, and the string counted from the highest", () => {
    expect(one("").text).toContain(
      '<voice>1</voice><notations print-object="no"><technical><string>7</string><open-string/><pluck>gou</pluck>' +
        '<other-technical>san gou 1</other-technical></technical></notations><lyric number="1" name="huipath">' +
        "<syllabic>single</syllabic><text>san gou 1</text></lyric></note>",
    );
  });

  test("finger and contact of a stop, and a harmonic sign that is not printed", () => {
    const joint = one("<lyric><text>ming jie 10 gou 1</text></lyric>").text;
    expect(joint).toContain("<string>7</string><fingering>ring joint</fingering><pluck>gou</pluck>");
    const harmonic = annotated(
      bytesOf(documentOf(`<measure number="1">${quarter("C", 4, "<lyric><text>fan 9 mo 3</text></lyric>")}</measure>`)),
      "x.musicxml",
    );
    expect(harmonic.text).toContain("<harmonic><natural/></harmonic><pluck>mo</pluck>");
    const [note] = readScore(harmonic.bytes, "x.musicxml").score.notes;
    expect(note?.marks.harmonic).toBe(false);
    expect(note?.given).toMatchObject({ sound: "harmonic", string: 3, position: 9, written: true });
  });

  test("behind notations, stem and beams, before playback; the verse behind the score's own", () => {
    const { text } = one(
      '<stem>up</stem><notations><fermata/></notations><lyric number="3"><text>la</text></lyric><play/>',
    );
    expect(text).toMatch(
      /<stem>up<\/stem><notations><fermata\/><\/notations><notations print-object="no">.*<\/notations><lyric number="3"><text>la<\/text><\/lyric><lyric number="4" name="huipath">.*<\/lyric><play\/><\/note>/,
    );
  });

  test("of tied notes only the first is annotated; a note that cannot be placed is not", () => {
    const tied = (type: string): string => quarter("C", 2, "").replace("<voice>", `<tie type="${type}"/><voice>`);
    const { text } = annotated(
      bytesOf(documentOf(`<measure number="1">${tied("start")}${tied("stop")}${quarter("C", 1)}</measure>`)),
      "x.musicxml",
    );
    expect(text.match(/<other-technical>/g)).toHaveLength(1);
    expect(text.match(/<lyric /g)).toHaveLength(1);
  });

  test("the notes of a chord stand in lines of their own, the highest first", () => {
    const chord = quarter("C", 2) + quarter("C", 3, "", "<chord/>");
    const { text } = annotated(bytesOf(documentOf(`<measure number="1">${chord}</measure>`)), "x.musicxml");
    expect(
      [...text.matchAll(/<lyric number="(\d)" name="huipath"><syllabic>single<\/syllabic><text>([^<]*)/g)].map(
        ([, verse, form]) => `${verse} ${form}`,
      ),
    ).toEqual(["2 san gou 1", "1 san tuo 6"]);
  });
});

describe("where the setting goes", () => {
  const FIELD = '<miscellaneous-field name="huipath-setting">';
  const header = (head: string): string => {
    const document = documentOf(`<measure number="1">${quarter("C", 2)}</measure>`);
    return annotated(bytesOf(document.replace("<part-list>", `${head}<part-list>`)), "x.musicxml").text;
  };

  test.each([
    ["no identification", "<work/><defaults/>", `<work/><identification><miscellaneous>${FIELD}`],
    ["an empty one", "<identification/>", `<identification><miscellaneous>${FIELD}`],
    ["an open and empty one", "<identification></identification>", `<identification><miscellaneous>${FIELD}`],
    ["no miscellaneous", "<identification><rights>r</rights></identification>", `</rights><miscellaneous>${FIELD}`],
    ["an empty miscellaneous", "<identification><miscellaneous /></identification>", `<miscellaneous >${FIELD}`],
    [
      "other fields",
      '<identification><miscellaneous><miscellaneous-field name="a">b</miscellaneous-field></miscellaneous></identification>',
      `<miscellaneous>${FIELD}`,
    ],
  ])("%s", (_, head, expected) => {
    const text = header(head);
    expect(text).toContain(expected);
    const read = readScore(bytesOf(text), "x.musicxml");
    expect(read.setting?.stored).toEqual({
      tuning: "zhengdiao",
      transpose: "1P",
      temperament: "pythagorean",
      hand: "medium",
    });
  });

  test("a setting that somebody changed beyond recognition is refused with its line", () => {
    const text = header("<work/>").replace('"tuning":', '"tunning":');
    expect(() => readScore(bytesOf(text), "x.musicxml")).toThrow("x.musicxml line 1 (huipath-setting): this is not");
  });
});

describe("read back", () => {
  const line = (lyric: string): string => documentOf(`<measure number="1">${quarter("C", 4, lyric)}</measure>`);

  test("what huipath wrote is no wish of the writer, and its line is no lyric", () => {
    const { notes } = readScore(annotated(bytesOf(line("")), "x").bytes, "x").score;
    expect(notes[0]?.given).toMatchObject({ written: false });
    expect(notes[0]?.lyrics).toEqual([]);
  });

  test("an editor that loses the name of the line loses nothing", () => {
    const { bytes } = annotated(bytesOf(line("<lyric><text>la</text></lyric>")), "x");
    const renamed = new TextDecoder().decode(bytes).replace(' name="huipath"', "");
    const [note] = readScore(bytesOf(renamed), "x").score.notes;
    expect(note?.given).toMatchObject({ written: false });
    expect(note?.lyrics).toEqual([{ verse: "1", text: "la" }]);
  });

  test("a writer's own line stays a wish beside huipath's", () => {
    const { bytes } = annotated(bytesOf(line("<lyric><text>fan 9 mo 3</text></lyric>")), "x");
    const [note] = readScore(bytes, "x").score.notes;
    expect(note?.given).toMatchObject({ sound: "harmonic", written: true });
    expect(note?.lyrics).toEqual([{ verse: "1", text: "fan 9 mo 3" }]);
  });

  test("a line that was changed afterwards is told, and the marks count", () => {
    const text = annotated(bytesOf(documentOf(`<measure number="1">${quarter("C", 2)}</measure>`)), "x").text;
    const changed = text.replace("<text>san gou 1</text>", "<text>san tiao 1</text>");
    const { score } = readScore(bytesOf(changed), "x");
    expect(score.notes[0]?.given.stroke).toBe("gou");
    expect(score.oddMarks).toMatchObject([{ trouble: "contradicted", text: "san tiao 1" }]);
    expect(annotated(bytesOf(changed), "x").text).toBe(text);
  });

  test("a note that no longer has a place loses its marks", () => {
    const { text, read } = annotated(bytesOf(documentOf(`<measure number="1">${quarter("F", 2)}</measure>`)), "x");
    // Nothing can be slid from before the first note.
    const changed = text.replace(/<(open-string\/|pluck>\w+<\/pluck)>/g, "").replaceAll("san gou 3", "shang 9");
    const after = annotated(bytesOf(changed), "x");
    expect(after.notes[0]?.spoken).toBeNull();
    expect(after.text.replace(/<identification>.*<\/identification>/, "")).toBe(read.source.text);
  });
});

describe("other ways to store a document", () => {
  const text = `<?xml version="1.0" encoding="UTF-16"?>\r\n${documentOf(`<measure number="1">\r\n\t${quarter("C", 2)}\r\n</measure>`)}\r\n`;
  const utf16 = (marked: string): Buffer => Buffer.from(marked, "utf16le");

  test.each([
    ["UTF-8 with a byte order mark", bytesOf(`\ufeff${text}`)],
    ["UTF-16, low byte first", utf16(`\ufeff${text}`)],
    ["UTF-16, high byte first", utf16(`\ufeff${text}`).swap16()],
    ["UTF-16 without a byte order mark", utf16(text)],
  ])("%s is kept", (_, bytes) => {
    const made = annotated(bytes, "x");
    expect(Buffer.compare(encodeText(made.read.source.text, made.read.source), bytes)).toBe(0);
    const again = annotated(made.bytes, "x");
    expect(again.text).toBe(made.text);
    expect(again.text.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
  });

  test("an archive keeps its other files and its order; equal scores give equal archives", () => {
    const container = '<container><rootfiles><rootfile full-path="a/song.xml"/></rootfiles></container>';
    const image = new Uint8Array([1, 2, 3]);
    const files = { "META-INF/container.xml": bytesOf(container), "a/song.xml": bytesOf(line()), "a/b.png": image };
    const packed = zipSync(files);
    const made = annotated(packed, "x.mxl");
    const archive = unpackAll(packScore(made.bytes, unpackAll(packed, "x.mxl")), "y.mxl");
    expect(archive?.path).toBe("a/song.xml");
    expect([...(archive?.entries ?? [])].map(([name]) => name)).toEqual(["mimetype", ...Object.keys(files)]);
    expect(archive?.entries.get("a/b.png")).toEqual(image);
    expect(archive?.entries.get("META-INF/container.xml")).toEqual(bytesOf(container));
    expect(archive?.entries.get("a/song.xml")).toEqual(bytesOf(made.text));
    expect(packScore(made.bytes, null)).toEqual(packScore(made.bytes, null));
  });

  test("a plain score is packed with a container that names it", () => {
    const made = annotated(bytesOf(line()), "x.musicxml");
    const again = annotated(packScore(made.bytes, null), "x.mxl");
    expect(fingeringOf(again.notes)).toEqual(fingeringOf(made.notes));
  });

  function line(): string {
    return documentOf(`<measure number="1">${quarter("C", 2)}</measure>`);
  }
});

test("changes that overlap are refused", () => {
  const edits = [
    { at: 0, remove: 3, insert: "" },
    { at: 2, remove: 0, insert: "x" },
  ];
  expect(() => spliced("abcdef", edits)).toThrow(RangeError);
});
