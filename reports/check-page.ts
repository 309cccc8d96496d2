// SPDX-License-Identifier: AGPL-3.0-or-later

import type { EngravedMusic } from "../src/engrave/music.js";
import type { Report } from "../src/report.js";
import type { Language } from "../src/words.js";
import { viewCheck } from "./check-view.js";
import { loadStyle, loadTemplate } from "./template.js";

/**
 * The report of `huipath check` as one HTML file that loads nothing from anywhere and needs no script.
 *
 * @param music the melody as `engraveReport` draws it
 * @example await renderCheckPage(report, await engraveReport(report)) // "<!doctype html>..."
 */
export async function renderCheckPage(
  report: Report,
  music: EngravedMusic,
  language: Language = "en",
): Promise<string> {
  const [template, style] = await Promise.all([loadTemplate("check"), loadStyle()]);
  return template(viewCheck(report, music, style), language);
}
