// SPDX-License-Identifier: AGPL-3.0-or-later
// The line as a sound file.
import { InputProblem } from "../problem.js";
import type { Report } from "../report.js";
import { lineSeconds, renderLine } from "../sound/mix.js";
import { wavFile } from "../sound/wav.js";
import type { Output } from "../write/output.js";
import type { Progress } from "./outcome.js";

/** Longer sound files are refused: half an hour takes 160 MB on disk, and twice as much again while it is made. */
export const LONGEST_AUDIO_MINUTES = 30;

/** @throws InputProblem for a name that promises another kind of sound file */
export function guardAudioName(path: string | undefined): void {
  if (path === undefined || path === "-" || /\.wave?$/i.test(path)) return;
  throw new InputProblem("no-wav", "--audio", `"${path}" is no name for a WAV file`, "let it end in .wav");
}

/** How many times progress is told. */
const TELLINGS = 10;

/**
 * The sound of a report's line as a WAV file, one channel of 16 bits at 44.1 kHz.
 *
 * @throws InputProblem where it would be longer than {@link LONGEST_AUDIO_MINUTES}
 */
export function audioOutput(path: string, { sounding }: Report, progress: Progress): Output {
  const minutes = lineSeconds(sounding) / 60;
  if (minutes > LONGEST_AUDIO_MINUTES)
    throw new InputProblem(
      "long-audio",
      "--audio",
      `the line sounds for ${Math.ceil(minutes)} minutes; a sound file takes at most ${LONGEST_AUDIO_MINUTES}`,
      "take a part of it with --bars FROM-TO",
    );
  let told = -1;
  const samples = renderLine(sounding, (share) => {
    const step = Math.floor(share * TELLINGS);
    if (step === told) return;
    told = step;
    progress(`computing the sound, ${Math.round((100 * step) / TELLINGS)} %`);
  });
  return { path, content: wavFile(samples) };
}
