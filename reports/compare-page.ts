// SPDX-License-Identifier: AGPL-3.0-or-later

import type { Comparison } from "../src/report/compare.js";
import type { Language } from "../src/words.js";
import { viewCompare } from "./compare-view.js";
import { loadStyle, loadTemplate } from "./template.js";

/**
 * The page of `huipath compare` as one HTML file that loads nothing from anywhere and needs no script.
 *
 * @example await renderComparePage(comparison) // "<!doctype html>..."
 */
export async function renderComparePage(comparison: Comparison, language: Language = "en"): Promise<string> {
  const [template, style] = await Promise.all([loadTemplate("compare", "check"), loadStyle()]);
  return template(viewCompare(comparison, style), language);
}
