// SPDX-License-Identifier: AGPL-3.0-or-later
import { centsAt } from "../../src/model/board.js";
import { placeInCharacters, stringInCharacters } from "../../src/model/characters.js";
import type { MomentNote } from "../../src/model/moments.js";
import { pitchName } from "../../src/model/pitch.js";
import type { Placed } from "../../src/model/playing.js";
import { centsOf } from "../../src/model/temperament.js";
import { defineRule, plain } from "../../src/rule/define.js";
import type { Line, PassageFinding } from "../../src/rule/types.js";
import { type Phrase, phrase } from "../../src/words.js";

/** A note with its place. */
interface Sounded {
  readonly note: MomentNote;
  readonly placed: Placed;
}

export default defineRule(
  {
    id: "comma-between-unisons",
    kind: "intonation",
    title: phrase("A stop beside the open string that it should match", "按音与散音本该相合而不合"),
    principle: phrase(
      "A stopped note and an open string of the same name, struck together or one after the other, are heard as one tone and must agree.",
      "同名的按音与散音，无论同时弹还是先后弹，听来都是一个音，必须相合。",
    ),
    why: phrase(
      "The open string cannot give way: the ear takes it as right and the stop as wrong. Hui 11, 8, 6 and 3 give pure thirds and sixths, a comma of 22 cents from strings that are tuned in fifths.",
      "散音改不动：耳朵总以它为准，听来错的便是按音。按在十一、八、六、三徽，得的是纯律的三度和六度，与按五度相生定的弦相差一个音差（22音分）。",
    ),
    whenRight: phrase(
      "Where all strings are tuned to pure thirds, or where a slide passes through the place.",
      "所有的弦都按纯律三度来定，或走音只是经过此处。",
    ),
    remedy: phrase(
      "Write the place that agrees with the open string, as found by ear.",
      "写与散音相合的徽位，以耳朵听准的为是。",
    ),
    cures: ["fingering", "setting"],
    sources: [
      phrase("the comma is arithmetic: 81/80 is 21.5 cents", "音差是算出来的：81/80为21.5音分"),
      phrase(
        "pure thirds avoided on strings tuned in fifths: J. Thompson, silkqin.com, Qin tunings, some theoretical concepts",
        "五度相生的弦上回避纯律三度：J. Thompson，silkqin.com，《Qin tunings, some theoretical concepts》",
      ),
      phrase("the limit in cents: our judgement", "音分界限：我们的判断"),
    ],
    unit: "cents",
    parameters: {
      limit: {
        default: 15,
        unit: "cents",
        doc: phrase("a larger difference is heard as two tones", "差得再多，就听成两个音了"),
        evidence: "our judgement",
      },
    },
    examples: [
      {
        shows: phrase("A on string 3 at 10.8 agrees with the open string 5", "三弦十徽八分的A与五弦散音相合"),
        kind: "passes",
        melody: "A2 A2",
        fingering: ["san gou 5", "ming 10.8 tiao 3"],
        finds: [],
      },
      {
        shows: phrase(
          "written at hui 11: a pure third above string 3, and lower than the open string 5",
          "写成十一徽：比三弦散音高一个纯律三度，低于五弦散音",
        ),
        kind: "breaks",
        melody: "A2 A2",
        fingering: ["san gou 5", "ming 11 tiao 3"],
        finds: [
          [
            2,
            "caution",
            phrase(
              "A2 stopped at 11 on string 3 sounds 21.5 cents lower than the open string 5 beside it (limit 15 cents); 10.8 agrees.",
              "三弦十一徽上的按音A2比旁边的五弦散音低21.5音分（界限15音分）；十徽八分才相合。",
            ),
          ],
        ],
      },
      {
        shows: phrase("strings tuned in pure thirds", "弦按纯律三度来定"),
        kind: "exception",
        melody: "A2 A2",
        temperament: "just",
        fingering: ["san gou 5", "ming 11 tiao 3"],
        finds: [],
      },
    ],
  },
  (values, { tuning, gong, temperament }) => {
    const openCents = (string: number): number => centsOf(tuning.semitones[string - 1] as number, gong, temperament);

    /**
     * What the stop sounds. A usual place is a name and found by ear; another one that the score writes is meant to the
     * tenth.
     */
    const centsOfStop = ({ note, placed }: Sounded): number => {
      const { position } = note.given;
      const exactly = position !== null && position !== placed.position && note.given.sound !== "harmonic";
      return exactly ? openCents(placed.string) + centsAt(position) : note.cents;
    };

    /** Cents by which a stop sounds above an open string of the same name, octaves aside; null for other pairs. */
    const apart = (stop: Sounded, open: Sounded): number | null => {
      if (stop.placed.sound !== "stopped" || open.placed.sound !== "open") return null;
      if (stop.placed.mismatch || open.placed.mismatch) return null;
      if ((stop.note.semitone - open.note.semitone) % 12 !== 0) return null;
      const cents = centsOfStop(stop) - openCents(open.placed.string);
      return cents - 1200 * Math.round(cents / 1200);
    };

    /** @param written the place as the score has it, null for an open string */
    const told = (written: number | null, { note, placed }: Sounded, open: Sounded, cents: number): Phrase => {
      const name = pitchName(note.sounding);
      const [apart, limit] = [plain(Math.abs(cents)), plain(values.limit)];
      const [side, sideZh] = cents > 0 ? ["higher", "高"] : ["lower", "低"];
      const differs = placed.position !== null && written !== placed.position;
      const agrees = differs ? `; ${placed.position} agrees` : "";
      const agreesZh = differs ? `；${placeInCharacters(placed.position)}才相合` : "";
      const openZh = `${stringInCharacters(open.placed.string)}散音`;
      const at = `${stringInCharacters(placed.string)}${placeInCharacters(written ?? placed.exact)}`;
      return phrase(
        `${name} stopped at ${written} on string ${placed.string} sounds ${apart} cents ${side} than the open string ${open.placed.string} beside it (limit ${limit} cents)${agrees}.`,
        `${at}上的按音${name}比旁边的${openZh}${sideZh}${apart}音分（界限${limit}音分）${agreesZh}。`,
      );
    };

    const finding = (stop: Sounded, open: Sounded, cents: number, inTurn: readonly Sounded[]): PassageFinding => {
      const { note, placed } = stop;
      const written = note.given.position ?? placed.position;
      return {
        notes: inTurn.map((one) => one.note.source.id),
        severity: "caution",
        measured: Math.abs(cents),
        limit: values.limit,
        message: told(written, stop, open, cents),
      };
    };

    const soundedAt = ({ moments, lefts }: Line, at: number): readonly Sounded[] =>
      (lefts[at]?.placed ?? []).map((placed) => ({ placed, note: moments[at]?.notes[placed.note] as MomentNote }));

    return {
      reach: "passage",
      look: (line) => {
        const findings: PassageFinding[] = [];
        let looked = 0;
        const compare = (stop: Sounded, open: Sounded, inTurn: readonly Sounded[]): void => {
          const cents = apart(stop, open);
          if (cents === null) return;
          looked += 1;
          if (Math.abs(cents) > values.limit) findings.push(finding(stop, open, cents, inTurn));
        };
        for (let at = 0; at < line.moments.length; at++) {
          const [a, b] = soundedAt(line, at);
          if (a !== undefined && b !== undefined)
            for (const [x, y] of [
              [a, b],
              [b, a],
            ] as const)
              compare(x, y, [a, b]);
          for (const before of at === 0 ? [] : soundedAt(line, at - 1))
            for (const after of soundedAt(line, at)) {
              compare(before, after, [before, after]);
              compare(after, before, [before, after]);
            }
        }
        return { looked, findings };
      },
    };
  },
);
