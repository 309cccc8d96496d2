// SPDX-License-Identifier: AGPL-3.0-or-later
// Bundles the page's script beside its sources, where pages find it when they are tested and when they are built.
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const at = (path) => fileURLToPath(new URL(`../${path}`, import.meta.url));

/** Writes reports/script/page.js, which git ignores. */
export async function bundlePage() {
  await build({
    entryPoints: [at("reports/script/main.ts")],
    outfile: at("reports/script/page.js"),
    bundle: true,
    minify: true,
    format: "iife",
    target: "es2023",
    charset: "utf8",
    legalComments: "none",
    tsconfigRaw: {},
    logLevel: "warning",
  });
}

export default bundlePage;
