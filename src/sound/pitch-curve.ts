// SPDX-License-Identifier: AGPL-3.0-or-later
// How the pitch of one tone moves: slides as smooth curves in log pitch, ornaments about the place.
import type { Bend, Bent, Slide } from "./line.js";

/** A slide takes this long, or less where the notes are short (our judgement). */
const SLIDE_SECONDS = 0.18;
/** The share of a slide that lies before its note: the ear hears the note begin where most of the way is done. */
const SLIDE_BEFORE = 0.6;

/** A pitch over time: Hz at seconds after the attack. */
export type PitchCurve = (seconds: number) => number;

/** From 0 to 1 without a corner. */
const smooth = (x: number): number => (x <= 0 ? 0 : x >= 1 ? 1 : (1 - Math.cos(Math.PI * x)) / 2);

/** Up and back within a span: 0 outside of it. */
const bump = (x: number): number => (x <= 0 || x >= 1 ? 0 : (1 - Math.cos(2 * Math.PI * x)) / 2);

/**
 * Cents from the place, by seconds since the ornament began. Yin is light and narrow, nao wider, heavier and mostly below;
 * zhuang flicks up after the attack, dou with it, huan turns about the note; chuo enters from below, zhu from above
 * (which way: common practice; how far and how fast: our judgement).
 */
const BEND_CENTS: Readonly<Record<Bend, (seconds: number) => number>> = {
  chuo: (seconds) => -200 * (1 - smooth(seconds / 0.16)),
  zhu: (seconds) => 200 * (1 - smooth(seconds / 0.16)),
  yin: (seconds) => 14 * smooth(seconds / 0.3) * Math.sin(2 * Math.PI * 5 * seconds),
  nao: (seconds) => -45 * smooth(seconds / 0.25) * bump((3.2 * seconds) % 1),
  zhuang: (seconds) => 200 * bump((seconds - 0.22) / 0.2),
  dou: (seconds) => 200 * bump((seconds - 0.03) / 0.18),
  huan: (seconds) => 170 * bump((seconds - 0.15) / 0.16) - 170 * bump((seconds - 0.31) / 0.16),
};

/** An ornament ends within this time, so that its string never jumps. */
const BEND_FADE_SECONDS = 0.08;

/**
 * The pitch of a tone; null where it never moves.
 *
 * @param hz    at its attack
 * @param speed times the written tempo
 */
export function pitchCurve(
  hz: number,
  slides: readonly Slide[],
  bends: readonly Bent[],
  speed: number,
): PitchCurve | null {
  if (slides.length === 0 && bends.length === 0) return null;
  const glides = slides.map((slide, i) => {
    const from = slides[i - 1] ?? { at: 0, hz };
    const next = slides[i + 1]?.at ?? Number.POSITIVE_INFINITY;
    const room = Math.min(slide.at - from.at, next - slide.at) / speed;
    const takes = Math.min(SLIDE_SECONDS, 0.8 * room);
    return {
      octaves: Math.log2(slide.hz / from.hz),
      begins: slide.at / speed - SLIDE_BEFORE * takes,
      takes,
    };
  });
  return (seconds) => {
    let octaves = 0;
    for (const { octaves: far, begins, takes } of glides)
      octaves += far * (takes > 0 ? smooth((seconds - begins) / takes) : seconds >= begins ? 1 : 0);
    for (const { at, until, bend } of bends) {
      const since = seconds - at / speed;
      if (since >= 0 && seconds < until / speed)
        octaves += (BEND_CENTS[bend](since) * smooth((until / speed - seconds) / BEND_FADE_SECONDS)) / 1200;
    }
    return hz * 2 ** octaves;
  };
}
