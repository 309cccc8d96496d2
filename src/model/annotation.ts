// SPDX-License-Identifier: AGPL-3.0-or-later
// What tells huipath's own elements in an annotated score, and the setting that such a score keeps.
import type { Hand } from "./setting.js";

/** The name of the miscellaneous field that keeps the setting. */
export const SETTING_FIELD = "huipath-setting";

/** The name of the lyric line that shows the fingering. */
export const OWN_LINE = "huipath";

/** A setting as an annotated score keeps it, in words that the options of the same names take. */
export interface StoredSetting {
  /** a tuning's name or seven pitches */
  readonly tuning: string;
  /** an interval, since its spelling counts */
  readonly transpose: string;
  readonly temperament: string;
  /** the name of a hand that comes with huipath, or the figures of another */
  readonly hand: string | Hand;
}
