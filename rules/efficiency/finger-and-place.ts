// SPDX-License-Identifier: AGPL-3.0-or-later

import { inCharacters } from "../../src/model/characters.js";
import type { Contact, Finger } from "../../src/model/fingering.js";
import { defineRule, plain } from "../../src/rule/define.js";
import type { Parameter } from "../../src/rule/types.js";
import { phrase, phraseOf, type Said } from "../../src/words.js";
import { forHand } from "../shared/hand-words.js";

/** A row of the table: what one finger costs in the eleven zones. */
const row = <const R extends readonly number[]>(
  doc: Said,
  cells: R,
  evidence: Parameter["evidence"] = "common practice",
) => ({
  default: cells,
  unit: "spare moves",
  doc: phraseOf({
    en: (say) => `${say(doc)}, in the zones around 13.1, 12.2, 10.8, 10, 9, 8, 7, 6.4, 5.6, 4.6 and above 4`,
    zh: (say) =>
      `${say(doc)}，依次为徽外、十二徽二分、十徽八分、十徽、九徽、八徽、七徽、六徽四分、五徽六分、四徽六分各区和四徽以上`,
  }),
  evidence,
});

export default defineRule(
  {
    id: "finger-and-place",
    kind: "efficiency",
    title: phrase("The finger does not suit the place", "手指与徽位不相宜"),
    topic: phrase("the choice of finger", "按指的选择"),
    principle: phrase(
      "The ring finger stops the low places down to the nut, the thumb those from about hui 10 upward; between 10 and 7 both serve. High up the ring finger kneels, and the joints help where one place serves two strings.",
      "名指管下面的徽位，直到龙龈；大指管大约十徽以上；十徽到七徽之间两指都可以。再往上名指用跪指；一处要管两根弦时，用指节。",
    ),
    why: phrase(
      "Every finger presses well in its own part of the board; elsewhere the hand twists, and the tone chokes.",
      "每个指头在自己那一段都按得实；到了别处手就要拧，音也闷。",
    ),
    whenRight: phrase(
      "Where the finger that suits is still needed elsewhere, or the hand would have to move for one note.",
      "相宜的那一指还在别处用着，或为了一个音要移动整只手。",
    ),
    remedy: phrase(
      "Take the usual finger of that place: ring below hui 10, thumb above hui 8, the kneeling ring finger above hui 6.",
      "用该处惯用的指：十徽以下名指，八徽以上大指，六徽以上名指跪指。",
    ),
    sources: [
      phrase(
        "kneeling ring finger from hui 7 upward, index now and then: Zhu Fengjie, Yuguzhai qinpu (1855), section v46",
        "七徽往上名指跪，间或用食指：祝凤喈《与古斋琴谱》（1855年），v46节",
      ),
      phrase("common practice, no source, for the rest", "其余：通行做法（无出处）"),
    ],
    unit: "spare moves",
    parameters: {
      unusual: {
        default: 0.45,
        unit: "spare moves",
        doc: phrase(
          "so much above the lightest hold of the zone a hold is named; less is part of everyday playing",
          "比该区最轻的按法重出这么多，就要指出；不到此数都属日常弹法",
        ),
        evidence: "our judgement",
      },
      zoneFrom: {
        default: [12.55, 11.4, 10.4, 9.6, 8.7, 7.3, 6.75, 6, 5, 4],
        unit: "hui",
        doc: phrase(
          "where the zones begin on the bridge side; the last one is what remains above",
          "各区靠岳山一侧的起点；其上剩下的是最后一区",
        ),
        evidence: "our judgement",
      },
      thumbTip: row(phrase("thumb", "大指"), [3, 1.6, 0.6, 0.15, 0.05, 0, 0, 0, 0, 0, 0.5]),
      thumbJoint: row(phrase("joint of the thumb", "大指指节"), [3, 3, 1, 0.35, 0.25, 0.25, 0.25, 0.3, 0.4, 0.7, 1.5]),
      ringTip: row(phrase("ring finger", "名指"), [0, 0, 0, 0, 0, 0.1, 0.5, 1.5, 3, 3, 3]),
      ringJoint: row(
        phrase("joint of the ring finger", "名指指节"),
        [0.35, 0.25, 0.25, 0.25, 0.25, 0.35, 0.9, 3, 3, 3, 3],
      ),
      ringKneeling: row(phrase("kneeling ring finger", "名指跪指"), [3, 3, 3, 3, 3, 3, 1.1, 0.8, 0.6, 0.5, 0.9]),
      middleTip: row(phrase("middle finger", "中指"), [1, 1.2, 1, 0.9, 0.9, 0.9, 0.9, 1, 1.2, 1.4, 3]),
      indexTip: row(phrase("index finger", "食指"), [3, 3, 2.5, 2, 2, 2, 2, 2, 2.2, 2.4, 3], "our judgement"),
      proposedFrom: {
        default: [0, 2, 0, 0, 6, 0, 11],
        unit: "zone",
        doc: phrase(
          "first zone where the search proposes the row, in the order above; the index finger nowhere",
          "编配时从第几区起采用该行，次序同上；食指一概不采用",
        ),
        evidence: "our judgement",
      },
      proposedTo: {
        default: [10, 10, 8, 6, 10, 9, 10],
        unit: "zone",
        doc: phrase("last zone where the search proposes the row", "编配时到第几区为止采用该行"),
        evidence: "our judgement",
      },
      slack: {
        default: 1e-6,
        unit: "hui",
        doc: phrase("a place this little above a zone's edge still lies in it", "略高出分区界线这么一点，仍算在该区内"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("ring finger at 10, thumb at 7.6", "名指十徽，大指七徽六分"),
        kind: "passes",
        melody: "C3 F3",
        fingering: ["ming 10 gou 4", "da 7.6 tiao 4"],
        finds: [],
      },
      {
        shows: phrase("the thumb at 13.1, where the ring finger belongs", "大指按徽外，那里该用名指"),
        kind: "breaks",
        melody: "A2",
        fingering: ["da 13.1 gou 4"],
        finds: [
          [
            1,
            "problem",
            phrase(
              "A2 (da 13.1 gou 4) is held in a way that is unusual at that place: it weighs 3 spare moves, the usual finger next to nothing.",
              "A2（“大外勾四”）在那个徽位上不是惯用的按法：费3空动，惯用的手指几乎不费力。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the ring finger above hui 7, where it would have to kneel", "名指按到七徽以上，那里得用跪指"),
        kind: "breaks",
        melody: "A3",
        fingering: ["ming 6.4 gou 4"],
        finds: [
          [
            1,
            "problem",
            phrase(
              "A3 (ming 6.4 gou 4) is held in a way that is unusual at that place: it weighs 1.5 spare moves, the usual finger next to nothing.",
              "A3（“名六四勾四”）在那个徽位上不是惯用的按法：费1.5空动，惯用的手指几乎不费力。",
            ),
          ],
        ],
      },
      {
        shows: phrase("the thumb as low as hui 10 is usual too", "大指低到十徽，也是惯用的"),
        kind: "exception",
        melody: "C3",
        fingering: ["da 10 gou 4"],
        finds: [],
      },
      {
        shows: phrase(
          "above hui 4 every hold is laborious, and the thumb is still the usual one",
          "四徽以上怎么按都费力，惯用的仍是大指",
        ),
        kind: "exception",
        melody: "E5",
        fingering: ["da 3.4 tiao 7"],
        finds: [],
      },
      {
        shows: phrase("the joint of the thumb above hui 4", "大指指节按到四徽以上"),
        kind: "breaks",
        melody: "E5",
        fingering: ["da jie 3.4 tiao 7"],
        finds: [
          [
            1,
            "problem",
            phrase(
              "E5 (da jie 3.4 tiao 7) is held in a way that is unusual at that place: it weighs 1.5 spare moves, the usual finger 0.5.",
              "E5（“大节三四挑七”）在那个徽位上不是惯用的按法：费1.5空动，惯用的手指费0.5。",
            ),
          ],
        ],
      },
      {
        shows: phrase("a beginner has not learned the joint yet", "初学者还没学指节"),
        kind: "breaks",
        melody: "C3",
        hand: "beginner",
        fingering: ["ming jie 10 gou 4"],
        finds: [
          [
            1,
            "caution",
            phrase(
              "C3 (ming jie 10 gou 4) is held in a way that is unusual at that place: it weighs 0.75 spare moves, the usual finger next to nothing. This holds for the beginner hand.",
              "C3（“名节十勾四”）在那个徽位上不是惯用的按法：费0.75空动，惯用的手指几乎不费力。以上以初学者的手为准。",
            ),
          ],
        ],
      },
    ],
  },
  (values, setting) => {
    const { zoneFrom, slack } = values;
    const rows = [
      values.thumbTip,
      values.thumbJoint,
      values.ringTip,
      values.ringJoint,
      values.ringKneeling,
      values.middleTip,
      values.indexTip,
    ];

    const { name, jointAndKneelingExtra } = setting.hand;
    const note = forHand(name);
    const ownHand = jointAndKneelingExtra > 0 ? phrase(` ${note.en}.`, `${note.zh}。`) : phrase("", "");

    const zoneOf = (exact: number): number => {
      for (let zone = 0; zone < zoneFrom.length; zone++) if (exact >= (zoneFrom[zone] as number) - slack) return zone;
      return zoneFrom.length;
    };

    /** What the lightest hold of a zone weighs: next to nothing, but for the highest places. */
    const lightest = (zone: number): number => Math.min(...rows.map((cells) => cells[zone] as number));
    const limits = values.thumbTip.map((_, zone) => values.unusual + lightest(zone));

    const rowOf = (finger: Finger, contact: Contact | null): number => {
      switch (finger) {
        case "thumb":
          return contact === "joint" ? 1 : 0;
        case "ring":
          return contact === "kneeling" ? 4 : contact === "joint" ? 3 : 2;
        case "middle":
          return 5;
        case "index":
          return 6;
      }
    };

    return {
      reach: "place",
      limit: values.unusual,
      limitAt: (placed) => limits[zoneOf(placed.exact)] as number,
      breaks: "above",
      measure: (placed) => {
        if (placed === null || placed.finger === null || placed.sound !== "stopped") return Number.NaN;
        const cell = rows[rowOf(placed.finger, placed.contact)]?.[zoneOf(placed.exact)] as number;
        const learned = placed.contact === "joint" || placed.contact === "kneeling";
        return learned ? cell + jointAndKneelingExtra : cell;
      },
      charge: (measured) => measured,
      withholds: (placed) => {
        if (placed.finger === null || placed.sound !== "stopped") return false;
        const hold = rowOf(placed.finger, placed.contact);
        const zone = zoneOf(placed.exact);
        return zone < (values.proposedFrom[hold] as number) || zone > (values.proposedTo[hold] as number);
      },
      message: (sight) => {
        const usual = (sight.limit ?? values.unusual) - values.unusual;
        const [against, againstZh] =
          usual < 0.01 ? ["next to nothing", "几乎不费力"] : [plain(usual, 2), `费${plain(usual, 2)}`];
        return phrase(
          `${sight.note} (${sight.spoken}) is held in a way that is unusual at that place: it weighs ${plain(sight.measured, 2)} spare moves, the usual finger ${against}.${ownHand.en}`,
          `${sight.note}（“${inCharacters(sight.spoken)}”）在那个徽位上不是惯用的按法：费${plain(sight.measured, 2)}空动，惯用的手指${againstZh}。${ownHand.zh}`,
        );
      },
    };
  },
);
