// SPDX-License-Identifier: AGPL-3.0-or-later
// The real `check` as a process of its own, and what it costs.
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const CLI = fileURLToPath(new URL("../../dist/src/cli.js", import.meta.url));
if (!existsSync(CLI)) throw new Error("dist/src/cli.js is MISSING: run `npm run build` first (npm test does)");

/** Where the child tells what it used. */
const USAGE_STREAM = 3;
const TELL_USAGE = `data:text/javascript,import{writeSync}from"node:fs";process.on("exit",()=>writeSync(${USAGE_STREAM},JSON.stringify(process.resourceUsage())))`;

/** How `check` ended as a process of its own. */
export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
  /** files that the command left */
  readonly left: readonly string[];
  readonly cpuSeconds: number;
  readonly megabytes: number;
}

/** Runs `check` on files of these contents, in a folder of their own, asking for every output. */
export async function checked(
  files: Readonly<Record<string, Uint8Array | string>>,
  more: readonly string[],
): Promise<Ended> {
  const folder = mkdtempSync(join(tmpdir(), "huipath-hostile-"));
  for (const [name, content] of Object.entries(files)) writeFileSync(join(folder, name), content);
  const outputs = ["--json", "a.json", "--score", "a.musicxml", "--write-brief", "a.yaml"];
  const [score = ""] = Object.keys(files);
  const child = spawn(process.execPath, ["--import", TELL_USAGE, CLI, "check", score, ...outputs, ...more], {
    cwd: folder,
    stdio: ["ignore", "pipe", "pipe", "pipe"],
  });
  const texts = ["", "", "", ""];
  for (const stream of [1, 2, USAGE_STREAM])
    child.stdio[stream]?.on("data", (piece: Buffer) => {
      texts[stream] += piece.toString();
    });
  const code = await new Promise<number | null>((resolve, reject) => child.on("error", reject).on("close", resolve));
  const usage: NodeJS.ResourceUsage = JSON.parse(texts[USAGE_STREAM] ?? "");
  const left = readdirSync(folder).filter((name) => !(name in files));
  rmSync(folder, { recursive: true });
  return {
    code,
    out: texts[1] ?? "",
    err: texts[2] ?? "",
    left,
    cpuSeconds: (usage.userCPUTime + usage.systemCPUTime) / 1e6,
    megabytes: usage.maxRSS / 1024,
  };
}
