// SPDX-License-Identifier: AGPL-3.0-or-later
import { expect, test } from "vitest";
import type { Report } from "../../src/report.js";
import { audioOutput, LONGEST_AUDIO_MINUTES } from "../../src/run/audio.js";
import { sampleReport } from "../reports/sample.js";

/** The sample's first tones in a line of so many seconds. */
function lasting(seconds: number): Report {
  const report = sampleReport();
  return { ...report, sounding: { ...report.sounding, tones: report.sounding.tones.slice(0, 4), seconds } };
}

test("the sound goes into one file, the same every time", () => {
  const once = audioOutput("a.wav", lasting(2), () => {});
  expect(once.path).toBe("a.wav");
  expect(Buffer.from(once.content).equals(Buffer.from(audioOutput("a.wav", lasting(2), () => {}).content))).toBe(true);
});

test("progress is told in a few steps", () => {
  const told: string[] = [];
  const report = sampleReport();
  const sounding = { ...report.sounding, tones: report.sounding.tones.map((tone) => ({ ...tone, until: 0.01 })) };
  audioOutput("a.wav", { ...report, sounding }, (doing) => told.push(doing));
  expect(told[0]).toBe("computing the sound, 0 %");
  expect(told).toHaveLength(10);
});

test("a line that is too long for a sound file is refused before any sound is computed", () => {
  expect(() => audioOutput("a.wav", lasting(60 * LONGEST_AUDIO_MINUTES + 1), () => {})).toThrow(
    "--audio: the line sounds for 31 minutes; a sound file takes at most 30; take a part of it with --bars FROM-TO",
  );
});
