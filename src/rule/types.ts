// SPDX-License-Identifier: AGPL-3.0-or-later

/** How much a finding weighs: note (worth knowing), caution (noticeable), problem (a player would ask), blocker (cannot be played). */
export const SEVERITIES = ["note", "caution", "problem", "blocker"] as const;
/** One of {@link SEVERITIES}. */
export type Severity = (typeof SEVERITIES)[number];
