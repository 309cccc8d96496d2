// SPDX-License-Identifier: AGPL-3.0-or-later
import { defineRule } from "../../src/rule/define.js";
import { slowing } from "../../src/rule/slowing.js";

export default defineRule(
  {
    id: "tip-and-joint",
    kind: "efficiency",
    title: "One finger lifts or turns at one place",
    topic: "lifting or turning a finger in place",
    principle:
      "At one place along the strings the thumb holds the inner string with its joint and the next outer one with its tip, and changes between them without moving; the ring finger does the same over up to three strings.",
    why: "A finger that lifts to the next string breaks the sound; tip and joint carry it over.",
    whenRight: "When the break is wanted as a breath, or the notes are slow enough to hide it.",
    remedy: "Hold the inner string with the joint (jie) and the outer one with the tip, both at once.",
    sources: ["common practice, no source"],
    movement: true,
    unit: null,
    parameters: {
      hop: { default: 0.9, unit: "spare moves", doc: "the same contact lifted across", evidence: "common practice" },
      jointToJoint: {
        default: 0.3,
        unit: "spare moves",
        doc: "ring joint to ring joint, one string on",
        evidence: "our judgement",
      },
      turn: { default: 0.3, unit: "spare moves", doc: "change of contact on one string", evidence: "our judgement" },
      samePlaceCm: { default: 0.7, unit: "cm", doc: "along the string, still one place", evidence: "our judgement" },
      ringReach: {
        default: 2,
        unit: "strings",
        doc: "inside the tip that the ring joint covers; the thumb's covers one",
        evidence: "common practice",
      },
    },
    examples: [
      {
        shows: "thumb joint on string 7, then its tip on string 6 at the same place",
        kind: "passes",
        melody: "A3 G3",
        tempo: 120,
        fingering: ["da jie 9 tiao 7", "da 9 mo 6"],
        finds: [],
      },
      {
        shows: "the thumb's tip hops from string 7 to string 6",
        kind: "breaks",
        melody: "A3 G3",
        tempo: 120,
        fingering: ["da 9 tiao 7", "da 9 mo 6"],
        finds: [
          [
            2,
            "caution",
            "One finger lifts from da 9 tiao 7 to da 9 mo 6 at one place, so the sound breaks between the strings.",
          ],
        ],
      },
      {
        shows: "the thumb turns from joint to tip on one string",
        kind: "breaks",
        melody: "A3 A3",
        tempo: 120,
        fingering: ["da jie 9 tiao 7", "da 9 mo 7"],
        finds: [
          [
            2,
            "note",
            "From da jie 9 tiao 7 to da 9 mo 7 one finger turns or steps aside, which may break the sound a little.",
          ],
        ],
      },
      {
        shows: "slow notes give the finger time",
        kind: "exception",
        melody: "A3:4 G3",
        fingering: ["da 9 tiao 7", "da 9 mo 6"],
        finds: [],
      },
    ],
  },
  (values) => ({
    reach: "hand-move",
    limit: null,
    breaks: "above",
    measure: (from, to, gap) => {
      const a = from.first;
      const b = to.first;
      if (gap.silent || from.second !== null || to.second !== null || a === null || b === null) return Number.NaN;
      if (a.finger === null || a.finger !== b.finger || to.arrival !== "plucked") return Number.NaN;
      if (a.string === b.string) return a.contact === b.contact ? Number.NaN : values.turn;
      const apart = Math.abs(a.string - b.string);
      if (Math.abs(a.cm - b.cm) > values.samePlaceCm || apart > values.ringReach) return Number.NaN;
      const outer = a.string < b.string ? a : b;
      const inner = outer === a ? b : a;
      const reach = a.finger === "ring" ? values.ringReach : 1;
      if (outer.contact === "tip" && inner.contact === "joint" && apart <= reach) return 0;
      if (a.finger === "ring" && apart === 1 && a.contact === "joint" && b.contact === "joint")
        return values.jointToJoint;
      return values.hop;
    },
    charge: (measured, _from, _to, gap) => measured * slowing(gap.seconds, gap.rested, 0),
    message: (sight) =>
      sight.measured < values.hop
        ? `From ${sight.spokenBefore} to ${sight.spoken} one finger turns or steps aside, which may break the sound a little.`
        : `One finger lifts from ${sight.spokenBefore} to ${sight.spoken} at one place, so the sound breaks between the strings.`,
  }),
);
