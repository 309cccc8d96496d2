// SPDX-License-Identifier: AGPL-3.0-or-later
// Loads a folder of Handlebars templates. Strict: a name that the view lacks is an error, every text is escaped.

import { readdir, readFile } from "node:fs/promises";
import Handlebars from "handlebars";
import { inLanguage, LANGUAGES, type Language } from "../src/words.js";

/** Markup that huipath made itself and that may go into a page unescaped. Never made from a text of the score. */
export class OwnMarkup {
  constructor(readonly markup: string) {}
}

/**
 * The only helpers that templates may call, besides if, unless, each, with and lookup: `own` prints markup of our own;
 * `say` prints one of its two texts, English or Chinese; the blocks `en` and `zh` stand side by side where a text holds
 * markup or values, and one of them is printed. `language` is the tag of the page. `han` prints a text and marks the
 * Chinese characters within it as such where the page is in English, so that they are spoken and drawn as Chinese.
 */
export const HELPERS = { own: true, say: true, en: true, zh: true, language: true, han: true } as const;

/** How each language is tagged in a page. */
const TAGS: Readonly<Record<Language, string>> = { en: "en", zh: "zh-Hans" };

/** Renders a view, a plain value whose keys are all there, in one language. */
export type Template = (view: object, language: Language) => string;

/**
 * Loads `page.hbs` of a folder with all other templates of the folder as partials by file name.
 *
 * @param folder a folder beside this module, such as "check"
 * @param lender another folder whose templates are partials, too; own ones of the same name count
 * @throws Error from the template when it names something that the view lacks
 */
export async function loadTemplate(folder: string, lender?: string): Promise<Template> {
  const handlebars = Handlebars.create();
  handlebars.registerHelper("own", (value: unknown) => {
    if (!(value instanceof OwnMarkup)) throw new TypeError("the helper own takes markup made by huipath only");
    return new Handlebars.SafeString(value.markup);
  });
  for (const language of LANGUAGES)
    handlebars.registerHelper(language, function (this: object, options: Handlebars.HelperOptions) {
      return options.data.language === language ? options.fn(this) : "";
    });
  handlebars.registerHelper("say", (en: string, zh: string, options: Handlebars.HelperOptions) =>
    options.data.language === "zh" ? zh : en,
  );
  handlebars.registerHelper("language", (options: Handlebars.HelperOptions) => TAGS[options.data.language as Language]);
  handlebars.registerHelper("han", (text: string, options: Handlebars.HelperOptions) =>
    options.data.language === "zh" ? text : new Handlebars.SafeString(withHanMarked(text)),
  );
  const options = { strict: true, knownHelpersOnly: true, knownHelpers: HELPERS };
  const templates = new Map<string, Handlebars.TemplateDelegate<object>>();
  for (const one of [...(lender === undefined ? [] : [lender]), folder])
    for (const [name, text] of await readTemplates(one)) {
      const template = handlebars.compile<object>(text, options);
      handlebars.registerPartial(name, template);
      templates.set(name, template);
    }
  const page = templates.get("page");
  if (page === undefined) throw new Error(`no page.hbs in reports/${folder}`);
  return (view, language) => page(inLanguage(view, language), { data: { language } });
}

/** A text escaped, each run of Chinese characters in an element that says so. */
function withHanMarked(text: string): string {
  const escaped = Handlebars.escapeExpression(text);
  return escaped.replace(/\p{Script=Han}+/gu, (run) => `<span lang="zh-Hant">${run}</span>`);
}

/** The templates of a folder by name. */
async function readTemplates(folder: string): Promise<readonly (readonly [name: string, text: string])[]> {
  const place = new URL(`./${folder}/`, import.meta.url);
  const files = (await readdir(place)).filter((file) => file.endsWith(".hbs")).sort();
  return Promise.all(
    files.map(async (file) => [file.replace(/\.hbs$/, ""), await readFile(new URL(file, place), "utf8")] as const),
  );
}

/** Parts of the style sheet in the order in which they count. */
const STYLE_PARTS = [
  "base",
  "head",
  "score",
  "listen",
  "findings",
  "tables",
  "other-ways",
  "pictures",
  "practice",
  "media",
] as const;

/** The style sheet that all pages share, ready to stand in a `<style>` element. */
export async function loadStyle(): Promise<OwnMarkup> {
  const parts = STYLE_PARTS.map((part) => readFile(new URL(`./style/${part}.css`, import.meta.url), "utf8"));
  const css = (await Promise.all(parts)).join("");
  const bare = css
    .replace(/\/\*[\s\S]*?\*\//g, "")
    .replace(/\s*([{};,])\s*/g, "$1")
    .replace(/([{;(][-\w]+): /g, "$1:")
    .replace(/ > /g, ">")
    .replace(/\b0\.(?=\d)/g, ".")
    .replace(/;}/g, "}");
  return new OwnMarkup(bare);
}
