// SPDX-License-Identifier: AGPL-3.0-or-later
// Tones measured with a Fourier transform from outside the project. Pitches are held against their definition; that a
// nail stops harder than flesh, and that outward strokes are stronger, is published (src/sound/touch.ts names where).
import { describe, expect, it, test } from "vitest";
import { HUI_PARTIAL } from "../../src/model/board.js";
import { ATTACKS, type AttackKind, BENDS, TOUCHES, type Tone, type Touch } from "../../src/sound/line.js";
import { SAMPLE_RATE } from "../../src/sound/loop.js";
import { renderTone, toneSeconds } from "../../src/sound/tone.js";
import { centroidHz, centsBetween, decaySeconds, levelNear, loudnessAt, peakNear, spectrumOf } from "./spectrum.js";

function tone(more: Partial<Tone>): Tone {
  const plain = { at: 0, after: 0, until: null, string: 4, touch: "open", attack: "tiao", hz: 220 } as const;
  return { ...plain, slides: [], bends: [], ...more };
}

/** A tone of two seconds on an open string of the same pitch, or of `open`. */
const sounded = (more: Partial<Tone>, open?: number): Float32Array =>
  renderTone(tone(more), open ?? more.hz ?? 220, 2.2, 1);

const bytesOf = (samples: Float32Array): Uint8Array => new Uint8Array(samples.buffer);

/** Twenty pitches from 65 to 880 Hz, none a whole number of samples. */
const PITCHES = Array.from({ length: 20 }, (_, i) => 65.406 * (880 / 65.406) ** (i / 19));

describe.each<Touch>(["open", "nail", "flesh"])("a tone, %s,", (touch) => {
  it("lies within a cent of its pitch from 65 to 880 Hz", () => {
    for (const hz of PITCHES) {
      const heard = peakNear(spectrumOf(sounded({ touch, hz }), SAMPLE_RATE / 10), hz);
      expect(Math.abs(centsBetween(hz, heard)), `${hz} Hz`).toBeLessThan(1);
    }
  });
});

test("the measurement sees a tone that is a few cents off", () => {
  for (const cents of [-23, -7, 3, 11]) {
    const heard = peakNear(spectrumOf(sounded({ hz: 220 * 2 ** (cents / 1200) }), SAMPLE_RATE / 10), 220);
    expect(centsBetween(220, heard)).toBeCloseTo(cents, 0);
  }
});

describe("a harmonic", () => {
  it.each([2, 3, 4, 5, 6, 8])(
    "at partial %i sounds the true partial, and what it silences is 40 dB weaker",
    (partial) => {
      expect(HUI_PARTIAL).toContain(partial);
      const open = 97.999;
      const spectrum = spectrumOf(sounded({ touch: "harmonic", hz: open * partial }, open), SAMPLE_RATE / 20);
      expect(Math.abs(centsBetween(open * partial, peakNear(spectrum, open * partial)))).toBeLessThan(1);
      const strong = levelNear(spectrum, open * partial);
      for (let k = 1; k < 2 * partial; k++)
        if (k % partial !== 0) expect(levelNear(spectrum, open * k), `partial ${k}`).toBeLessThan(strong - 40);
    },
  );
});

describe("touches", () => {
  const decay = (touch: Touch): number => decaySeconds(sounded({ touch, hz: 196 }), 0.3, 1.3);
  it("ring longest open, then as harmonics, under a nail, under flesh", () => {
    expect(decay("open")).toBeGreaterThan(decay("nail"));
    expect(decay("harmonic")).toBeGreaterThan(decay("nail"));
    expect(decay("nail")).toBeGreaterThan(decay("flesh"));
  });
  it("ring about as long as they are said to", () => {
    expect(decay("open")).toBeGreaterThan(3);
    expect(decay("open")).toBeLessThan(5.5);
    expect(decay("flesh")).toBeGreaterThan(1.2);
    expect(decay("flesh")).toBeLessThan(2.2);
  });
  it("differ in brightness, and every tone grows duller", () => {
    const bright = (touch: Touch, from: number): number =>
      centroidHz(spectrumOf(sounded({ touch }), from * SAMPLE_RATE, 4096));
    expect(bright("open", 0.05)).toBeGreaterThan(bright("nail", 0.05));
    expect(bright("nail", 0.05)).toBeGreaterThan(bright("flesh", 0.05));
    for (const touch of TOUCHES) expect(bright(touch, 0.05)).toBeGreaterThan(1.2 * bright(touch, 0.5));
  });
});

describe("strokes", () => {
  const loud = (attack: AttackKind): number => loudnessAt(sounded({ attack }), 0.02);
  const bright = (attack: AttackKind): number => centroidHz(spectrumOf(sounded({ attack }), 2205, 4096));
  it.each<[outward: AttackKind, inward: AttackKind]>([
    ["tiao", "mo"],
    ["ti", "gou"],
    ["zhai", "da"],
  ])("%s, outward, is louder and brighter than %s", (outward, inward) => {
    expect(loud(outward)).toBeGreaterThan(loud(inward));
    expect(bright(outward)).toBeGreaterThan(bright(inward));
  });
  it("are loudest with the thumb, softer with the ring finger, softest with the left hand alone", () => {
    for (const attack of ["mo", "tiao", "gou", "ti"] as const) {
      expect(loud("bo")).toBeGreaterThan(loud(attack));
      expect(loud("zhai")).toBeLessThan(loud(attack));
      expect(loud("pull")).toBeLessThan(loud(attack));
    }
    expect(loud("tap")).toBeLessThan(loud("pull"));
  });
});

describe("a slide", () => {
  it.each([
    [196, 220.5],
    [196, 174.614],
    [130.813, 196],
  ])("from %d Hz ends within a cent of %d Hz, and begins at its own pitch", (hz, to) => {
    const samples = renderTone(tone({ touch: "nail", hz, slides: [{ at: 1, hz: to }] }), 98, 3, 1);
    expect(Math.abs(centsBetween(to, peakNear(spectrumOf(samples, 1.2 * SAMPLE_RATE), to)))).toBeLessThan(1);
    expect(Math.abs(centsBetween(hz, peakNear(spectrumOf(samples, 4410, 32_768), hz)))).toBeLessThan(1);
  });
  it("goes on sounding without a new attack", () => {
    const samples = renderTone(tone({ touch: "nail", hz: 196, slides: [{ at: 1, hz: 220 }] }), 98, 3, 1);
    for (let at = 0.3; at < 2; at += 0.1)
      expect(loudnessAt(samples, at + 0.1)).toBeLessThan(1.05 * loudnessAt(samples, at));
  });
  it("comes later at half the speed, and ends at the same pitch", () => {
    const samples = renderTone(tone({ touch: "nail", hz: 196, slides: [{ at: 0.75, hz: 220 }] }), 98, 4, 0.5);
    expect(Math.abs(centsBetween(196, peakNear(spectrumOf(samples, 4410, 32_768), 196)))).toBeLessThan(1);
    expect(Math.abs(centsBetween(220, peakNear(spectrumOf(samples, 1.7 * SAMPLE_RATE), 220)))).toBeLessThan(1);
  });
});

describe("every tone", () => {
  const all = TOUCHES.flatMap((touch) => ATTACKS.map((attack) => ({ touch, attack })));
  it("is finite, below full scale, without a step at its ends, and the same every time", () => {
    for (const { touch, attack } of all)
      for (const hz of [65.406, 98, 440, 1174.66]) {
        const one = tone({ touch, attack, hz, bends: BENDS.map((bend) => ({ at: 0, until: 0.5, bend })) });
        const samples = renderTone(one, Math.min(hz, 98), 0.4, 1);
        expect(samples.every((sample) => Math.abs(sample) < 0.8)).toBe(true);
        expect(Math.abs(samples[0] ?? 1)).toBeLessThan(0.05);
        expect(Math.abs(samples.at(-1) ?? 1)).toBeLessThan(0.005);
        expect(Buffer.compare(bytesOf(renderTone(one, Math.min(hz, 98), 0.4, 1)), bytesOf(samples))).toBe(0);
      }
  });
  it("has faded by 60 dB when it is said to end", () => {
    for (const touch of TOUCHES) {
      const one = tone({ touch, hz: 196 });
      const seconds = toneSeconds(one, Number.POSITIVE_INFINITY, 1);
      const samples = renderTone(one, 98, seconds, 1);
      const fallen = 20 * Math.log10(loudnessAt(samples, 0) / loudnessAt(samples, seconds - 0.15));
      expect(fallen).toBeGreaterThan(50);
    }
  });
});
