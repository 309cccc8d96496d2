// SPDX-License-Identifier: AGPL-3.0-or-later
// Whether every word of the page templates stands in both languages.
import { readdirSync, readFileSync } from "node:fs";
import Handlebars from "handlebars";
import { attributeTexts, HAN, latinWords, visibleText } from "./languages.js";

/** Words; a letter alone is a name, as of the sides A and B of a comparison. */
const LETTERS = /\p{Script=Han}|\p{L}{2}/u;

/** What templates leave in one language, a line each: texts outside `say` and language blocks, blocks without their twin. */
export function oneSided(folder: string): readonly string[] {
  const place = new URL(`../../reports/${folder}/`, import.meta.url);
  const files = readdirSync(place).filter((file) => file.endsWith(".hbs") && !file.endsWith("style.hbs"));
  return files.flatMap((file) =>
    oneSidedIn(readFileSync(new URL(file, place), "utf8")).map((fault) => `${folder}/${file}: ${fault}`),
  );
}

/** The same for one template. */
export function oneSidedIn(template: string): readonly string[] {
  const faults: string[] = [];
  const rest = outside(Handlebars.parse(template), faults);
  const words = [...visibleText(rest), ...attributeTexts(rest)].filter((text) => LETTERS.test(text));
  return [...faults, ...words.map((text) => `"${text.trim()}" in one language`)];
}

/** The text of a program without what is said in both languages. */
function outside(program: hbs.AST.Program | undefined, faults: string[]): string {
  const body = program?.body ?? [];
  return body
    .map((statement, at) => {
      if (isContent(statement)) return statement.value;
      if (isMustache(statement)) faults.push(...saidWrongly(statement));
      if (!isBlock(statement)) return "";
      const name = nameOf(statement);
      const twin = name === "en" ? body[at + 1] : name === "zh" ? body[at - 1] : undefined;
      if (name !== "en" && name !== "zh")
        return outside(statement.program, faults) + outside(statement.inverse, faults);
      if (twin === undefined || !isBlock(twin) || nameOf(twin) !== (name === "en" ? "zh" : "en"))
        faults.push(`{{#${name}}} alone`);
      return "";
    })
    .join("");
}

/** What `say` takes that is not an English text, then a Chinese one. */
function saidWrongly(statement: hbs.AST.MustacheStatement): readonly string[] {
  if (nameOf(statement) !== "say") return [];
  const [en = "", zh = ""] = statement.params.map((one) => ("value" in one ? String(one.value) : ""));
  const isWhole = LETTERS.test(en) === LETTERS.test(zh);
  return isWhole && !HAN.test(en) && latinWords(zh).length === 0 ? [] : [`"${en}" is said as "${zh}"`];
}

const isMustache = (node: hbs.AST.Node): node is hbs.AST.MustacheStatement => node.type === "MustacheStatement";
const isContent = (node: hbs.AST.Node): node is hbs.AST.ContentStatement => node.type === "ContentStatement";
const isBlock = (node: hbs.AST.Node): node is hbs.AST.BlockStatement => node.type === "BlockStatement";
const nameOf = ({ path }: hbs.AST.BlockStatement | hbs.AST.MustacheStatement): string =>
  "original" in path ? String(path.original) : "";
