// SPDX-License-Identifier: AGPL-3.0-or-later
// `huipath guide`.
import { type GuideJson, guideJson } from "../../reports/guide-json.js";
import { guideMarkdown } from "../../reports/guide-markdown.js";
import { BY_CHARGE } from "../check/strict.js";
import { drawSpecimen } from "../engrave/tablature/specimen.js";
import { DEFAULT_SCALE_LENGTH_CM } from "../model/board.js";
import { NO_BRIEF } from "../model/brief.js";
import { UNTRANSPOSED } from "../model/pitch.js";
import { STANDARD } from "../model/tuning.js";
import { checkOutputs, writeOutput } from "../write/output.js";
import { bookFor } from "./book.js";
import { findHand, oneOf } from "./options.js";
import type { Outcome } from "./outcome.js";

/** What `guide --format` takes. */
const GUIDE_FORMATS = ["html", "md", "json"] as const;

/** The setting in which the guide prints the rules, but for the hand. */
const USUAL = {
  tuning: STANDARD,
  transpose: UNTRANSPOSED,
  temperament: "pythagorean",
  gong: STANDARD.gong,
  scaleLengthCm: DEFAULT_SCALE_LENGTH_CM,
} as const;

/** Options of `guide` as they were typed. */
export interface GuideCall {
  readonly format?: string;
  readonly output?: string;
  readonly hand?: string;
  /** language of the handbook: `--lang` */
  readonly lang?: string;
  readonly force?: boolean;
}

/**
 * `huipath guide`: the handbook. A page goes to a file, Markdown and JSON to standard output unless a file is named.
 *
 * @throws InputProblem before anything is written when the call cannot be used
 */
export async function runGuide(call: GuideCall, version: string): Promise<Outcome> {
  const format = oneOf(call.format ?? "html", GUIDE_FORMATS, "--format");
  const path = call.output ?? (format === "html" ? "huipath-guide.html" : "-");
  if (path !== "-") checkOutputs([path], call.force ?? false);
  const hand = findHand(call.hand ?? "medium");
  const rules = bookFor({ ...USUAL, hand }, NO_BRIEF);
  const guide = guideJson({ rules, hand, version, byCharge: BY_CHARGE });
  const text = await guideText(guide, format);
  if (path === "-") return { code: 0, text, complaint: "" };
  await writeOutput({ path, content: text });
  return { code: 0, text: `The handbook, with ${rules.length} rules: ${path}\n`, complaint: "" };
}

async function guideText(guide: GuideJson, format: (typeof GUIDE_FORMATS)[number]): Promise<string> {
  if (format === "json") return `${JSON.stringify(guide)}\n`;
  if (format === "md") return guideMarkdown(guide);
  const { renderGuidePage } = await import("../../reports/guide-page.js");
  return renderGuidePage(guide, drawSpecimen());
}
