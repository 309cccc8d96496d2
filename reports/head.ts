// SPDX-License-Identifier: AGPL-3.0-or-later

/** The top of a page: what it is about, and what made it. */
export interface HeadView {
  readonly title: string;
  readonly creator: string;
  readonly facts: readonly string[];
  readonly tool: string;
}
