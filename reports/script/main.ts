// SPDX-License-Identifier: AGPL-3.0-or-later
// The page's script: one file a feature, each of which leaves the page alone where its part is missing.
import { filterFindings } from "./filter.js";
import { listen } from "./listen.js";
import { otherWays } from "./other-ways.js";

listen();
otherWays();
filterFindings();
