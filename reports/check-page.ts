// SPDX-License-Identifier: AGPL-3.0-or-later

import type { EngravedMusic } from "../src/engrave/music.js";
import type { Report } from "../src/report.js";
import type { Language } from "../src/words.js";
import { viewCheck } from "./check-view.js";
import { listenData } from "./listen-view.js";
import { loadPageScript } from "./page-script.js";
import { loadStyle, loadTemplate } from "./template.js";

/** A page that would be larger leaves out the bars of its findings: many mail boxes take no more (our judgement). */
export const MOST_BYTES = 2_000_000;

/**
 * The report of `huipath check` as one HTML file that loads nothing from anywhere. All of it reads without a script; its
 * own lets the melody be heard.
 *
 * @param music the melody as `engraveReport` draws it
 * @param mostBytes the largest page that shows the bars of its findings
 * @example await renderCheckPage(report, await engraveReport(report)) // "<!doctype html>..."
 */
export async function renderCheckPage(
  report: Report,
  music: EngravedMusic,
  language: Language = "en",
  mostBytes = MOST_BYTES,
): Promise<string> {
  const data = { "listen-data": listenData(report.sounding, language) };
  const [template, style, script] = await Promise.all([loadTemplate("check"), loadStyle(), loadPageScript(data)]);
  const page = template(viewCheck(report, music, style, script), language);
  return Buffer.byteLength(page) <= mostBytes
    ? page
    : template(viewCheck(report, music, style, script, true), language);
}
