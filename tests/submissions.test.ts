// SPDX-License-Identifier: AGPL-3.0-or-later
// Fingered scores with known faults, as a teacher receives them (fixtures/submissions), through the whole pipeline: every
// finding is expected in tests/submissions, and nothing else may be found. Each intended fault names the published source
// of the fact that it rests on, or says that there is none.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { checkSummary } from "../reports/summary.js";
import { readScore } from "../src/read/score.js";
import type { CheckJson, FindingJson } from "../src/report.js";
import { readCall, type ScoreCall } from "../src/run/input.js";
import { judge } from "../src/run/judge.js";

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
const FOLDER = at("../fixtures/submissions/");
const FILES = readdirSync(FOLDER).filter((file) => /\.(musicxml|mxl)$/.test(file));
const nameOf = (file: string): string => file.replace(/\.\w+$/, "");

/** A fault that was put in on purpose, and the exact words for it. */
interface Intended {
  readonly at: string;
  readonly rule: string;
  readonly severity: string;
  readonly says: string;
  readonly fact: string;
}

/** One call and all that it finds; places are BAR/BEAT, "line" for the whole line. */
interface Run {
  readonly run: string;
  readonly options: Pick<ScoreCall, "tuning">;
  readonly brief: boolean;
  readonly source: string;
  readonly sentence: string;
  readonly intended: readonly Intended[];
  /** other open findings above a note, which the faults bring with them: "BAR/BEAT RULE SEVERITY" */
  readonly beside: readonly string[];
  /** open notes: "BAR/BEAT RULE" */
  readonly notes: readonly string[];
  /** what the report folds, since a finding about the whole line explains it: "BAR/BEAT RULE SEVERITY" */
  readonly following: readonly string[];
  /** what is left alone on purpose: "BAR/BEAT RULE SEVERITY" */
  readonly leftAlone: readonly string[];
  /** the reason of all that is left alone; null for none */
  readonly reason: string | null;
}

function expected(file: string): readonly Run[] {
  return parse(readFileSync(at(`submissions/${nameOf(file)}.yaml`), "utf8"));
}

function check(file: string, { options, brief }: Pick<Run, "options" | "brief">): CheckJson {
  const beside = brief ? { brief: `${FOLDER}${nameOf(file)}.yaml` } : {};
  const call = readCall({ score: FOLDER + file, ...options, ...beside });
  return judge(call.score, call.setting, "0.0.0", call.brief).json;
}

const placeOf = ({ bar, beat }: FindingJson): string => (bar === null ? "line" : `${bar}/${beat}`);
const short = (finding: FindingJson): string => `${placeOf(finding)} ${finding.rule} ${finding.severity}`;

/** What a run found, in the form of what was expected of it; `facts` go with the intended findings. */
function found({ findings, fingering, verdict }: CheckJson, run: Run): Omit<Run, "run" | "options" | "brief"> {
  const facts = new Map(run.intended.map((one) => [`${one.at} ${one.rule}`, one.fact]));
  const standing = findings.filter(({ status }) => status === "open");
  const open = standing.filter(({ followsFrom }) => followsFrom === null);
  const following = standing.filter(({ followsFrom }) => followsFrom !== null);
  const left = findings.filter(({ status }) => status === "accepted");
  const factOf = (finding: FindingJson): string | undefined => facts.get(`${placeOf(finding)} ${finding.rule}`);
  const reasons = new Set(left.map(({ reason }) => reason));
  expect(findings.length, "no third status").toBe(standing.length + left.length);
  expect(reasons.size, "one reason for all").toBeLessThanOrEqual(1);
  return {
    source: fingering.source,
    sentence: String(verdict.sentence),
    intended: open.flatMap((finding): Intended[] => {
      const fact = factOf(finding);
      const { rule, severity, message } = finding;
      return fact === undefined ? [] : [{ at: placeOf(finding), rule, severity, says: String(message), fact }];
    }),
    beside: open.filter((one) => factOf(one) === undefined && one.severity !== "note").map(short),
    notes: open
      .filter((one) => factOf(one) === undefined && one.severity === "note")
      .map((one) => `${placeOf(one)} ${one.rule}`),
    following: following.map(short),
    leftAlone: left.map(short),
    reason: [...reasons][0] ?? null,
  };
}

describe.each(FILES)("%s", (file) => {
  test("says where it comes from and what is deliberately wrong", () => {
    const { source } = readScore(readFileSync(FOLDER + file), file);
    expect(source.text).toMatch(/<miscellaneous-field name="origin">\S.+</);
    expect(source.text).toMatch(/<miscellaneous-field name="faults">Deliberately \S.+</);
  });

  test.each(expected(file))("$run", (run) => {
    const { run: _, options, brief, ...rest } = run;
    const json = check(file, { options, brief });
    expect(found(json, run)).toEqual(rest);
    expect(json.unread).toEqual([]);
    expect(json.tallies.filter(({ crashed }) => crashed !== null)).toEqual([]);
  });

  test("a brief that lies beside it is tried, and its absence too", () => {
    const tried = expected(file).map(({ brief }) => brief);
    expect(tried).toContain(false);
    expect(tried.includes(true)).toBe(existsSync(`${FOLDER}${nameOf(file)}.yaml`));
  });
});

test("the terminal does not count what is left alone on purpose among the findings", () => {
  const beside = { brief: `${FOLDER}knot-that-is-meant.yaml` };
  const call = readCall({ score: `${FOLDER}knot-that-is-meant.mxl`, ...beside });
  const report = judge(call.score, call.setting, "0.0.0", call.brief);
  const lines = checkSummary(report, { report: null, json: null, score: null, certificate: null, audio: null }).split(
    "\n",
  );
  expect(lines).toContain("No findings.");
  expect(lines).toContain(`Left alone on purpose: ${report.json.findings.length} findings, listed in the report.`);
});

/**
 * Semitones above the open string by written place: the beginner's list of hui-fen signs at kxting.com, where wai (13.1)
 * and 12 for a little past 12 (12.2) stand too; 10.8 and 11 for four semitones: the tuning lesson at
 * yinyue.81art.com and J. Thompson, silkqin.com, list of a Ming handbook.
 */
const PUBLISHED: Readonly<Record<string, number>> = {
  ...{ "13.1": 2, "12.2": 3, "11": 4, "10.8": 4, "10": 5, "9": 7, "8.5": 8, "7.9": 9, "7.6": 10, "7": 12, "5.6": 17 },
};
/** Open strings of the standard tuning and of ruibin, semitones above C2: J. Thompson, silkqin.com, on the qin tunings. */
const OPEN: Readonly<Record<string, readonly number[]>> = {
  zhengdiao: [0, 2, 5, 7, 9, 12, 14],
  ruibin: [0, 2, 5, 7, 10, 12, 14],
};
const NATURAL: Readonly<Record<string, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

/** Semitones above C2 of a pitch in scientific notation. */
function semitonesOf(pitch: string): number {
  const [, step = "", flat, octave] = /^([A-G])(b?)(\d)$/.exec(pitch) ?? [];
  return (NATURAL[step] ?? Number.NaN) - (flat === "b" ? 1 : 0) + 12 * (Number(octave) - 2);
}

test.each(["wrong-tenths", "written-in-characters", "careful-in-ruibin", "ring-past-thumb", "gou-against-its-way"])(
  "%s: the places that are called wrong are those that the published tables call so",
  (name) => {
    const file = `${name}.musicxml`;
    const [run] = expected(file) as [Run];
    const { fingering, setting, findings } = check(file, run);
    const wrong = fingering.notes.filter((note) => {
      const written = note.writtenPosition ?? note.position;
      const above = written === null ? 0 : PUBLISHED[String(written)];
      const open = OPEN[setting.tuning]?.[(note.string ?? 0) - 1];
      return (open ?? Number.NaN) + (above ?? Number.NaN) !== semitonesOf(note.sounding);
    });
    const told = findings.filter(({ rule }) => rule === "written-place-mismatch");
    expect(wrong.map(({ id }) => id)).toEqual(told.map(({ notes }) => notes[0]));
  },
);
