// SPDX-License-Identifier: AGPL-3.0-or-later
// Room in the engraver's inner units: 25 of them are one pixel at scale 40.

/** Width of a cell; its height follows from its shape. */
export const CELL_UNITS = 1000;
/** From one grace note's cell to the next, and to the cell of the main note. */
export const GRACE_STEP_UNITS = 800;
/** Size of a grace note's cell beside a full one. */
export const GRACE_SCALE = 0.75;
/** Height that a finding mark needs above the staff. */
export const MARK_UNITS = 560;
