// SPDX-License-Identifier: AGPL-3.0-or-later
// Loads a folder of Handlebars templates. Strict: a name that the view lacks is an error, every text is escaped.
import { readdir, readFile } from "node:fs/promises";
import Handlebars from "handlebars";

/** Markup that huipath made itself and that may go into a page unescaped. Never made from a text of the score. */
export class OwnMarkup {
  constructor(readonly markup: string) {}
}

/** The only helpers that templates may call, besides if, unless, each, with and lookup. */
export const HELPERS = { own: true } as const;

/** Renders a view, a plain value whose keys are all there. */
export type Template = (view: object) => string;

/**
 * Loads `page.hbs` of a folder with all other templates of the folder as partials by file name.
 *
 * @param folder a folder beside this module, such as "check"
 * @throws Error from the template when it names something that the view lacks
 */
export async function loadTemplate(folder: string): Promise<Template> {
  const place = new URL(`./${folder}/`, import.meta.url);
  const files = (await readdir(place)).filter((file) => file.endsWith(".hbs")).sort();
  const handlebars = Handlebars.create();
  handlebars.registerHelper("own", (value: unknown) => {
    if (!(value instanceof OwnMarkup)) throw new TypeError("the helper own takes markup made by huipath only");
    return new Handlebars.SafeString(value.markup);
  });
  const options = { strict: true, knownHelpersOnly: true, knownHelpers: HELPERS };
  const templates = new Map<string, Handlebars.TemplateDelegate<object>>();
  for (const file of files) {
    const name = file.replace(/\.hbs$/, "");
    const template = handlebars.compile<object>(await readFile(new URL(file, place), "utf8"), options);
    handlebars.registerPartial(name, template);
    templates.set(name, template);
  }
  const page = templates.get("page");
  if (page === undefined) throw new Error(`no page.hbs in reports/${folder}`);
  return (view) => page(view);
}

/** Parts of the style sheet in the order in which they count. */
const STYLE_PARTS = ["base", "head", "score", "findings", "tables", "media"] as const;

/** The style sheet that all pages share, ready to stand in a `<style>` element. */
export async function loadStyle(): Promise<OwnMarkup> {
  const parts = STYLE_PARTS.map((part) => readFile(new URL(`./style/${part}.css`, import.meta.url), "utf8"));
  const css = (await Promise.all(parts)).join("");
  return new OwnMarkup(css.replace(/\/\*[\s\S]*?\*\//g, "").replace(/\s*\n\s*/g, "\n"));
}
