// SPDX-License-Identifier: AGPL-3.0-or-later
// A study of one sign: where the piece has it, what it leaves out, and short lines that bring that.
import type { EngravedMusic } from "../src/engrave/music.js";
import { NUT_POSITION } from "../src/model/board.js";
import { inCharacters, placeInCharacters, stringInCharacters } from "../src/model/characters.js";
import { type Sign, signName } from "../src/model/sign.js";
import type { StudyJson } from "../src/report/practice-json.js";
import { joined, type Phrase, phrase, type Said } from "../src/words.js";
import { OwnMarkup } from "./template.js";
import { count, moves } from "./words.js";

/** What the page prints about a study. */
export interface StudyView {
  readonly title: Said;
  /** where the piece has it and where not, one sentence each */
  readonly facts: readonly Said[];
  readonly lines: readonly {
    readonly number: number;
    readonly brings: Said;
    readonly systems: readonly { readonly svg: OwnMarkup; readonly style: string }[];
    readonly reading: Said;
    readonly effort: Said;
  }[];
  /** what the lines still leave out; empty for nothing */
  readonly left: Said;
}

const COMMA = phrase(", ", "、");

/** Builds the view. */
export function viewStudy(study: StudyJson, music: EngravedMusic["study"]): StudyView {
  const name = signName(study.sign);
  return {
    title: phrase(`A study of ${name.en}`, `“${name.zh}”的练习`),
    facts: factsOf(study, name),
    lines: study.lines.map((line, i) => ({
      number: i + 1,
      brings: bringsWords(line.brings),
      systems: (music[i] ?? []).map(({ svg, widthPx }) => ({
        svg: new OwnMarkup(svg),
        style: `max-width: ${Math.round(widthPx)}px`,
      })),
      reading: phrase(
        line.notes.map(({ spoken }) => spoken).join(", "),
        line.notes.map(({ spoken }) => inCharacters(spoken)).join("，"),
      ),
      effort: moves(line.total.effort),
    })),
    left:
      study.left === 0
        ? ""
        : phrase(
            `${count(study.left, "place")} of the scale ${study.left === 1 ? "is" : "are"} still left out; a second study can take up where this one ends.`,
            `音阶中还有${study.left}个音位没有练到，可再作一份练习接着练。`,
          ),
  };
}

function factsOf({ sign, uses, strings, before, after, places }: StudyJson, name: Phrase): readonly Said[] {
  const times =
    uses === 0
      ? phrase(`The piece never has ${name.en}.`, `本曲没有用到“${name.zh}”。`)
      : phrase(`The piece has ${name.en} ${count(uses, "time")}.`, `本曲用“${name.zh}”${uses}次。`);
  const unusedStrings = strings.filter((one) => one.uses === 0).map((one) => one.string);
  const unusedPlaces = places.filter((one) => one.uses === 0);
  return [
    times,
    usedWords(strings),
    leftOutWords(phrase("It leaves out strings", "没有练到的弦"), unusedStrings.map(stringName)),
    leftOutWords(phrase("Never before it", "从未出现在它之前"), without(before)),
    leftOutWords(phrase("Never after it", "从未出现在它之后"), without(after)),
    unusedWords(sign, unusedPlaces.length, places.length),
  ].filter((said) => said !== "");
}

/** How many places are left out: stops up to hui 7, harmonics where they sound clearly. */
function unusedWords(sign: Sign, unused: number, all: number): Said {
  if (unused === 0) return "";
  return sign === "harmonic"
    ? phrase(
        `${unused} of ${count(all, "place")} of the scale that sound clearly as harmonics are left out.`,
        `音阶中泛音清亮的${all}个音位，有${unused}个没有练到。`,
      )
    : phrase(
        `${unused} of ${count(all, "place")} of the scale up to hui 7 are left out.`,
        `七徽以下音阶的${all}个音位中，有${unused}个没有练到。`,
      );
}

const without = (list: StudyJson["before"]): readonly Said[] =>
  list.filter(({ uses }) => uses === 0).map(({ sign }) => signName(sign));

const stringName = (string: number): Said => phrase(String(string), stringInCharacters(string));

function usedWords(strings: StudyJson["strings"]): Said {
  const used = strings.filter(({ uses }) => uses > 0);
  if (used.length === 0) return "";
  return phrase(
    `By string: ${used.map(({ string, uses }) => `${string} (${uses})`).join(", ")}.`,
    `按弦：${used.map(({ string, uses }) => `${stringInCharacters(string)}${uses}次`).join("，")}。`,
  );
}

function leftOutWords(lead: Phrase, list: readonly Said[]): Said {
  if (list.length === 0) return "";
  const all = joined(list, COMMA);
  return phrase(`${lead.en}: ${all.en}.`, `${lead.zh}：${all.zh}。`);
}

/** What a line brings, in a few words. */
function bringsWords({ strings, before, after, places }: StudyJson["lines"][number]["brings"]): Phrase {
  const parts: readonly Said[] = [
    ...(strings.length === 0
      ? []
      : [
          phrase(
            `${strings.length === 1 ? "string" : "strings"} ${strings.join(", ")}`,
            strings.map(stringInCharacters).join("、"),
          ),
        ]),
    ...besideWords(phrase("after", "接在"), before, phrase("", "之后")),
    ...besideWords(phrase("before", "引向"), after, phrase("", "")),
    ...(places.length === 0 ? [] : [placesWords(places)]),
  ];
  return joined(parts, phrase("; ", "；"));
}

function besideWords(lead: Phrase, signs: readonly Sign[], end: Phrase): readonly Said[] {
  if (signs.length === 0) return [];
  const all = joined(signs.map(signName), COMMA);
  return [phrase(`${lead.en} ${all.en}${end.en}`, `${lead.zh}${all.zh}${end.zh}`)];
}

function placesWords(places: readonly { readonly string: number; readonly position: number }[]): Phrase {
  const named = places.map(({ string, position }) =>
    position === NUT_POSITION
      ? phrase(`open on ${string}`, `${stringInCharacters(string)}散音`)
      : phrase(`${position} on ${string}`, `${stringInCharacters(string)}${placeInCharacters(position)}`),
  );
  return joined(named, COMMA);
}
