// SPDX-License-Identifier: AGPL-3.0-or-later
// Lint of the templates over their syntax trees: what Handlebars' strict mode does not see.
import { readdir, readFile } from "node:fs/promises";
import Handlebars from "handlebars";
import { describe, expect, it } from "vitest";
import { viewCheck } from "../../reports/check-view.js";
import { viewCompare } from "../../reports/compare-view.js";
import { viewFit } from "../../reports/fit-view.js";
import { loadPageScript } from "../../reports/page-script.js";
import { HELPERS, loadStyle, OwnMarkup } from "../../reports/template.js";
import { engraveReport } from "../../src/engrave/music.js";
import { LANGUAGES } from "../../src/words.js";
import { sampleReport } from "./sample.js";
import { sampleComparison } from "./sample-comparison.js";
import { sampleFit } from "./sample-fit.js";

/** Blocks that print one language each; they change no context. */
const LANGUAGE_BLOCKS: readonly string[] = LANGUAGES;
const BLOCKS = ["if", "unless", "each", "with", ...LANGUAGE_BLOCKS];

const folderOf = (name: string): URL => new URL(`../../reports/${name}/`, import.meta.url);

async function loadTrees(folder: string): Promise<ReadonlyMap<string, hbs.AST.Program>> {
  const files = (await readdir(folderOf(folder))).filter((file) => file.endsWith(".hbs"));
  const trees = files.map(async (file) => {
    const text = await readFile(new URL(file, folderOf(folder)), "utf8");
    return [file.replace(".hbs", ""), Handlebars.parse(text)] as const;
  });
  return new Map(await Promise.all(trees));
}

/** Views of the report, the second with what the first lacks: a failed staff, a doubtful finding, one that follows from another, an answer for two places, a crashed rule. */
async function checkViews(): Promise<Values> {
  const report = sampleReport();
  const music = await engraveReport(report);
  const { json } = report;
  const [finding] = json.findings;
  const [tally] = json.tallies;
  if (finding === undefined || tally === undefined) throw new Error("the sample report is too small");
  const [better] = json.fingering.better ?? [];
  if (better === undefined) throw new Error("the sample report has no better line");
  const way = { ...better, elsewhere: 0.3, traits: ["other strings"] };
  const remedy = {
    text: "Another way.",
    blockedAfter: 0,
    effortAfter: 1,
    changes: [],
    music: { from: "E6", to: "E5" },
  };
  const twins = ["one", "two"].map((id) => ({ ...finding, id, rule: "twins", remedy, status: "open" as const }));
  const troubled = {
    ...report,
    instead: new Map([["one", json.fingering.notes.slice(0, 1)]]),
    json: {
      ...json,
      fingering: { ...json.fingering, ways: [way, way] },
      findings: [
        ...json.findings,
        { ...finding, id: "doubt", status: "unsure" as const },
        { ...finding, id: "behind", followsFrom: finding.rule },
        ...twins,
      ],
      tallies: [...json.tallies, { ...tally, rule: "crash", crashed: "it fell over" }],
    },
  };
  const style = await loadStyle();
  const script = await loadPageScript({});
  const undrawn = { ...music, systems: [], trouble: "too short" };
  return [viewCheck(report, music, style, script), viewCheck(troubled, undrawn, style, script)];
}

/** Two fingerings that differ in more places than stand open. */
async function compareViews(): Promise<Values> {
  return [viewCompare(sampleComparison(), await loadStyle())];
}

/** Settings ranked, with phrases moved and without. */
async function fitViews(): Promise<Values> {
  return [viewFit(sampleFit(), { score: "sample.musicxml", options: [] }, await loadStyle())];
}

type Values = readonly unknown[];

/** Walks a template with every value that its context can have, and complains of each name that none of them has. */
class NameCheck {
  readonly complaints = new Set<string>();
  constructor(private readonly trees: ReadonlyMap<string, hbs.AST.Program>) {}

  /** templates that were called with nothing to print, and those that had something somewhere */
  private readonly idle = new Set<string>();
  private readonly shown = new Set<string>();

  template(name: string, contexts: Values): void {
    const tree = this.trees.get(name);
    if (tree === undefined) this.complaints.add(`no template ${name}`);
    else if (contexts.length === 0) this.idle.add(name);
    else {
      this.shown.add(name);
      this.program(tree, contexts, name);
    }
  }

  /** What was found, and what no view had anything for. */
  all(): readonly string[] {
    const never = [...this.idle].filter((name) => !this.shown.has(name)).map((name) => `${name} is never shown`);
    return [...this.complaints, ...never];
  }

  private program(program: hbs.AST.Program | undefined, contexts: Values, where: string): void {
    for (const statement of program?.body ?? []) this.statement(statement, contexts, where);
  }

  private statement(statement: hbs.AST.Statement, contexts: Values, where: string): void {
    if (isMustache(statement)) {
      const helper = Object.hasOwn(HELPERS, nameOf(statement.path));
      const values = helper || statement.params.length > 0 ? statement.params : [statement.path];
      for (const value of values) this.resolve(value, contexts, where);
      if (statement.params.length > 0 && !helper) this.complaints.add(`${where}: no helper ${nameOf(statement.path)}`);
    } else if (isPartial(statement)) {
      const [param] = statement.params;
      this.template(nameOf(statement.name), param === undefined ? contexts : this.resolve(param, contexts, where));
    } else if (isBlock(statement)) this.block(statement, contexts, where);
  }

  private block(block: hbs.AST.BlockStatement, contexts: Values, where: string): void {
    const name = nameOf(block.path);
    if (!BLOCKS.includes(name)) this.complaints.add(`${where}: no block ${name}`);
    const values = this.resolve(block.params[0], contexts, where);
    const inner = name === "each" ? values.flat() : name === "with" ? values : contexts;
    this.program(block.program, inner, where);
    this.program(block.inverse, contexts, where);
  }

  private resolve(expression: hbs.AST.Expression | undefined, contexts: Values, where: string): Values {
    if (expression === undefined || !isPath(expression)) return [];
    if (expression.depth > 0 || expression.data) this.complaints.add(`${where}: ${expression.original} looks outside`);
    let values = contexts;
    for (const part of expression.parts.map(String)) {
      const objects = values.filter((value): value is object => typeof value === "object" && value !== null);
      if (objects.length === 0 || !objects.every((object) => Object.hasOwn(object, part)))
        this.complaints.add(`${where}: ${expression.original} is unknown`);
      values = objects.map((object) => Object.entries(object).find(([key]) => key === part)?.[1]);
    }
    return values;
  }
}

const isMustache = (node: hbs.AST.Node): node is hbs.AST.MustacheStatement => node.type === "MustacheStatement";
const isPartial = (node: hbs.AST.Node): node is hbs.AST.PartialStatement => node.type === "PartialStatement";
const isBlock = (node: hbs.AST.Node): node is hbs.AST.BlockStatement => node.type === "BlockStatement";
const isPath = (node: hbs.AST.Node): node is hbs.AST.PathExpression => node.type === "PathExpression";
const nameOf = (node: hbs.AST.Node): string => (isPath(node) ? node.original : "");

function* nodesOf(program: hbs.AST.Program): Generator<hbs.AST.Statement> {
  for (const statement of program.body) {
    yield statement;
    if (!isBlock(statement)) continue;
    if (statement.program) yield* nodesOf(statement.program);
    if (statement.inverse) yield* nodesOf(statement.inverse);
  }
}

describe.each<[folder: string, lender: string | null, views: () => Promise<Values>]>([
  ["check", null, checkViews],
  ["compare", "check", compareViews],
  ["fit", "check", fitViews],
])("the templates of %s", async (folder, lender, makeViews) => {
  const own = await loadTrees(folder);
  const trees = new Map([...(lender === null ? [] : await loadTrees(lender)), ...own]);

  it("print nothing unescaped but markup of our own", () => {
    for (const [file, tree] of own)
      for (const node of nodesOf(tree)) if (isMustache(node)) expect(node.escaped, file).toBe(true);
  });

  it("quote every attribute, and put no text into scripts or event handlers", async () => {
    for (const file of own.keys()) {
      if (file === "style") continue;
      const text = await readFile(new URL(`${file}.hbs`, folderOf(folder)), "utf8");
      const unquoted = text.replace(/"[^"]*"/g, '""');
      expect(unquoted, file).not.toMatch(/\s[\w-]+\s*=\s*[^"\s]/);
      expect(text, file).not.toMatch(/<script|\son\w+=|javascript:/i);
    }
  });

  it("name nothing that the view lacks", async () => {
    const check = new NameCheck(trees);
    check.template("page", await makeViews());
    expect(check.all()).toEqual([]);
  });

  it("are all used", () => {
    const used = new Set(["page"]);
    for (const tree of own.values()) for (const node of nodesOf(tree)) if (isPartial(node)) used.add(nameOf(node.name));
    expect([...own.keys()].filter((name) => !used.has(name))).toEqual([]);
    expect([...used].filter((name) => !trees.has(name))).toEqual([]);
  });
});

describe("a template", () => {
  it("would be caught if it named something unknown", () => {
    const broken = new Map([
      ["page", Handlebars.parse("{{#if titel}}x{{/if}}{{#each list}}{{nme}}{{/each}}{{loud title}}")],
    ]);
    const check = new NameCheck(broken);
    check.template("page", [{ title: "t", list: [{ name: "n" }] }]);
    expect([...check.complaints]).toEqual(["page: titel is unknown", "page: nme is unknown", "page: no helper loud"]);
  });

  it("marks own markup by its class, not by its content", () => {
    expect(new OwnMarkup("<svg/>")).toBeInstanceOf(OwnMarkup);
    expect({ markup: "<svg/>" }).not.toBeInstanceOf(OwnMarkup);
  });
});
