// SPDX-License-Identifier: AGPL-3.0-or-later
import type { Setting } from "../model/setting.js";

/** The setting as JSON prints it. */
export interface SettingJson {
  readonly tuning: string;
  readonly strings: readonly string[];
  readonly transpose: number;
  readonly temperament: string;
  readonly hand: string;
  readonly scaleLengthCm: number;
  /** it was chosen as the best of so many settings; null where it was named */
  readonly chosenFrom: number | null;
}

/** Makes it. */
export function settingJson(setting: Setting): SettingJson {
  return {
    tuning: setting.tuning.name,
    strings: setting.tuning.strings,
    transpose: setting.transpose.semitones,
    temperament: setting.temperament,
    hand: setting.hand.name,
    scaleLengthCm: setting.scaleLengthCm,
    chosenFrom: setting.chosenFrom ?? null,
  };
}
