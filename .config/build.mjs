// SPDX-License-Identifier: AGPL-3.0-or-later
// The build: a clean dist, the outlines of the tablature, the compiler, then the data and templates that modules find
// beside themselves at run time.
import { spawnSync } from "node:child_process";
import { cpSync, rmSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import { fileURLToPath } from "node:url";
import { bundlePage } from "./bundle.mjs";
import { writeOutlines } from "./outlines.mjs";

const root = fileURLToPath(new URL("..", import.meta.url));

rmSync(`${root}dist`, { recursive: true, force: true });
writeOutlines(`${root}src/engrave/tablature`, `${root}dist/src/engrave/tablature`);
const compiler = createRequire(import.meta.url).resolve("typescript/bin/tsc");
const compile = (project) =>
  spawnSync(process.execPath, [compiler, "-p", project], { cwd: root, stdio: "inherit" }).status ?? 1;
// The page's script runs where there is a document: it has a project of its own, and is one file when it ships.
const failed = compile("tsconfig.json") || compile(".config/tsconfig.page.json");
await bundlePage();

for (const folder of ["rules", "reports"]) {
  cpSync(`${root}${folder}`, `${root}dist/${folder}`, {
    recursive: true,
    filter: (from) => statSync(from).isDirectory() || !from.endsWith(".ts"),
  });
}
process.exitCode = failed;
