// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Report } from "../src/report.js";
import { viewCheck } from "./check-view.js";
import { loadStyle, loadTemplate } from "./template.js";

/**
 * The report of `huipath check` as one HTML file that loads nothing from anywhere and needs no script.
 *
 * @example await renderCheckPage(report) // "<!doctype html>..."
 */
export async function renderCheckPage(report: Report): Promise<string> {
  const [template, style] = await Promise.all([loadTemplate("check"), loadStyle()]);
  return template(await viewCheck(report, style));
}
