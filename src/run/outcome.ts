// SPDX-License-Identifier: AGPL-3.0-or-later
// What every command ends with.

/** What a command ends with. */
export interface Outcome {
  readonly code: 0 | 1 | 3;
  /** for standard output */
  readonly text: string | Uint8Array;
  /** for standard error; empty for nothing */
  readonly complaint: string;
}

/** Told what is being done, for work that takes longer than a moment. */
export type Progress = (doing: string) => void;
