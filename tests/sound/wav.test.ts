// SPDX-License-Identifier: AGPL-3.0-or-later
// The sound file, read by a decoder from outside the project (wav-decoder), and its chunks by the RIFF/WAVE description
// (IBM and Microsoft, "Multimedia Programming Interface and Data Specifications 1.0", 1991).
import { expect, test } from "vitest";
import wavDecoder from "wav-decoder";
import { SAMPLE_RATE } from "../../src/sound/loop.js";
import { wavFile } from "../../src/sound/wav.js";

const SAMPLES = Float32Array.from({ length: 999 }, (_, i) => Math.sin(i / 7));

/** Name and content of every chunk. */
function chunksOf(bytes: Uint8Array, from: number): readonly (readonly [string, Uint8Array])[] {
  const chunks: (readonly [string, Uint8Array])[] = [];
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = from; at < bytes.length; ) {
    const length = view.getUint32(at + 4, true);
    chunks.push([String.fromCharCode(...bytes.subarray(at, at + 4)), bytes.subarray(at + 8, at + 8 + length)]);
    at += 8 + length + (length % 2);
  }
  return chunks;
}

test("another decoder reads the samples back", async () => {
  const { sampleRate, channelData } = await wavDecoder.decode(wavFile(SAMPLES).buffer);
  expect(sampleRate).toBe(SAMPLE_RATE);
  expect(channelData).toHaveLength(1);
  expect(channelData[0]).toHaveLength(SAMPLES.length);
  for (const [i, sample] of SAMPLES.entries()) expect(channelData[0]?.[i]).toBeCloseTo(sample, 3);
});

test("its chunks are those of the description, each of its own length", () => {
  const file = wavFile(SAMPLES);
  const [[riff, content] = ["", file]] = chunksOf(file, 0);
  expect(riff).toBe("RIFF");
  expect(content.length).toBe(file.length - 8);
  expect(String.fromCharCode(...content.subarray(0, 4))).toBe("WAVE");
  const chunks = chunksOf(content, 4);
  expect(chunks.map(([name]) => name)).toEqual(["fmt ", "LIST", "data"]);
  const format = new DataView(Uint8Array.from(chunks[0]?.[1] ?? []).buffer);
  const fields = [format.getUint16(0, true), format.getUint16(2, true), format.getUint32(4, true)];
  expect(fields).toEqual([1, 1, 44_100]);
  expect([format.getUint32(8, true), format.getUint16(12, true), format.getUint16(14, true)]).toEqual([88_200, 2, 16]);
  expect(chunks[2]?.[1]).toHaveLength(2 * SAMPLES.length);
});

test("it names its maker where the format has a place for that", () => {
  const [, list] = chunksOf(wavFile(SAMPLES), 12);
  const content = list?.[1] ?? new Uint8Array();
  expect(String.fromCharCode(...content.subarray(0, 4))).toBe("INFO");
  expect(chunksOf(content, 4).map(([name, text]) => [name, String.fromCharCode(...text)])).toEqual([
    ["ISFT", "made by huipath\0"],
  ]);
});

test("what is too loud is held at full scale, not wrapped", async () => {
  const { channelData } = await wavDecoder.decode(wavFile(Float32Array.of(2, -2)).buffer);
  expect(channelData[0]?.[0]).toBeCloseTo(1, 3);
  expect(channelData[0]?.[1]).toBeCloseTo(-1, 3);
});
