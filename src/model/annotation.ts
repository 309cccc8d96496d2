// SPDX-License-Identifier: AGPL-3.0-or-later
// What tells huipath's own elements in an annotated score, and the setting that such a score keeps.

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
  /** the name of a hand that comes with huipath; of another also its figures, as a hand file gives them */
  readonly hand: string | StoredHand;
  /** which line is annotated; left out where the score has one only */
  readonly line?: StoredLine | undefined;
}

/** A line by its part's id and its voice's name; without a voice where the part names none. */
export interface StoredLine {
  readonly part: string;
  readonly voice?: string | undefined;
}

/** A hand of the user's own. */
export interface StoredHand {
  readonly name: string;
  readonly figures: Readonly<Record<string, number>>;
}
