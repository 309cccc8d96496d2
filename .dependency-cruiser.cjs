// SPDX-License-Identifier: AGPL-3.0-or-later
// The import law: data flows one way, and a part knows only the parts before it. Each comment is for whoever broke it.

const OURS = "^(src|rules|reports|tests)/";

/** Where each part lives. */
const PART = {
  problem: "^src/problem\\.ts$",
  words: "^src/words\\.ts$",
  model: "^src/model/",
  read: "^src/read/",
  rule: "^src/rule/",
  rules: "^rules/",
  candidates: "^src/candidates/",
  search: "^src/search/",
  check: "^src/check/",
  sound: "^src/sound/",
  report: "^src/report(\\.ts$|/)",
  reports: "^reports/",
  engrave: "^src/engrave/",
  write: "^src/write/",
  script: "^reports/script/",
  run: "^src/run/",
  cli: "^src/cli\\.ts$",
};

/**
 * One part's law.
 *
 * @param {keyof PART} part
 * @param {(keyof PART)[]} allowed what it may import besides itself
 * @param {string} comment what the offender should do
 */
function mayImport(part, allowed, comment) {
  return {
    name: `${part}-sees-only-what-comes-before-it`,
    severity: "error",
    comment,
    from: { path: PART[part] },
    to: { path: OURS, pathNot: [PART[part], ...allowed.map((name) => PART[name])] },
  };
}

module.exports = {
  forbidden: [
    mayImport(
      "problem",
      [],
      "problem.ts is what everything else throws, so it imports nothing of ours. Put the words of the problem where it is thrown.",
    ),
    mayImport("words", [], "words.ts only holds two languages side by side. What is said stands where it is said."),
    mayImport(
      "model",
      ["problem", "words"],
      "The model is plain data and pure functions about music and the instrument. If it needs a rule, a file or a search, the function belongs to that part, not here.",
    ),
    mayImport(
      "read",
      ["problem", "words", "model"],
      "The reader turns bytes into model values and judges nothing. Return what you found (a mark, an unread element) and let a rule speak about it.",
    ),
    mayImport(
      "rule",
      ["problem", "words", "model"],
      "src/rule holds the shape of a rule, not rules: it may not know any rule, search or check. Pass what you need as an argument.",
    ),
    mayImport(
      "rules",
      ["problem", "words", "model", "rule"],
      "A rule judges what it is handed. It may not search, check, read or print: return a number, and let the search and the check use it. Code that two rules share goes to src/model or to a file of rules/.",
    ),
    mayImport(
      "candidates",
      ["problem", "words", "model", "rule"],
      "Candidates are every way to sound a note; which is good is the business of rules, which arrive as arguments. Do not import rules/ or the search.",
    ),
    mayImport(
      "search",
      ["problem", "words", "model", "rule", "candidates"],
      "The search adds up what rules charge. Rules arrive as arguments (never import rules/), and the check asks the search for remedies, never the reverse.",
    ),
    mayImport(
      "check",
      ["problem", "words", "model", "rule", "candidates", "search"],
      "The check turns charges into findings. Rules arrive as arguments (never import rules/); wording a whole report or printing belongs to report.ts and reports/.",
    ),
    mayImport(
      "sound",
      [],
      "src/sound runs in the page too, so it knows numbers and strings only. Compute what it needs in src/report, and hand it over as a SoundLine.",
    ),
    mayImport(
      "report",
      ["problem", "words", "model", "rule", "candidates", "search", "check", "sound"],
      "report.ts assembles a plain value without markup. Move markup to reports/, notation to src/engrave, files to src/write; let src/run hand over what the reader returned.",
    ),
    mayImport(
      "reports",
      ["problem", "words", "model", "rule", "report", "engrave", "sound"],
      "An output prints the Report value and decides nothing. What is missing there is to be computed by the check and put into the value by report.ts; engraved music arrives as an argument from src/run.",
    ),
    {
      name: "reports-know-rules-as-types-only",
      severity: "error",
      comment:
        "The guide prints rules that it is handed, so it may know their type. Use `import type`; get the rules themselves as an argument.",
      from: { path: PART.reports },
      to: { path: PART.rule, dependencyTypesNot: ["type-only"] },
    },
    {
      name: "reports-know-engraving-as-types-only",
      severity: "error",
      comment: "A page prints the music that it is handed. Use `import type`; let src/run call the engraver.",
      from: { path: PART.reports },
      to: { path: PART.engrave, dependencyTypesNot: ["type-only"] },
    },
    {
      name: "the-page-script-runs-in-a-page",
      severity: "error",
      comment:
        "reports/script is bundled into the page: it may use src/sound, how pins are packed, and types of reports. What it needs to know comes as a data block.",
      from: { path: PART.script },
      to: { pathNot: [PART.script, PART.sound, "^reports/pin-pack[.]ts$"], dependencyTypesNot: ["type-only"] },
    },
    mayImport(
      "engrave",
      ["problem", "words", "model", "report"],
      "Engraving draws what it is handed. It may not choose a fingering or know a page: take the score and the signs as arguments.",
    ),
    mayImport(
      "write",
      ["problem", "words", "model", "report", "read", "sound"],
      "Writing puts text into files and judges nothing. Take what to write as an argument from src/run.",
    ),
    {
      name: "write-knows-the-reader-as-types-only",
      severity: "error",
      comment:
        "write may know the type of the source text that read returns. Use `import type`, and get the value as an argument.",
      from: { path: PART.write },
      to: { path: PART.read, dependencyTypesNot: ["type-only"] },
    },
    {
      name: "only-run-joins",
      severity: "error",
      comment:
        "src/run alone joins the parts, and cli.ts alone calls it. Take what you need as an argument instead of importing upward.",
      from: { path: "^(src|rules|reports)/", pathNot: [PART.run, PART.cli] },
      to: { path: [PART.run, PART.cli] },
    },
    mayImport(
      "cli",
      ["problem", "words", "model", "run"],
      "cli.ts turns arguments into a call of src/run and a result into an exit code. Do the work in src/run or in the part it belongs to.",
    ),
    {
      name: "run-is-below-the-command-line",
      severity: "error",
      comment:
        "src/run gets streams, folders and options as arguments, so that a test can call it. Do not import cli.ts.",
      from: { path: PART.run },
      to: { path: PART.cli },
    },
    {
      name: "product-does-not-need-tests",
      severity: "error",
      comment: "What ships may not import tests. Move the shared code to the part of src that it belongs to.",
      from: { path: "^(src|rules|reports)/" },
      to: { path: "^tests/" },
    },
    {
      name: "only-some-parts-touch-files",
      severity: "error",
      comment:
        "Only read, write, run and the loading of templates in reports touch the file system. Return a value and let src/run store it, or take the content as an argument.",
      from: { path: "^(src|rules|reports)/", pathNot: [PART.read, PART.write, PART.run, PART.reports] },
      to: { path: ["^(node:)?fs(/promises)?$", "^node_modules/(@types/)?write-file-atomic/"] },
    },
    {
      name: "only-cli-touches-the-process",
      severity: "error",
      comment:
        "Only cli.ts knows arguments, environment, streams and exit codes (a lint rule says the same of the global). Take what you need as an argument. huipath starts no other program.",
      from: { path: "^(src|rules|reports)/", pathNot: PART.cli },
      to: { path: "^(node:)?(process|child_process)$" },
    },
    {
      name: "no-cycles",
      severity: "error",
      comment:
        "These files import each other in a circle. Move what they share into a third file that comes before both.",
      from: {},
      to: { circular: true },
    },
    {
      name: "no-orphans",
      severity: "error",
      comment: "Nothing imports this file and it imports nothing. Delete it, or use it.",
      from: { path: "^(src|rules|reports)/", pathNot: ["\\.d\\.ts$", "^reports/script/page\\.js$"], orphan: true },
      to: {},
    },
    {
      name: "nothing-unresolved",
      severity: "error",
      comment: "This import leads nowhere. Check the path (it ends in .js) or add the package.",
      from: {},
      to: { couldNotResolve: true },
    },
    {
      name: "product-needs-only-dependencies",
      severity: "error",
      comment:
        "What ships may import only packages under `dependencies`. Move the package there, or the code to tests.",
      from: { path: "^(src|rules|reports)/" },
      to: { dependencyTypes: ["npm-dev", "npm-no-pkg", "npm-unknown"], dependencyTypesNot: ["type-only"] },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "types", "node", "default"] },
  },
};
