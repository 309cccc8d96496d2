// SPDX-License-Identifier: AGPL-3.0-or-later
// What stands in the place of a published source.
import { phrase } from "../../src/words.js";

/** What players do, and nobody is known to have published. */
export const COMMON_PRACTICE = phrase("common practice, no source", "通行做法（无出处）");
