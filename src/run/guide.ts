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
import { inWords, type Language, phrase } from "../words.js";
import { checkOutputs, writeOutput } from "../write/output.js";
import { bookFor } from "./book.js";
import { findHand, languageOf, oneOf } from "./options.js";
import type { Outcome } from "./outcome.js";
import { jsonText } from "./outputs.js";

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
  const language = languageOf(call.lang);
  const hand = findHand(call.hand ?? "medium");
  const rules = bookFor({ ...USUAL, hand }, NO_BRIEF);
  const guide = guideJson({ rules, hand, version, byCharge: BY_CHARGE });
  const text = await guideText(guide, format, language);
  if (path === "-") return { code: 0, text, complaint: "" };
  await writeOutput({ path, content: text });
  const written = phrase(`The handbook, with ${rules.length} rules: ${path}`, `手册，共${rules.length}条规则：${path}`);
  return { code: 0, text: `${inWords(written, language)}\n`, complaint: "" };
}

async function guideText(
  guide: GuideJson,
  format: (typeof GUIDE_FORMATS)[number],
  language: Language,
): Promise<string> {
  if (format === "json") return jsonText(guide, language);
  if (format === "md") return guideMarkdown(guide, language);
  const { renderGuidePage } = await import("../../reports/guide-page.js");
  return renderGuidePage(guide, drawSpecimen(), language);
}
