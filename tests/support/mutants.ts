// SPDX-License-Identifier: AGPL-3.0-or-later
// Files and calls that somebody's editor, disk or malice could have spoilt, made from good ones. A case is its seed and
// its number: the same two make the same mutant on every machine.
import { type Zippable, zipSync } from "fflate";
import { unpack } from "../../src/read/unpack.js";
import { parseXml, type XmlElement } from "../../src/read/xml.js";
import type { CheckCall } from "../../src/run/check.js";

/** What mutants are made from. */
export interface Stock {
  readonly scores: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  readonly briefs: readonly string[];
}

/** One spoilt call of `check`. */
export interface Mutant {
  /** what was spoilt: bytes, tree, archive, brief or options */
  readonly level: string;
  /** the score that it was made from */
  readonly from: string;
  readonly score: Uint8Array;
  readonly brief: Uint8Array | null;
  readonly options: Partial<CheckCall>;
}

/** Random numbers that depend on nothing but their seed (mulberry32, from memory). */
class Dice {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** From 0 to below 1. */
  roll(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(this.#state ^ (this.#state >>> 15), 1 | this.#state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  }

  /** A whole number from 0 to below a bound; 0 where nothing is below it. */
  below(bound: number): number {
    return Math.floor(this.roll() * bound);
  }

  one<T>(values: readonly T[]): T {
    return values[this.below(values.length)] as T;
  }
}

const NUMBERS = [
  ...["0", "-1", "1", "2", "3", "7", "13", "0.5", "-0.5", "1.5", "1e9", "1e21", "NaN", "Infinity", "999999999999"],
  ...["0x10", "12abc", "1/3", "", " 4 ", "１２", "4096", "-4", "100000", "0.000000001", "9007199254740993", "+3"],
];
const TEXTS = [
  ...[
    "<b>x</b>",
    "&amp;",
    "&lt;script&gt;",
    "琴",
    "\u{1F3B5}",
    "\u202Eabc",
    "a b c",
    "__proto__",
    "constructor",
    "toString",
  ],
  ...[
    "san gou 1",
    "da 9 tiao 4",
    "ming jie 10 gou 3",
    "大九挑四",
    "fan 7 tiao 3",
    "shang 9",
    "da",
    "fan qi",
    "yin",
    "x".repeat(3000),
  ],
  ...[
    "P1",
    "#1",
    "1-2",
    "-",
    "none",
    "yes",
    "no",
    "start",
    "stop",
    "continue",
    "up",
    "down",
    "major",
    "quarter",
    "32nd",
  ],
];
const NAMES = [
  ...[
    "note",
    "rest",
    "chord",
    "grace",
    "cue",
    "pitch",
    "unpitched",
    "duration",
    "voice",
    "staff",
    "type",
    "dot",
    "tie",
  ],
  ...[
    "measure",
    "part",
    "attributes",
    "divisions",
    "key",
    "time",
    "transpose",
    "backup",
    "forward",
    "direction",
    "sound",
  ],
  ...[
    "notations",
    "tied",
    "slur",
    "slide",
    "ornaments",
    "technical",
    "string",
    "fingering",
    "harmonic",
    "lyric",
    "text",
  ],
  ...["barline", "repeat", "ending", "time-modification", "tuplet", "measure-style", "octave-shift", "wedge", "x"],
];
const ATTRIBUTES = [
  "id",
  "number",
  "type",
  "name",
  "implicit",
  "times",
  "tempo",
  "size",
  "print-object",
  "full-path",
  "relation",
];
/** The most that is spoilt at once. */
const MOST_CHANGES = 4;

/** The mutant of a seed and a number. */
export function mutantOf(seed: number, number: number, stock: Stock): Mutant {
  const dice = new Dice(Math.imul(seed, 0x9e3779b1) ^ Math.imul(number + 1, 0x85ebca6b));
  const { name, bytes } = dice.one(stock.scores);
  const base: Mutant = { level: "options", from: name, score: bytes, brief: null, options: someOptions(dice, 0.02) };
  const level = dice.below(10);
  if (level < 2) return { ...base, level: "bytes", score: spoiltBytes(bytes, dice) };
  if (level < 6) return { ...base, level: "tree", score: spoiltTree(bytes, name, dice) };
  if (level < 7) return { ...base, level: "archive", score: spoiltArchive(bytes, name, dice) };
  if (level < 9) return { ...base, level: "brief", brief: spoiltBrief(dice.one(stock.briefs), dice) };
  return { ...base, options: someOptions(dice, 0.25) };
}

function spoiltBytes(bytes: Uint8Array, dice: Dice): Uint8Array {
  let spoilt = Buffer.from(bytes);
  for (let change = dice.below(MOST_CHANGES); change >= 0; change--) {
    const at = dice.below(spoilt.length);
    const to = Math.min(spoilt.length, at + 1 + dice.below(40));
    const [before, piece, behind] = [spoilt.subarray(0, at), spoilt.subarray(at, to), spoilt.subarray(to)];
    const noise = Buffer.from(Array.from({ length: 1 + dice.below(8) }, () => dice.below(256)));
    spoilt = Buffer.concat(
      dice.one([
        [before, Buffer.from([dice.below(256)]), spoilt.subarray(at + 1)],
        [before, Buffer.from([(spoilt[at] ?? 0) ^ (1 << dice.below(8))]), spoilt.subarray(at + 1)],
        [before, behind],
        [before, piece, piece, behind],
        [before, noise, piece, behind],
        [before],
      ]),
    );
  }
  return spoilt;
}

function spoiltTree(bytes: Uint8Array, name: string, dice: Dice): Uint8Array {
  let { text } = unpack(bytes, name);
  for (let change = dice.below(MOST_CHANGES); change >= 0; change--) {
    const elements = [...within(parseXml(text, name))];
    text = changedOnce(text, elements, dice);
  }
  return Buffer.from(text);
}

function* within(element: XmlElement): Generator<XmlElement> {
  yield element;
  for (const inner of element.children) yield* within(inner);
}

function changedOnce(text: string, elements: readonly XmlElement[], dice: Dice): string {
  const one = dice.one(elements.length > 1 ? elements.slice(1) : elements);
  const other = dice.one(elements);
  const own = text.slice(one.start, one.end);
  const put = (piece: string): string => text.slice(0, one.start) + piece + text.slice(one.end);
  switch (dice.below(8)) {
    case 0:
      return put("");
    case 1:
      return put(own.repeat(2 + dice.below(3)));
    case 2:
      return swapped(text, one, other);
    case 3: {
      const taken = text.slice(other.start, other.end);
      return other.start <= one.start && one.end <= other.end ? put("") : put(own + taken);
    }
    case 4:
      return put(renamed(own, one.nodeName, dice.one(NAMES)));
    case 5: {
      const value = escaped(dice.one(dice.below(2) === 0 ? NUMBERS : TEXTS)).replaceAll('"', "&quot;");
      return put(withAttribute(own, one, dice.below(3) === 0 ? dice.one(ATTRIBUTES) : null, value));
    }
    default: {
      const leaves = elements.filter((element) => element.children.length === 0 && text[element.end - 2] !== "/");
      const leaf = leaves.length === 0 ? one : dice.one(leaves);
      const value = escaped(dice.one(/^\s*[-+\d.]+\s*$/.test(leaf.text) || dice.below(4) === 0 ? NUMBERS : TEXTS));
      return `${text.slice(0, leaf.start)}<${leaf.nodeName}>${value}</${leaf.nodeName}>${text.slice(leaf.end)}`;
    }
  }
}

const escaped = (text: string): string => text.replaceAll("&", "&amp;").replaceAll("<", "&lt;");

function swapped(text: string, a: XmlElement, b: XmlElement): string {
  const [first, second] = a.start <= b.start ? [a, b] : [b, a];
  if (first.end > second.start) return text;
  const piece = (element: XmlElement): string => text.slice(element.start, element.end);
  const between = text.slice(first.end, second.start);
  return text.slice(0, first.start) + piece(second) + between + piece(first) + text.slice(second.end);
}

function renamed(own: string, from: string, to: string): string {
  const open = `<${to}${own.slice(from.length + 1)}`;
  return open.endsWith(`</${from}>`) ? `${open.slice(0, -from.length - 1)}${to}>` : open;
}

/** With an attribute more, or with the value of one that it has changed. */
function withAttribute(own: string, { nodeName, attributes }: XmlElement, name: string | null, value: string): string {
  const head = nodeName.length + 1;
  const known = attributes[0];
  if (known === undefined) return name === null ? own : `${own.slice(0, head)} ${name}="${value}"${own.slice(head)}`;
  return own.replace(new RegExp(`\\s${known.name}\\s*=\\s*("[^"]*"|'[^']*')`), () => ` ${known.name}="${value}"`);
}

const PATHS = [
  "score.xml",
  "a/b.xml",
  "../../score.xml",
  "/etc/passwd",
  "",
  "META-INF/container.xml",
  "score.xml\u0000.png",
];

function spoiltArchive(bytes: Uint8Array, name: string, dice: Dice): Uint8Array {
  const text = unpack(bytes, name).text;
  const score = Buffer.from(dice.below(3) === 0 ? spoiltTree(bytes, name, dice) : text);
  const path = dice.one(PATHS) || "x";
  const named = dice.below(4) === 0 ? dice.one(PATHS) : path;
  const rootfile = `<rootfile full-path="${named.replace("\u0000", "")}"${dice.below(4) === 0 ? ' media-type="text/plain"' : ""}/>`;
  const container = `<container><rootfiles>${rootfile.repeat(1 + dice.below(2))}</rootfiles></container>`;
  const files: Zippable = {};
  if (dice.below(2) === 0) files.mimetype = [Buffer.from("application/vnd.recordare.musicxml"), { level: 0 }];
  if (dice.below(5) > 0)
    files["META-INF/container.xml"] = Buffer.from(
      dice.below(5) === 0 ? spoiltBytes(Buffer.from(container), dice) : container,
    );
  if (dice.below(8) > 0) files[path] = [score, { level: dice.one([0, 1, 9] as const) }];
  if (dice.below(4) === 0) files["other.xml"] = Buffer.from("<opus/>");
  // Else the archive holds the time at which it was made.
  const archive = zipSync(files, { mtime: new Date(1990, 0, 1) });
  return dice.below(2) === 0 ? spoiltBytes(archive, dice) : archive;
}

const SCALARS = [
  ...[
    "~",
    "null",
    "true",
    "[]",
    "{}",
    "[[[[1]]]]",
    "{a: {b: c}}",
    "'",
    '"',
    "*a",
    "&a x",
    "!!binary x",
    "!!js/function x",
  ],
  ...[
    ".nan",
    ".inf",
    "-.inf",
    "-1",
    "0",
    "1e400",
    "0x1f",
    "2020-01-01",
    "|",
    ">-",
    "<<",
    "%",
    "? x",
    "- -",
    "#1-#2",
    "1-1",
    "9-1",
  ],
];

function spoiltBrief(text: string, dice: Dice): Uint8Array {
  const lines = text.split("\n");
  for (let change = dice.below(MOST_CHANGES); change >= 0; change--) {
    const at = dice.below(lines.length);
    const line = lines[at] ?? "";
    const value = dice.one([...SCALARS, ...NUMBERS, ...TEXTS]);
    const put = dice.one<readonly string[]>([
      [],
      [line, line],
      [`  ${line}`],
      [line.trimStart()],
      [line.replace(/:.*$/, `: ${value}`)],
      [line.replace(/:.*$/, `: ${value}`)],
      [line, lines[dice.below(lines.length)] ?? ""],
      [
        line.replace(
          /[\w-]+:/,
          `${dice.one(["parameters", "weights", "pins", "accept", "bars", "beat", "x", "__proto__"])}:`,
        ),
      ],
    ]);
    lines.splice(at, 1, ...put);
  }
  const spoilt = Buffer.from(lines.join("\n"));
  return dice.below(6) === 0 ? spoiltBytes(spoilt, dice) : spoilt;
}

const VALUES = {
  part: ["1", "2", "P1", "P2", "0", "x"],
  voice: ["1", "2", "5", "x"],
  bars: ["1", "1-2", "#1", "#1-#2", "2-1", "--", "#0", "#999999", "1-1-1-1", " - "],
  tuning: [
    "zhengdiao",
    "ruibin",
    "manjue",
    "C2 D2 F2 G2 A2 C3 D3",
    "C9 D9 F9 G9 A9 C9 D9",
    "C0 C0 C0 C0 C0 C0 C0",
    "a b c",
  ],
  transpose: ["0", "-12", "12", "P5", "-M2", "48", "-48", "49", "A99", "d5"],
  temperament: ["just", "equal", "pythagorean"],
  hand: ["small", "large", "beginner", "experienced", "nobody", "none.yaml"],
  objective: ["worst", "total"],
  ways: ["1", "2", "9", "10"],
  sameFigures: ["0", "5", "100", "101"],
  failOn: ["note", "blocker", "error"],
} as const satisfies Partial<Record<keyof CheckCall, readonly string[]>>;

/** Options that are usual, odd or hostile. @param often how likely each is */
function someOptions(dice: Dice, often: number): Partial<CheckCall> {
  const said = Object.entries(VALUES).flatMap(([name, values]) => {
    if (dice.roll() >= often) return [];
    return [[name, dice.below(6) === 0 ? dice.one([...NUMBERS, ...TEXTS]) : dice.one<string>(values)]];
  });
  return Object.fromEntries(said);
}
