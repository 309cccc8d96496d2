// SPDX-License-Identifier: AGPL-3.0-or-later
// The setting that an annotated score keeps.
import { z } from "zod";
import { SETTING_FIELD, type StoredSetting } from "../model/annotation.js";
import { InputProblem } from "../problem.js";
import { children, type XmlElement } from "./xml.js";

/** A stored setting and where it stands, for messages. */
export interface SourceSetting {
  readonly stored: StoredSetting;
  /** such as `song.musicxml line 9 (huipath-setting)` */
  readonly place: string;
}

const SCHEMA = z.strictObject({
  tuning: z.string(),
  transpose: z.string(),
  temperament: z.string(),
  hand: z.union([z.string(), z.strictObject({ name: z.string(), figures: z.record(z.string(), z.number()) })]),
  line: z.strictObject({ part: z.string(), voice: z.string().optional() }).optional(),
});

/**
 * The setting in the document's miscellaneous field; null where there is none.
 *
 * @throws InputProblem when the field was changed to something else, with its line
 */
export function readSetting(root: XmlElement, file: string): SourceSetting | null {
  const field = children(root, "identification")
    .flatMap((identification) => children(identification, "miscellaneous"))
    .flatMap((miscellaneous) => children(miscellaneous, "miscellaneous-field"))
    .find((one) => one.getAttribute("name") === SETTING_FIELD);
  if (field === undefined) return null;
  const place = `${file} line ${field.line} (${SETTING_FIELD})`;
  const read = SCHEMA.safeParse(jsonOf(field.textContent));
  if (!read.success)
    throw new InputProblem(
      "bad-setting",
      place,
      "this is not the setting as huipath stored it",
      "remove the field and give the setting with --tuning and --transpose",
    );
  return { stored: read.data, place };
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
