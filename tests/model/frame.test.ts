// SPDX-License-Identifier: AGPL-3.0-or-later
// The hand as a frame, and the fixed places where it may be under an open string.
import { describe, expect, test } from "vitest";
import { HAND_NAMES } from "../../rules/hands.js";
import { cmFromBridge } from "../../src/model/board.js";
import { FINGERS, type Finger } from "../../src/model/fingering.js";
import { frameNearCm, handZonesCm, reachableThumbCm, relaxedThumbCm } from "../../src/model/frame.js";
import { settingOf } from "../support/playing.js";

/**
 * Where each finger stops a string, in hundredths of a hui. Beyond these the zones end: the whole hand would lie over
 * the bridge with the ring finger at hui 2, or over the nut with the thumb at 13.6.
 */
const STOPS: Readonly<Record<Finger, readonly [from: number, to: number]>> = {
  thumb: [100, 1310],
  index: [170, 1330],
  middle: [240, 1350],
  ring: [280, 1360],
};

test("a medium hand has 14 zones on the board", () => {
  expect(handZonesCm(settingOf())).toHaveLength(14);
});

describe.each(HAND_NAMES)("hand %s", (name) => {
  const setting = settingOf({ hand: name });
  const zones = handZonesCm(setting);

  test.each(FINGERS)("from every stop of the %s finger a zone is reached without a shift", (finger) => {
    const [first, last] = STOPS[finger];
    for (let hundredths = first; hundredths <= last; hundredths++) {
      const position = hundredths / 100;
      const cm = cmFromBridge(position, setting.scaleLengthCm);
      const [from, to] = relaxedThumbCm(finger, cm, setting.hand);
      const away = Math.min(...zones.map((zone) => Math.max(0, from - zone, zone - to)));
      expect(away, `hui ${position}`).toBeLessThanOrEqual(setting.hand.freeShiftCm + 1e-9);
    }
  });

  test("zones go from the bridge toward the nut", () => {
    expect([...zones].sort((a, b) => a - b)).toEqual([...zones]);
  });

  test("a relaxed hand is one that the hand can reach", () => {
    for (const finger of FINGERS) {
      const near = frameNearCm(60, setting);
      const [from, to] = reachableThumbCm(finger, 66, setting.hand, near);
      const [relaxedFrom, relaxedTo] = relaxedThumbCm(finger, 66, setting.hand);
      expect(from).toBeLessThanOrEqual(relaxedTo);
      expect(to).toBeGreaterThanOrEqual(relaxedFrom);
    }
  });
});

test("a touch without a finger may be any of the four", () => {
  const { hand } = settingOf();
  const [from, to] = relaxedThumbCm(null, 55, hand);
  for (const finger of FINGERS) {
    const own = relaxedThumbCm(finger, 55, hand);
    expect(from).toBeLessThanOrEqual(own[0]);
    expect(to).toBeGreaterThanOrEqual(own[1]);
  }
});
