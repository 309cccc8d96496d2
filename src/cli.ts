#!/usr/bin/env node
// SPDX-License-Identifier: AGPL-3.0-or-later
// Arguments in, files and exit code out. The only user of `process`.
import { createRequire } from "node:module";
import { Command, CommanderError } from "commander";
import { InputProblem } from "./problem.js";
import type { CheckCall } from "./run/check.js";
import type { CompareCall } from "./run/compare.js";
import type { FitCall } from "./run/fit.js";
import type { GuideCall } from "./run/guide.js";
import type { Outcome, Progress } from "./run/outcome.js";
import type { WhereCall } from "./run/where.js";
import { oneLine, printable } from "./words.js";

const { version: VERSION } = createRequire(import.meta.url)("../../package.json") as { version: string };

/** Work shorter than this shows no progress, in ms. */
const QUIET_WORK_MS = 1000;

const PART_HELP =
  "id, name, abbreviation or number of the part, or how one of them begins; where they clash, in this order";
const VOICE_HELP = "the voice as the file names it, its number in the part, or its staff (staff 2); in this order";

/** Options of `check` as commander names them: its `--score` is where the annotated score goes. */
type CheckOptions = Omit<CheckCall, "score" | "annotated"> & { readonly score?: string };

function progress(): Progress {
  const start = Date.now();
  return (doing) => {
    if (process.stderr.isTTY && Date.now() - start > QUIET_WORK_MS) process.stderr.write(`${doing} ...\n`);
  };
}

function finish(outcome: Outcome): void {
  process.stdout.write(outcome.text);
  process.stderr.write(outcome.complaint);
  process.exitCode = outcome.code;
}

function program(): Command {
  const huipath = new Command("huipath")
    .description("Finds and judges guqin fingerings for a MusicXML melody.")
    .version(VERSION)
    .exitOverride()
    .configureOutput({ writeErr: () => {} });
  huipath
    .command("check")
    .description("find or judge a fingering and write a report")
    .argument("<score>", "a MusicXML file (.musicxml, .xml, .mxl), - for standard input")
    .option("--tuning <name>", 'a tuning\'s name or seven pitches such as "C2 D2 F2 G2 A2 C3 D3"')
    .option(
      "--transpose <interval>",
      "semitones (-12), an interval (-P5), or best: compares settings and takes the best",
    )
    .option("--part <part>", PART_HELP)
    .option("--voice <voice>", VOICE_HELP)
    .option("--bars <from-to>", "only these bars, by their printed labels (or #N by order)")
    .option("--hand <hand>", "small, medium, large, beginner, experienced, or a YAML file")
    .option("--temperament <name>", "pythagorean, just or equal")
    .option("--brief <file>", "what the arranger knows beyond the notes (YAML): passages, pins, accepted rules")
    .option("--write-brief <file>", "write a brief to start from: what was found, ready to answer")
    .option("--objective <wish>", "what is to be small: total effort, or the worst single moment (total, worst)")
    .option("--ways <count>", "so many fingerings that really differ, with what sets them apart")
    .option("--same-figures <cost>", "figures return on the same places where that costs at most so many spare moves")
    .option("--taste", "say what other weights of the rules would change (takes time)")
    .option(
      "--focus <sign>",
      "a study of one stroke or left-hand sign: what the piece leaves out of it, as lines to play",
    )
    .option("--certificate <file>", "write what proves that no fingering costs less (JSON)")
    .option("--audio <file>", "also write how the line sounds (WAV); - for standard output")
    .option("--score <file>", "also write the score with the fingering in it; packed if the name ends in .mxl")
    .option("--report <file>", "where the page goes; none for no page")
    .option("--json <file>", "also write JSON; - for standard output")
    .option("--fail-on <severity>", "exit with 1 from this on: note, caution, problem or blocker")
    .option("--lang <language>", "of the page, the summary and the JSON: en (English), zh (Chinese)")
    .option("--quiet", "print nothing on success")
    .option("--no-color", "plain text (the output has no colour anyway)")
    .option("--force", "replace files that huipath did not make")
    .action(async (score: string, { score: annotated, ...options }: CheckOptions) => {
      const call = { ...options, score, ...(annotated === undefined ? {} : { annotated }) };
      finish(await (await import("./run/check.js")).runCheck(call, VERSION, progress()));
    });
  huipath
    .command("fit")
    .description("rank tunings and transpositions for a melody")
    .argument("<score>", "a MusicXML file (.musicxml, .xml, .mxl), - for standard input")
    .option("--tunings <list>", "only these tunings, with commas between; all thirteen if left out")
    .option("--keep-key", "move the melody by whole octaves only")
    .option("--octaves", "let whole phrases move by an octave where they leave the range of the strings")
    .option("--top <count>", "show so many settings (10)")
    .option("--part <part>", PART_HELP)
    .option("--voice <voice>", VOICE_HELP)
    .option("--bars <from-to>", "only these bars, by their printed labels (or #N by order)")
    .option("--hand <hand>", "small, medium, large, beginner, experienced, or a YAML file")
    .option("--temperament <name>", "pythagorean, just or equal")
    .option("--brief <file>", "what the arranger knows beyond the notes (YAML)")
    .option("--report <file>", "where the page goes; none for no page")
    .option("--json <file>", "also write JSON; - for standard output")
    .option("--lang <language>", "of the page, the summary and the JSON: en (English), zh (Chinese)")
    .option("--quiet", "print nothing on success")
    .option("--no-color", "plain text (the output has no colour anyway)")
    .option("--force", "replace files that huipath did not make")
    .action(async (score: string, options: Omit<FitCall, "score">) =>
      finish(await (await import("./run/fit.js")).runFit({ ...options, score }, VERSION, progress())),
    );
  huipath
    .command("compare")
    .description("two fingerings of one melody side by side; without B, A against the best")
    .argument("<a>", "a score with a fingering, - for standard input")
    .argument("[b]", "another fingering of the same notes, or the same score again for two settings")
    .option("--tuning <name>", "of both sides: a tuning's name or seven pitches")
    .option("--tuning-b <name>", "of B alone")
    .option("--transpose <interval>", "of both sides: semitones (-12) or an interval (-P5)")
    .option("--transpose-b <interval>", "of B alone")
    .option("--part <part>", PART_HELP)
    .option("--part-b <part>", "in B alone")
    .option("--voice <voice>", VOICE_HELP)
    .option("--voice-b <voice>", "in B alone")
    .option("--bars <from-to>", "only these bars, by their printed labels (or #N by order)")
    .option("--hand <hand>", "of both sides: small, medium, large, beginner, experienced, or a YAML file")
    .option("--hand-b <hand>", "of B alone")
    .option("--temperament <name>", "of both sides: pythagorean, just or equal")
    .option("--temperament-b <name>", "of B alone")
    .option("--brief <file>", "what the arranger knows of A beyond the notes (YAML)")
    .option("--brief-b <file>", "the same for B")
    .option("--report <file>", "where the page goes; none for no page")
    .option("--json <file>", "also write JSON; - for standard output")
    .option("--lang <language>", "of the page, the summary and the JSON: en (English), zh (Chinese)")
    .option("--quiet", "print nothing on success")
    .option("--no-color", "plain text (the output has no colour anyway)")
    .option("--force", "replace files that huipath did not make")
    .action(async (score: string, scoreB: string | undefined, options: Omit<CompareCall, "score" | "scoreB">) => {
      const call = { ...options, score, ...(scoreB === undefined ? {} : { scoreB }) };
      finish(await (await import("./run/compare.js")).runCompare(call, VERSION, progress()));
    });
  huipath
    .command("where")
    .description("every place of a note (where D4), or what a place sounds (where 4 7.9)")
    .argument("<what...>", "a note, or a string and a place")
    .option("--tuning <name>", "a tuning's name or seven pitches")
    .option("--temperament <name>", "pythagorean, just or equal")
    .option("--json <file>", "write JSON; - for standard output")
    .option("--lang <language>", "of the answer: en (English), zh (Chinese)")
    .option("--no-color", "plain text (the output has no colour anyway)")
    .option("--force", "replace files that huipath did not make")
    .action(async (what: string[], options: Omit<WhereCall, "what">) =>
      finish(await (await import("./run/where.js")).runWhere({ ...options, what })),
    );
  huipath
    .command("guide")
    .description("the handbook: every rule, and tables to look things up in")
    .option("--format <format>", "html, md or json", "html")
    .option("--output <file>", "where it goes; - for standard output")
    .option("--hand <hand>", "the hand whose limits it prints")
    .option("--lang <language>", "en (English), zh (Chinese)")
    .option("--force", "replace files that huipath did not make")
    .action(async (options: GuideCall) => finish(await (await import("./run/guide.js")).runGuide(options, VERSION)));
  for (const command of huipath.commands) command.exitOverride().configureOutput({ writeErr: () => {} });
  return huipath;
}

/** A complaint is no longer, since what it quotes comes from outside: its middle is left out. */
const MOST_CHARACTERS = 900;
/** The end of a complaint says what would work. */
const LAST_CHARACTERS = 250;
const LEFT_OUT = " ... ";

/** One line: commander puts its suggestion on a line of its own, and what is quoted may hold anything. */
function complaint(text: string): string {
  const line = `huipath: ${oneLine(text)}`;
  if (line.length <= MOST_CHARACTERS) return line;
  // Half a character is none.
  const first = line.slice(0, MOST_CHARACTERS - LAST_CHARACTERS - LEFT_OUT.length).replace(/[\ud800-\udbff]$/, "");
  const last = line.slice(-LAST_CHARACTERS).replace(/^[\udc00-\udfff]/, "");
  return first + LEFT_OUT + last;
}

/** What is wrong with a call; where commander has no suggestion, where to look. */
function callComplaint(error: CommanderError): string {
  if (error.code === "commander.help") return "no command given; try check, fit, compare, where or guide, or --help";
  const text = oneLine(error.message.replace(/^error: /, "")).replace(/\.$/, "");
  const score = /'([^']+\.(?:musicxml|xml|mxl))'/.exec(text)?.[1];
  if (error.code === "commander.unknownCommand" && score !== undefined) return `${text}; say huipath check ${score}`;
  return text.includes("Did you mean") ? text : `${text}; see --help`;
}

function fail(error: unknown): void {
  if (error instanceof CommanderError) {
    if (error.exitCode === 0) return;
    process.stderr.write(`${complaint(callComplaint(error))}\n`);
    process.exitCode = 2;
  } else if (error instanceof InputProblem) {
    process.stderr.write(`${complaint(error.message)}\n`);
    process.exitCode = 2;
  } else {
    const trace = error instanceof Error ? (error.stack ?? error.message) : String(error);
    process.stderr.write(`huipath: a defect in huipath itself: ${trace.split("\n").map(printable).join("\n")}\n`);
    process.exitCode = 3;
  }
}

// A reader that has seen enough (`huipath guide --format md | head`) is no defect.
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code !== "EPIPE") throw error;
});

try {
  await program().parseAsync(process.argv);
} catch (error) {
  fail(error);
}
