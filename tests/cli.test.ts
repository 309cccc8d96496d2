// SPDX-License-Identifier: AGPL-3.0-or-later
// The built command line as users meet it: exit codes, streams, files, and every message in one line.
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, test } from "vitest";

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const CLI = at("../dist/src/cli.js");
if (!existsSync(CLI)) throw new Error("dist/src/cli.js is MISSING: run `npm run build` first (npm test does)");

const GRACE = at("../fixtures/melodies/amazing-grace.musicxml");
const LARK = at("../fixtures/melodies/lark-above-the-roof.musicxml");
const MARKET = at("../fixtures/melodies/market-morning.musicxml");
const bad = (name: string): string => at(`../fixtures/bad/${name}`);
const feature = (name: string): string => at(`../fixtures/musicxml/${name}`);

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true });
});

/** A fresh, empty working folder. */
function workplace(): string {
  const folder = mkdtempSync(join(tmpdir(), "huipath-cli-"));
  folders.push(folder);
  return folder;
}

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs huipath as a process of its own. */
function huipath(cwd: string, args: readonly string[], input = ""): Promise<Ended> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [CLI, ...args], { cwd });
    let out = "";
    let err = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      out += text;
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      err += text;
    });
    child.on("error", reject);
    child.on("close", (code) => resolve({ code, out, err }));
    child.stdin.on("error", () => {
      // A call that is refused ends without reading.
    });
    child.stdin.end(input);
  });
}

describe.concurrent("whatever a complaint quotes, it is one line of at most 900 characters that orders nothing", () => {
  const ORDERS = "\u001b[2J\u009b2J\u202eabc\u2066\u200f\u061c\u2028\r\nhuipath: all is well";
  /** XML and YAML hold no escape. */
  const PLAIN = ORDERS.replaceAll("\u001b", "");
  const LONG = "\u{1F3B5}".repeat(5000);
  const mangled = (from: string, to: string): string => readFileSync(GRACE, "utf8").replaceAll(from, to);
  test.each<[what: string, args: readonly string[], input: string]>([
    ["a name of a file", ["check", ORDERS], ""],
    ["a long name of a file", ["check", LONG], ""],
    ["a part", ["check", GRACE, "--part", ORDERS + LONG], ""],
    ["a tuning", ["check", GRACE, "--tuning", ORDERS + LONG], ""],
    ["tunings", ["fit", GRACE, "--tunings", ORDERS + LONG], ""],
    ["a note", ["where", ORDERS + LONG], ""],
    ["an option", ["check", GRACE, `--${ORDERS}${LONG}`], ""],
    ["a command", [ORDERS + LONG], ""],
    ["the ids of parts", ["check", "-", "--part", "none"], mangled("P1", PLAIN + LONG)],
    ["a duration", ["check", "-"], mangled("<duration>", `<duration>${PLAIN}${LONG}`)],
    ["a key of a brief", ["check", GRACE, "--brief", "-"], `"${PLAIN.replace(/\s/g, "")}${LONG}": 1\n`],
  ])("%s", async (_, args, input) => {
    const { code, out, err } = await huipath(workplace(), args, input);
    expect([code, out]).toEqual([2, ""]);
    expect(err).toMatch(/^huipath: [^\p{Cc}\p{Bidi_Control}\p{Cs}\u2028\u2029\uFFFD]+\n$/u);
    expect(err.trimEnd().length).toBeLessThanOrEqual(900);
    expect(err).toContain("; ");
  });
});

describe.concurrent("what cannot be used: exit 2, one line on standard error, no file", () => {
  test.each<[what: string, args: readonly string[], message: RegExp]>([
    ["no such file", ["check", "nope.musicxml"], /nope\.musicxml: no such file; check the name and the folder/],
    ["a folder", ["check", "."], /\.: this is a folder, not a score; name a MusicXML file in it/],
    ["an empty name", ["check", ""], /the score: its name is empty; name a MusicXML file/],
    ["not XML", ["check", bad("not-xml.musicxml")], /line 2: this is not well-formed XML/],
    ["XML but not MusicXML", ["check", bad("other-xml.xml")], /this is XML but not MusicXML \(its root is <svg>\)/],
    ["no notes", ["check", bad("no-notes.musicxml")], /it holds no notes/],
    [
      "a part without notes",
      ["check", feature("first-part-silent.musicxml"), "--part", "Voice"],
      /the part "Voice" holds no notes; choose one with --part: P2 \(Qin\)/,
    ],
    ["an entity bomb", ["check", bad("entity-bomb.musicxml")], /line 2/],
    [
      "an unknown part",
      ["check", feature("two-parts.musicxml"), "--part", "Oboe"],
      /there is no part "Oboe"; the parts with notes are P1 \(Flute\), P2 \(Qin\)/,
    ],
    [
      "an unknown voice",
      ["check", feature("two-voices.musicxml"), "--voice", "9"],
      /part P1 \(Melody\) has no voice "9"; its voices are 1, 2/,
    ],
    [
      "an unknown tuning",
      ["check", GRACE, "--tuning", "zhengdao"],
      /--tuning: no tuning called "zhengdao"; did you mean zhengdiao\? known: zhengdiao, ruibin, .*wumei; or give seven/,
    ],
    [
      "a tuning with six notes",
      ["check", GRACE, "--tuning", "C2 D2 F2 G2 A2 C3"],
      /--tuning: 6 pitches where the guqin has seven strings; give seven, string 1 \(lowest\) first/,
    ],
    ["a tuning with a wrong pitch", ["check", GRACE, "--tuning", "C2 D2 H2 G2 A2 C3 D3"], /"H2" is no pitch; write/],
    [
      "no interval",
      ["check", GRACE, "--transpose", "fifth"],
      /--transpose: "fifth" is no transposition; say semitones .* such as -12, or an interval such as -P5/,
    ],
    ["an interval without end", ["check", GRACE, "--transpose", "P99999"], /"P99999" is no transposition/],
    ["an unknown hand", ["check", GRACE, "--hand", "larg"], /--hand: no hand called "larg"; did you mean large\?/],
    ["an unknown temperament", ["check", GRACE, "--temperament", "well"], /known: pythagorean, just, equal/],
    ["an unknown severity", ["check", GRACE, "--fail-on", "error"], /known: note, caution, problem, blocker/],
    ["a bar that is not there", ["check", GRACE, "--bars", "1-999"], /no bar "999"; say FROM-TO within 0 to 16/],
    [
      "a folder that is not there, for the report",
      ["check", GRACE, "--report", "none-such/a.html"],
      /none-such\/a\.html: the folder none-such does not exist; make it first, or choose another/,
    ],
    [
      "a folder that is not there, for JSON",
      ["check", GRACE, "--json", "none-such/a.json"],
      /folder none-such does not/,
    ],
    ["a folder as output", ["check", GRACE, "--report", "."], /this is a folder; name a file in it/],
    ["an output without a name", ["check", GRACE, "--report", "none", "--json", ""], /name is empty; name a file/],
    [
      "two outputs to standard output",
      ["check", GRACE, "--report", "-", "--json", "-"],
      /more than one asks for standard output; let the others name files/,
    ],
    [
      "the annotated score and JSON to standard output",
      ["check", GRACE, "--score", "-", "--json", "-"],
      /more than one asks for standard output; let the others name files/,
    ],
    ["the score as its own output", ["check", GRACE, "--score", GRACE], /this file is read by the same call/],
    ["two outputs to one file", ["check", GRACE, "--report", "a", "--json", "./a"], /two outputs go to one file/],
    ["a device as output", ["check", GRACE, "--json", "/dev/null"], /no plain file|does not exist/],
    ["no score", ["check"], /missing required argument 'score'; see --help/],
    ["two scores", ["check", "a", "b"], /too many arguments for 'check'. Expected 1 argument but got 2; see --help/],
    ["no command", [], /no command given; try check, fit, compare, where or guide, or --help/],
    ["an unknown command", ["chek", "a"], /unknown command 'chek' \(Did you mean check\?\)/],
    ["an unknown option", ["check", "a", "--tunning", "b"], /unknown option '--tunning' \(Did you mean --tuning\?\)/],
    ["an option without its value", ["check", "a", "--tuning"], /option '--tuning <name>' argument missing; see/],
    ["where nothing", ["where"], /missing required argument 'what'; see --help/],
    ["where no note", ["where", "H4"], /where: "H4" is no note; ask for a note, such as where D4, or for a string/],
    ["where a note without octave", ["where", "d"], /"d" has no octave; say which one, such as D3 \(C4 is middle C\)/],
    ["where string 0", ["where", "0", "7"], /there is no string "0"; strings run from 1 \(the lowest\) to 7/],
    ["where string 8", ["where", "8"], /there is no string "8"/],
    ["where beyond the nut", ["where", "4", "14.1"], /there is no place "14.1"; places run from hui 1 to 13/],
    ["where before hui 1", ["where", "4", "0.9"], /there is no place "0.9"/],
    ["where two notes", ["where", "D4", "F4"], /"F4" is one word too many/],
    ["where three words", ["where", "4", "7", "9"], /"9" is one word too many/],
    ["where in an unknown tuning", ["where", "D4", "--tuning", "x"], /no tuning called "x"/],
    ["where into no folder", ["where", "D4", "--json", "none-such/a.json"], /folder none-such does not exist/],
    ["a guide in no format", ["guide", "--format", "pdf"], /--format: no such value: "pdf"; known: html, md, json/],
    ["a guide for no hand", ["guide", "--hand", "none"], /no hand called "none"/],
    ["a guide into no folder", ["guide", "--output", "none-such/a.html"], /folder none-such does not exist/],
  ])("%s", async (_, args, message) => {
    const folder = workplace();
    const { code, out, err } = await huipath(folder, args);
    expect(err).toMatch(/^huipath: [^\n]+\n$/);
    expect(err).toMatch(message);
    expect(out).toBe("");
    expect(code).toBe(2);
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe.concurrent("huipath by itself", () => {
  test("--version prints the bare version", async () => {
    const { version } = JSON.parse(readFileSync(at("../package.json"), "utf8"));
    expect(await huipath(workplace(), ["--version"])).toEqual({ code: 0, out: `${version}\n`, err: "" });
  });

  test.each([["--help"], ["check --help"], ["where --help"], ["guide --help"]])("%s", async (args) => {
    const { code, out, err } = await huipath(workplace(), args.split(" "));
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out).toContain("Usage: huipath");
  });
});

describe.concurrent("check", () => {
  test("writes the report beside and says where it lies, on one screen", async () => {
    const folder = workplace();
    const { code, out, err } = await huipath(folder, ["check", GRACE]);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(readdirSync(folder)).toEqual(["amazing-grace.report.html"]);
    expect(out).toMatch(/\nReport: amazing-grace\.report\.html\n$/);
    expect(out.split("\n").length).toBeLessThan(25);
  });

  test("replaces its own report without a word, and leaves another's file alone", async () => {
    const folder = workplace();
    const path = join(folder, "amazing-grace.report.html");
    writeFileSync(path, "my own page");
    const refused = await huipath(folder, ["check", GRACE, "--json", "a.json"]);
    expect(refused.code).toBe(2);
    expect(refused.err).toBe(
      "huipath: amazing-grace.report.html: this file exists and huipath did not make it; choose another name, or say --force to replace it\n",
    );
    expect(readFileSync(path, "utf8")).toBe("my own page");
    expect(readdirSync(folder)).toEqual(["amazing-grace.report.html"]);
    expect((await huipath(folder, ["check", GRACE, "--force"])).code).toBe(0);
    expect(readFileSync(path, "utf8")).toContain("<!doctype html>");
    expect((await huipath(folder, ["check", GRACE])).code).toBe(0);
  });

  test("--json - gives JSON only, also where findings decide the exit code", async () => {
    const folder = workplace();
    const { code, out, err } = await huipath(folder, ["check", LARK, "--json", "-", "--report", "none"]);
    expect({ code, err }).toEqual({ code: 1, err: "" });
    const json = JSON.parse(out);
    expect(json).toMatchObject({ schema: 1, command: "check", verdict: { playable: false } });
    expect(json.findings.some((finding: { severity: string }) => finding.severity === "blocker")).toBe(true);
    expect(readdirSync(folder)).toEqual([]);
  });

  test("--json FILE is replaced when it is huipath's own", async () => {
    const folder = workplace();
    const args = ["check", GRACE, "--json", "a.json", "--report", "none"];
    const first = await huipath(folder, args);
    expect(first.out).toContain("JSON: a.json");
    expect((await huipath(folder, args)).code).toBe(0);
    expect(JSON.parse(readFileSync(join(folder, "a.json"), "utf8")).score.file).toBe("amazing-grace.musicxml");
  });

  test("reads standard input as -, and the same score gives the same JSON", async () => {
    const folder = workplace();
    const { code, out } = await huipath(folder, ["check", "-"], readFileSync(GRACE, "utf8"));
    expect(code).toBe(0);
    expect(out).toContain("Report: score.report.html");
    expect(readdirSync(folder)).toEqual(["score.report.html"]);
    const args = ["--json", "-", "--report", "none"];
    const piped = await huipath(folder, ["check", "-", ...args], readFileSync(GRACE, "utf8"));
    const named = await huipath(folder, ["check", GRACE, ...args]);
    const { score, ...rest } = JSON.parse(named.out);
    expect(JSON.parse(piped.out)).toEqual({ ...rest, score: { ...score, file: "standard input" } });
  });

  test("an empty standard input is said to be no score", async () => {
    const { code, err } = await huipath(workplace(), ["check", "-"]);
    expect(code).toBe(2);
    expect(err).toMatch(/^huipath: standard input[^\n]+\n$/);
  });

  test("--fail-on moves the exit code", async () => {
    const run = (severity: string) =>
      huipath(workplace(), ["check", MARKET, "--report", "none", "--fail-on", severity]);
    const { out } = await huipath(workplace(), ["check", MARKET, "--report", "none", "--json", "-"]);
    const found: readonly { severity: string }[] = JSON.parse(out).findings;
    const order = ["note", "caution", "problem", "blocker"];
    for (const severity of order) {
      const above = found.some((finding) => order.indexOf(finding.severity) >= order.indexOf(severity));
      expect((await run(severity)).code, severity).toBe(above ? 1 : 0);
    }
    expect(found.some((finding) => finding.severity === "note")).toBe(true);
  });

  test("--quiet prints nothing on success", async () => {
    const ended = await huipath(workplace(), ["check", GRACE, "--quiet"]);
    expect(ended).toEqual({ code: 0, out: "", err: "" });
  });

  test("--report - gives the page", async () => {
    const folder = workplace();
    const { out } = await huipath(folder, ["check", GRACE, "--report", "-"]);
    expect(out).toMatch(/^<!doctype html>[\s\S]*<\/html>\n$/);
    expect(readdirSync(folder)).toEqual([]);
  });

  test("--transpose, --tuning and --bars reach the setting", async () => {
    const more = ["--transpose", "-12", "--tuning", "ruibin", "--bars", "1-2"];
    const { out } = await huipath(workplace(), ["check", MARKET, "--json", "-", "--report", "none", ...more]);
    const { setting, score } = JSON.parse(out);
    expect(setting).toMatchObject({ transpose: -12, tuning: "ruibin" });
    expect(score.bars).toBe(2);
  });
});

describe.concurrent("check --audio", () => {
  test("writes a sound file, says where, and replaces only what huipath made", async () => {
    const folder = workplace();
    const args = ["check", GRACE, "--report", "none", "--bars", "0-4", "--audio", "grace.wav"];
    expect((await huipath(folder, args)).out).toMatch(/\nSound: grace\.wav\n$/);
    const first = readFileSync(join(folder, "grace.wav"));
    expect(first.toString("latin1", 0, 4)).toBe("RIFF");
    expect((await huipath(folder, args)).code).toBe(0);
    expect(readFileSync(join(folder, "grace.wav")).equals(first)).toBe(true);
    writeFileSync(join(folder, "grace.wav"), "my own recording");
    const refused = await huipath(folder, args);
    expect(refused.code).toBe(2);
    expect(refused.err).toMatch(/grace\.wav: this file exists and huipath did not make it/);
  });

  test("shares standard output with nothing else", async () => {
    const { code, err } = await huipath(workplace(), ["check", GRACE, "--audio", "-", "--json", "-"]);
    expect(code).toBe(2);
    expect(err).toMatch(/--audio: more than one asks for standard output/);
  });
});

describe.concurrent("check --score", () => {
  const settingIn = async (folder: string, args: readonly string[]): Promise<Record<string, unknown>> =>
    JSON.parse((await huipath(folder, ["check", ...args, "--report", "none", "--json", "-"])).out).setting;

  test("writes the score, says where, and replaces only what huipath made", async () => {
    const folder = workplace();
    const args = ["check", GRACE, "--report", "none", "--score", "fingered.musicxml"];
    expect((await huipath(folder, args)).out).toMatch(/\nAnnotated score: fingered\.musicxml\n$/);
    expect((await huipath(folder, args)).code).toBe(0);
    writeFileSync(join(folder, "fingered.musicxml"), readFileSync(GRACE));
    const refused = await huipath(folder, args);
    expect(refused.code).toBe(2);
    expect(refused.err).toMatch(/fingered\.musicxml: this file exists and huipath did not make it/);
    expect(readFileSync(join(folder, "fingered.musicxml"))).toEqual(readFileSync(GRACE));
  });

  test("the stored setting holds unless an option or a brief says otherwise", async () => {
    const folder = workplace();
    writeFileSync(join(folder, "wide.yaml"), readFileSync(at("../rules/hands/large.yaml")));
    const options = ["--tuning", "manjue", "--transpose", "-P4", "--temperament", "just", "--hand", "wide.yaml"];
    const stored = await settingIn(folder, [GRACE, ...options]);
    expect(stored).toMatchObject({ tuning: "manjue", transpose: -5, temperament: "just", hand: "wide" });
    await huipath(folder, ["check", GRACE, ...options, "--report", "none", "--score", "a.musicxml"]);
    rmSync(join(folder, "wide.yaml"));
    expect(await settingIn(folder, ["a.musicxml"])).toEqual(stored);
    writeFileSync(join(folder, "brief.yaml"), "transpose: -2\n");
    expect(await settingIn(folder, ["a.musicxml", "--brief", "brief.yaml", "--hand", "small"])).toMatchObject({
      ...{ tuning: "manjue", transpose: -2, hand: "small" },
    });
  });

  test("a stored setting that cannot be used is refused with its line", async () => {
    const folder = workplace();
    await huipath(folder, ["check", GRACE, "--report", "none", "--score", "a.musicxml"]);
    const text = readFileSync(join(folder, "a.musicxml"), "utf8").replace('"zhengdiao"', '"zhengdio"');
    writeFileSync(join(folder, "a.musicxml"), text);
    const { code, err } = await huipath(folder, ["check", "a.musicxml"]);
    expect(code).toBe(2);
    expect(err).toMatch(/^huipath: a\.musicxml line \d+ \(huipath-setting\): no tuning called "zhengdio"/);
  });

  test("- writes the score alone to standard output; a name in .mxl packs it", async () => {
    const folder = workplace();
    const piped = await huipath(folder, ["check", GRACE, "--report", "none", "--score", "-"]);
    expect(piped.out).toMatch(/^<\?xml .*<\/score-partwise>\n$/s);
    const args = ["check", "-", "--report", "none", "--json", "a.json", "--score", "a.mxl"];
    expect((await huipath(folder, args, piped.out)).code).toBe(0);
    const packed = JSON.parse((await huipath(folder, ["check", "a.mxl", "--report", "none", "--json", "-"])).out);
    const plain = JSON.parse(readFileSync(join(folder, "a.json"), "utf8"));
    expect(packed.fingering).toEqual(plain.fingering);
    expect((await huipath(folder, args, piped.out)).code).toBe(0);
  });
});

describe.concurrent("where", () => {
  test("lists the places of a note", async () => {
    const { code, out, err } = await huipath(workplace(), ["where", "D4"]);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out).toContain("D4 has 12 places in standard tuning");
    expect(out).toMatch(/^7 +stopped \(an\) +7 +1200 +D4$/m);
  });

  test("--json - gives the list and nothing else", async () => {
    const { out } = await huipath(workplace(), ["where", "4", "7.9", "--json", "-"]);
    expect(JSON.parse(out)).toEqual([{ string: 4, sound: "stopped", position: 7.9, cents: 913.456, pitch: "E3" }]);
  });

  test("--json FILE is replaced when it is huipath's own, else kept", async () => {
    const folder = workplace();
    const args = ["where", "D4", "--json", "a.json"];
    expect((await huipath(folder, args)).out).toMatch(/\nJSON: a\.json\n$/);
    expect((await huipath(folder, args)).code).toBe(0);
    writeFileSync(join(folder, "a.json"), "[1]");
    expect((await huipath(folder, args)).code).toBe(2);
    expect(readFileSync(join(folder, "a.json"), "utf8")).toBe("[1]");
    expect((await huipath(folder, [...args, "--force"])).code).toBe(0);
  });

  test("a note that no string sounds is an answer", async () => {
    const { code, out } = await huipath(workplace(), ["where", "B1"]);
    expect(code).toBe(0);
    expect(out).toContain("No string sounds B1");
    expect((await huipath(workplace(), ["where", "B1", "--json", "-"])).out).toBe("[]\n");
  });
});

describe.concurrent("guide", () => {
  test("writes a page and replaces it", async () => {
    const folder = workplace();
    const { code, out, err } = await huipath(folder, ["guide"]);
    expect({ code, err }).toEqual({ code: 0, err: "" });
    expect(out).toMatch(/^The handbook, with \d+ rules: huipath-guide\.html\n$/);
    expect(readdirSync(folder)).toEqual(["huipath-guide.html"]);
    expect((await huipath(folder, ["guide"])).code).toBe(0);
  });

  test("--format md and json go to standard output unless a file is named", async () => {
    const folder = workplace();
    expect((await huipath(folder, ["guide", "--format", "md"])).out).toMatch(/^<!-- made by huipath -->\n/);
    expect(JSON.parse((await huipath(folder, ["guide", "--format", "json"])).out).command).toBe("guide");
    expect(readdirSync(folder)).toEqual([]);
    const args = ["guide", "--format", "md", "--output", "book.md"];
    expect((await huipath(folder, args)).out).toMatch(/book\.md\n$/);
    expect((await huipath(folder, args)).code).toBe(0);
    expect((await huipath(folder, ["guide", "--output", "-"])).out).toMatch(/^<!doctype html>/);
    expect(readdirSync(folder)).toEqual(["book.md"]);
  });
});
