// SPDX-License-Identifier: AGPL-3.0-or-later
// The one script of a page, and the data that it reads. Nothing that a reader needs depends on it.
import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { OwnMarkup } from "./template.js";

/** The script and its data as they stand in a page, and the policy that lets only this script run. */
export interface PageScript {
  readonly markup: OwnMarkup;
  /** content of a Content-Security-Policy */
  readonly policy: string;
}

/** A value by the id of its data block. */
export type PageData = Readonly<Record<string, object>>;

/**
 * The page's script, bundled by the build from `script/main.ts`, with its data.
 *
 * @throws Error where the script was never bundled
 */
export async function loadPageScript(data: PageData): Promise<PageScript> {
  const script = await readFile(new URL("./script/page.js", import.meta.url), "utf8");
  const blocks = Object.entries(data).map(
    ([id, value]) => `<script type="application/json" id="${id}">${jsonInMarkup(value)}</script>`,
  );
  const hash = createHash("sha256").update(script).digest("base64");
  return {
    markup: new OwnMarkup(`${blocks.join("\n")}\n<script>${script}</script>`),
    policy: `default-src 'none'; style-src 'unsafe-inline'; script-src 'sha256-${hash}'; base-uri 'none'; form-action 'none'`,
  };
}

/** JSON that cannot end its element or begin another, whatever texts are in it. */
function jsonInMarkup(value: object): string {
  return JSON.stringify(value).replace(/</g, "\\u003c");
}
