// SPDX-License-Identifier: AGPL-3.0-or-later
// Hostile files against the real command: each is refused in one line that says what, where and what would work, leaves
// nothing behind, and costs no more than 2 s of processor time and 512 MB. The files are made here.
import { strToU8, zipSync } from "fflate";
import { describe, expect, test } from "vitest";
import {
  MAX_ARCHIVE_ENTRIES,
  MAX_ASIDE_CHARACTERS,
  MAX_ATTRIBUTE_CHARACTERS,
  MAX_ATTRIBUTES,
  MAX_BARS,
  MAX_BYTES,
  MAX_CHILDREN,
  MAX_DEPTH,
  MAX_DIRECTIONS,
  MAX_ELEMENTS,
  MAX_MELODY_NOTES,
  MAX_NOTES,
  MAX_NOTES_AT_ONCE,
  MAX_PART_ELEMENTS,
  MAX_PARTS,
  MAX_SPAN_CHARACTERS,
  MAX_TEXT_CHARACTERS,
  MAX_VOICES,
  MAX_YAML_BYTES,
} from "../../src/read/limits.js";
import { checked, type Ended } from "../support/child.js";
import { documentOf, quarter, readBar, readText } from "./helpers.js";

const MOST_CPU_SECONDS = 2;
const MOST_MEGABYTES = 512;
const NOTE = quarter("D", 3);
const bar = (content: string): string => `<measure>${content}</measure>`;
const HEAD = "<attributes><divisions>1</divisions></attributes>";
const GOOD = documentOf(bar(HEAD + NOTE));
const score = (content: string): string => documentOf(bar(HEAD + content));
const many = (count: number, make: (index: number) => string): string =>
  Array.from({ length: count }, (_, i) => make(i)).join("");
const tied = (count: number): string => documentOf(many(count, () => bar(HEAD + NOTE)));

/** An archive whose first entry declares a size that it does not have. */
function lyingArchive(): Uint8Array {
  const bytes = zipSync({ "score.xml": new Uint8Array(MAX_BYTES + 1) });
  // The declared size stands at 22 in the local header.
  new DataView(bytes.buffer).setUint32(22, 10, true);
  return bytes;
}

const container = (path: string): Uint8Array =>
  strToU8(`<container><rootfiles><rootfile full-path="${path}"/></rootfiles></container>`);

/** An entity that is ten of the one before, so that the last is a thousand million. */
const NESTED_ENTITIES = `<!DOCTYPE score-partwise [<!ENTITY e0 "x">${many(9, (i) => `<!ENTITY e${i + 1} "${`&e${i};`.repeat(10)}">`)}]>${GOOD.replace("Line", "&e9;")}`;
const EXTERNAL_ENTITY = `<!DOCTYPE score-partwise [<!ENTITY x SYSTEM "file:///etc/hostname">]>${GOOD.replace("Line", "&x;")}`;

const SCORES: readonly (readonly [what: string, content: Uint8Array | string, message: RegExp])[] = [
  ["a file above the limit", new Uint8Array(MAX_BYTES + 1), /holds 33 MB, above the limit of 32 MB/],
  ["nested entities", NESTED_ENTITIES, /line 1: the document type declaration defines entities/],
  ["an external entity", EXTERNAL_ENTITY, /line 1: the document type declaration defines entities/],
  ["an entity that nobody defines", GOOD.replace("Line", "&x;"), /line 1: .*undefined entity/],
  [
    "100,000 levels",
    "<a>".repeat(100_000),
    new RegExp(`line 1: elements nest deeper than the limit of ${MAX_DEPTH} levels`),
  ],
  [
    "a huge attribute",
    score(NOTE.replace("<note", `<note id="${"x".repeat(MAX_ATTRIBUTE_CHARACTERS + 1)}"`)),
    /an attribute is longer than the limit of 65536/,
  ],
  [
    "an attribute that fills the file",
    `<a b="${"x".repeat(30_000_000)}"/>`,
    /line 1: an attribute is longer than the limit/,
  ],
  [
    "many attributes",
    `<a ${many(MAX_ATTRIBUTES + 1, (i) => `a${i}="" `)}/>`,
    /line 1: an element has more than the limit of 200 attributes/,
  ],
  [
    "many elements",
    `<score-partwise>${"<a/>".repeat(MAX_ELEMENTS)}</score-partwise>`,
    /holds more than the limit of 1500000 elements/,
  ],
  [
    "many elements in a note",
    score(NOTE.replace("</note>", `${"<notations/>".repeat(MAX_CHILDREN)}</note>`)),
    /line 1: <note> holds more than the limit of 1000 elements/,
  ],
  [
    "many keys at once",
    score(`<attributes>${many(200_000, () => "<key><fifths>0</fifths></key>")}</attributes>${NOTE}`),
    /<attributes> holds more than the limit/,
  ],
  [
    "a long title",
    GOOD.replace(
      "<part-list>",
      `<work><work-title>${"x".repeat(MAX_TEXT_CHARACTERS + 1)}</work-title></work><part-list>`,
    ),
    /the text of <work-title> is longer than the limit of 65536/,
  ],
  [
    "a long lyric",
    score(quarter("D", 3, `<lyric><text>${"da 9 tiao 4 ".repeat(2_000_000)}</text></lyric>`)),
    /the text of <text> is longer/,
  ],
  [
    "long words",
    score(
      `<direction><direction-type><words>${"shang ".repeat(2_000_000)}</words></direction-type></direction>${NOTE}`,
    ),
    /the text of <words> is longer/,
  ],
  [
    "a long CDATA section",
    score(`<![CDATA[${"]".repeat(30_000_000)}`),
    new RegExp(`a CDATA section is longer than the limit of ${MAX_ASIDE_CHARACTERS}`),
  ],
  ["a long comment", `<!--${"- ".repeat(15_000_000)}-->${GOOD}`, /a comment is longer than the limit/],
  ["invalid bytes", Buffer.concat([Buffer.from(GOOD), Buffer.from([0xc3, 0x28])]), /not valid UTF-8; save it as UTF-8/],
  ["zero bytes", new Uint8Array(1_000_000), /line 1: this is not well-formed XML/],
  [
    "half a character of UTF-16",
    Buffer.concat([Buffer.from([0xff, 0xfe]), Buffer.from(GOOD, "utf16le"), Buffer.from([0x00, 0xd8])]),
    /not valid UTF-16LE/,
  ],
  [
    "divisions of 0",
    GOOD.replace("<divisions>1", "<divisions>0"),
    /line 1: the divisions is "0"; write a number above 0/,
  ],
  [
    "negative divisions",
    GOOD.replace("<divisions>1", "<divisions>-4"),
    /line 1: the divisions is "-4"; write a number above 0/,
  ],
  [
    "a negative duration",
    GOOD.replace("<duration>1", "<duration>-1"),
    /line 1: the duration is "-1"; write a number above 0/,
  ],
  ["a duration that is no number", GOOD.replace("<duration>1", "<duration>NaN"), /line 1: the duration is "NaN"/],
  ["a duration with an exponent", GOOD.replace("<duration>1", "<duration>1e21"), /line 1: the duration is "1e21"/],
  [
    "an endless duration",
    GOOD.replace("<duration>1", "<duration>999999999999"),
    /line 1: the bar is longer than the limit of 100000 quarter notes/,
  ],
  [
    "an alter beyond reason",
    GOOD.replace("</step>", "</step><alter>1e9</alter>"),
    /line 1: this pitch has no step A to G, octave 0 to 9 and alter -4 to 4/,
  ],
  ["an octave beyond hearing", GOOD.replace("<octave>3", "<octave>99999"), /line 1: this pitch has no step/],
  [
    "divisions that share nothing, in one bar",
    score(many(50, (i) => `<attributes><divisions>${999_983 - 2 * i}</divisions></attributes>${NOTE}`)),
    /line 1: the time is cut finer than the limit/,
  ],
  [
    "divisions that share nothing, bar by bar",
    documentOf(many(20_000, (i) => bar(`<attributes><divisions>${999_983 - 2 * i}</divisions></attributes>${NOTE}`))),
    /line 1: the time is cut finer than the limit/,
  ],
  [
    "two parts of one id",
    GOOD.replace("</score-partwise>", `<part id="P1"/></score-partwise>`),
    /line 1: two parts carry the id "P1"; give each part its own id/,
  ],
  [
    "many parts",
    GOOD.replace("</score-partwise>", `${many(100_000, (i) => `<part id="Q${i}"/>`)}</score-partwise>`),
    new RegExp(`line 1: the score holds more than the limit of ${MAX_PARTS} parts`),
  ],
  ["many bars", tied(MAX_BARS + 1), /line 1: the score holds more than the limit of 20000 bars; export fewer bars/],
  [
    "many bars in many parts of a score written bar by bar",
    `<score-timewise><part-list/>${many(3000, (i) => bar(many(i === 0 ? 900 : 1, (j) => `<part id="P${j}">${j === 0 ? NOTE : ""}</part>`)))}</score-timewise>`,
    /holds more than the limit of 1500000 bars in all its parts/,
  ],
  [
    "many notes in a bar",
    score(NOTE.repeat(MAX_NOTES + 1)),
    /line 1: the score holds more than the limit of 30000 notes in one part/,
  ],
  [
    "many voices",
    score(many(MAX_VOICES + 1, (i) => NOTE.replace("<voice>1", `<voice>${i}`))),
    /more than the limit of 250 voices in one part/,
  ],
  [
    "many directions",
    score(NOTE + "<direction><direction-type><words>a</words></direction-type></direction>".repeat(400_000)),
    new RegExp(
      `line 1: the score holds more than the limit of ${MAX_DIRECTIONS} directions in one part; export fewer bars`,
    ),
  ],
  [
    "many tempos",
    score(NOTE + '<sound tempo="60"/>'.repeat(400_000)),
    new RegExp(`more than the limit of ${MAX_DIRECTIONS} directions in one part`),
  ],
  [
    "many keys one after the other",
    score(NOTE + "<attributes><key><fifths>1</fifths></key></attributes>".repeat(400_000)),
    new RegExp(`more than the limit of ${MAX_PART_ELEMENTS} elements in one part`),
  ],
  [
    "a long melody",
    tied(MAX_MELODY_NOTES + 1),
    /the melody holds \d+ notes, above the limit of \d+; choose fewer bars with --bars/,
  ],
  [
    "a chord of many notes",
    score(NOTE + NOTE.replace("<note>", "<note><chord/>").repeat(MAX_NOTES_AT_ONCE)),
    /more than the limit of 100 notes at one moment/,
  ],
  [
    "many grace notes before a note",
    score(NOTE.replace("<note>", "<note><grace/>").replace("<duration>1</duration>", "").repeat(20_000) + NOTE),
    /limit of 10000|100 notes at one moment/,
  ],
  ["a zip bomb", zipSync({ "score.xml": new Uint8Array(200 * 1024 * 1024) }), /score is above the limit of 32 MB/],
  ["a zip whose size lies", lyingArchive(), /the limit of|the archive is damaged/],
  [
    "a zip that packs too well",
    zipSync({ "score.xml": strToU8(GOOD.replace("Line", " ".repeat(20_000_000))) }),
    /unpacks to more than the limit of 250 times/,
  ],
  [
    "a zip of many entries",
    zipSync(
      Object.fromEntries(Array.from({ length: MAX_ARCHIVE_ENTRIES + 1 }, (_, i) => [`${i}.txt`, new Uint8Array()])),
    ),
    /more than the limit of 1000 entries/,
  ],
  [
    "a name that leads out of the zip",
    zipSync({ "META-INF/container.xml": container("../../etc/hostname"), "a.xml": strToU8(GOOD) }),
    /the archive holds no \.\.\/\.\.\/etc\/hostname/,
  ],
  ["a damaged zip", zipSync({ "score.xml": strToU8(GOOD) }).slice(0, 120), /the archive is damaged|holds no/],
];

const aliases = many(
  9,
  (i) =>
    `${"abcdefghi"[i]}: &${"abcdefghi"[i]} [${Array(9)
      .fill(i === 0 ? "x" : `*${"abcdefghi"[i - 1]}`)
      .join(", ")}]\n`,
);
const BRIEFS: readonly (readonly [what: string, content: Uint8Array | string, message: RegExp])[] = [
  ["aliases of aliases", aliases, /brief\.yaml.*(aliases|no such key)/],
  ["an alias to nothing", "tuning: *nobody\n", /brief\.yaml, line 1: this is no YAML|aliases lead nowhere/],
  [
    "a brief above the limit",
    "# ".repeat(5_000_000),
    new RegExp(`brief\\.yaml: it holds 9766 KB, above the limit of ${MAX_YAML_BYTES / 1024} KB`),
  ],
  ["deep lists", "[".repeat(60_000), /brief\.yaml(, line 1)?: (it nests too deep|this is no YAML)/],
  ["deep dashes", `${"- ".repeat(30_000)}\n`, /brief\.yaml(, line 1)?: /],
  ["many keys", many(5_000, (i) => `k${i}: 1\n`), /brief\.yaml, line 1: "k0: 1": no such key "k0"/],
  [
    "invalid bytes",
    Buffer.from([0x61, 0x3a, 0x20, 0xff]),
    /brief\.yaml: its text is not valid UTF-8; save it as UTF-8/,
  ],
  [
    "bars of many hyphens",
    `passages:\n  - {bars: "${"-".repeat(10_000)}", character: flowing}\n`,
    /brief\.yaml, line 2: the bars asked for are longer than the limit of 200 characters/,
  ],
];

function expectRefused(ended: Ended, message: RegExp): void {
  expect(ended.err).toMatch(/^huipath: [^\n]+; [^\n]+\n$/);
  expect(ended.err).toMatch(message);
  expect(ended.err.length).toBeLessThan(1000);
  expect({ code: ended.code, out: ended.out, left: ended.left }).toEqual({ code: 2, out: "", left: [] });
  expect(ended.cpuSeconds).toBeLessThan(MOST_CPU_SECONDS);
  expect(ended.megabytes).toBeLessThan(MOST_MEGABYTES);
}

describe("hostile scores are refused in one line, soon and cheaply", () => {
  test.each(SCORES)("%s", async (_, content, message) => {
    expectRefused(await checked({ "score.musicxml": content }, []), message);
  });
});

describe("hostile briefs are refused in one line, soon and cheaply", () => {
  test.each(BRIEFS)("%s", async (_, content, message) => {
    expectRefused(await checked({ "score.musicxml": GOOD, "brief.yaml": content }, ["--brief", "brief.yaml"]), message);
  });

  test("a hand of deep lists", async () => {
    const ended = await checked({ "score.musicxml": GOOD, "hand.yaml": "[".repeat(60_000) }, ["--hand", "hand.yaml"]);
    expectRefused(ended, /hand hand: /);
  });
});

test.each([
  ["many hyphens", "1-".repeat(30_000)],
  ["many spaces", " ".repeat(100_000)],
])("--bars of %s are refused", async (_, bars) => {
  const message = new RegExp(`longer than the limit of ${MAX_SPAN_CHARACTERS} characters`);
  expectRefused(await checked({ "score.musicxml": GOOD }, ["--bars", bars]), message);
});

describe("odd but honest files are read, and what is odd is told", () => {
  const told = (text: string): string =>
    readText(text)
      .unread.map(({ what }) => what)
      .join("\n");

  test("missing divisions count as 1", () => {
    expect(told(documentOf(bar(NOTE)))).toMatch(/without divisions is read with one division to the quarter note/);
  });

  test("two notes of one id get ids of their own", () => {
    const twin = NOTE.replace("<note>", '<note id="x">');
    expect(told(score(twin + twin))).toMatch(/note ids that are not unique or not usable are replaced: "x"/);
  });

  test("repeats in a circle are not unfolded", () => {
    const back = '<barline><repeat direction="backward"/></barline>';
    const ahead = '<barline><repeat direction="forward"/></barline>';
    const read = readBar(
      [ahead, NOTE, back, ahead, '<sound dalsegno="a"/><sound segno="a" dacapo="yes"/>', back].join(""),
    );
    expect(read.notes).toHaveLength(1);
    expect(read.unread.map(({ what }) => what).join("\n")).toMatch(
      /repeats or jumps are not followed|repeated sections are played once/,
    );
  });

  test("long texts are shortened", () => {
    const read = readText(
      score(quarter("D", 3, `<lyric><text>${"琴".repeat(5000)}</text></lyric>`)).replace("Line", "x".repeat(5000)),
    );
    expect(read.part.name).toMatch(/^x{499}…$/);
    expect(read.notes[0]?.lyrics[0]?.text).toMatch(/^琴{499}…$/);
    expect(read.unread.map(({ what }) => what)).toContain(
      "texts longer than the limit of 500 characters are shortened",
    );
  });
});
