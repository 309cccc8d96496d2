// SPDX-License-Identifier: AGPL-3.0-or-later
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { wavFile } from "../../src/sound/wav.js";
import { checkOutputs, writeOutput } from "../../src/write/output.js";

const folder = mkdtempSync(join(tmpdir(), "huipath-write-"));
afterAll(() => rmSync(folder, { recursive: true }));

/** Puts a text into a file of the folder and returns its path. */
function file(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

test.each([
  ["page", '<!doctype html><meta name="generator" content="huipath">'],
  ["json", '{"schema":1,"tool":{"name":"huipath","version":"1"}}'],
  ["markdown", "<!-- made by huipath -->\n"],
  ["sound", Buffer.from(wavFile(new Float32Array(100))).toString("latin1")],
  ["places", '[{"string":1,"sound":"open","position":null,"cents":0,"pitch":"C2"}]'],
])("a %s of huipath's own may be replaced", (name, text) => {
  expect(() => checkOutputs([file(name, text)], false)).not.toThrow();
});

test.each([
  ["empty", ""],
  ["other", "my notes on huipath"],
  ["other-list", '[{"string":"hello"}]'],
  [
    "other-sound",
    Buffer.from(wavFile(new Float32Array(100)))
      .toString("latin1")
      .replace("made by huipath", "made by another"),
  ],
])("an %s file may not, unless forced", (name, text) => {
  const path = file(name, text);
  expect(() => checkOutputs([path], false)).toThrow("huipath did not make it");
  expect(() => checkOutputs([path], true)).not.toThrow();
  expect(readFileSync(path, "utf8")).toBe(text);
});

test("what the system refuses is a problem of the call, and leaves nothing behind", async () => {
  const path = join(file("plain", "x"), "below.json");
  await expect(writeOutput({ path, content: "{}" })).rejects.toThrow(
    /cannot be written \(ENOTDIR\); choose another place/,
  );
  expect(readdirSync(folder).filter((name) => name.startsWith("below"))).toEqual([]);
});
