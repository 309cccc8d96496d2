// SPDX-License-Identifier: AGPL-3.0-or-later

import type { Fit } from "../src/report/fit.js";
import type { Language } from "../src/words.js";
import { viewFit } from "./fit-view.js";
import type { Again } from "./fit-words.js";
import { loadStyle, loadTemplate } from "./template.js";

/**
 * The page of `huipath fit` as one HTML file that loads nothing from anywhere and needs no script.
 *
 * @param again how the melody is checked in one of the settings
 * @example await renderFitPage(fit, { score: "evening.musicxml", options: [] }) // "<!doctype html>..."
 */
export async function renderFitPage(fit: Fit, again: Again, language: Language = "en"): Promise<string> {
  const [template, style] = await Promise.all([loadTemplate("fit", "check"), loadStyle()]);
  return template(viewFit(fit, again, style), language);
}
