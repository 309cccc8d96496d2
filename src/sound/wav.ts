// SPDX-License-Identifier: AGPL-3.0-or-later
// A RIFF/WAVE file: one channel of 16-bit PCM, with the name of the program in the standard place for it (INFO, ISFT).
// Chunks and fields as in "Multimedia Programming Interface and Data Specifications 1.0" (IBM and Microsoft, 1991).
import { SAMPLE_RATE } from "./loop.js";

/** What the ISFT field of our files says; by it a file is known as ours. */
export const WAV_SOFTWARE = "made by huipath";

const BYTES_PER_SAMPLE = 2;

/** A chunk: four letters, the length of its content, the content, padded to an even length. */
function chunk(name: string, content: Uint8Array): Uint8Array {
  const bytes = new Uint8Array(8 + content.length + (content.length % 2));
  bytes.set(ascii(name));
  new DataView(bytes.buffer).setUint32(4, content.length, true);
  bytes.set(content, 8);
  return bytes;
}

const ascii = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

function joined(...parts: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}

function formatChunk(): Uint8Array {
  const view = new DataView(new ArrayBuffer(16));
  view.setUint16(0, 1, true); // PCM
  view.setUint16(2, 1, true); // channels
  view.setUint32(4, SAMPLE_RATE, true);
  view.setUint32(8, SAMPLE_RATE * BYTES_PER_SAMPLE, true);
  view.setUint16(12, BYTES_PER_SAMPLE, true);
  view.setUint16(14, 8 * BYTES_PER_SAMPLE, true);
  return chunk("fmt ", new Uint8Array(view.buffer));
}

/** A WAV file. @param samples from -1 to 1 */
export function wavFile(samples: Float32Array): Uint8Array {
  const made = chunk("LIST", joined(ascii("INFO"), chunk("ISFT", ascii(`${WAV_SOFTWARE}\0`))));
  const before = joined(ascii("RIFF\0\0\0\0WAVE"), formatChunk(), made, ascii("data\0\0\0\0"));
  // One piece of memory, since the samples may be a hundred million bytes.
  const file = new Uint8Array(before.length + samples.length * BYTES_PER_SAMPLE);
  file.set(before);
  const view = new DataView(file.buffer);
  view.setUint32(4, file.length - 8, true);
  view.setUint32(before.length - 4, samples.length * BYTES_PER_SAMPLE, true);
  for (let i = 0; i < samples.length; i++) {
    const sample = Math.max(-1, Math.min(1, samples[i] as number));
    view.setInt16(before.length + i * BYTES_PER_SAMPLE, Math.round(sample * 32_767), true);
  }
  return file;
}
