// SPDX-License-Identifier: AGPL-3.0-or-later
// The title and the maker, in any script, wherever an editor puts them.
import { describe, expect, test } from "vitest";
import { documentOf, quarter, readText } from "./helpers.js";

const MUSIC = documentOf(
  `<measure number="1"><attributes><divisions>1</divisions></attributes>${quarter("C", 4)}</measure>`,
);

function headed(head: string) {
  const { title, creator } = readText(MUSIC.replace("<part-list>", `${head}<part-list>`));
  return { title, creator };
}

const WORK = "<work><work-title>Work</work-title></work>";
const MOVEMENT = "<movement-title>Movement</movement-title>";
const PRINTED = "<credit page='1'><credit-type>title</credit-type><credit-words>Printed</credit-words></credit>";

describe("title", () => {
  test("the work's, then the movement's, then the printed one", () => {
    expect(headed(WORK + MOVEMENT + PRINTED).title).toBe("Work");
    expect(headed(MOVEMENT + PRINTED).title).toBe("Movement");
    expect(headed(`<work><work-title> </work-title></work>${PRINTED}`).title).toBe("Printed");
    expect(headed("").title).toBeNull();
  });

  test("of credits without a type the largest on the first page", () => {
    const credit = (words: string, attributes: string, page = 1): string =>
      `<credit page="${page}"><credit-words ${attributes}>${words}</credit-words></credit>`;
    const small = credit("An editor's name", 'font-size="9"');
    const large = credit("Еще раз", 'font-size="24"');
    const later = credit("Second page", 'font-size="30"', 2);
    expect(headed(small + large + later).title).toBe("Еще раз");
    // Where no size is given nothing is guessed, nor where credits have types and none is the title.
    expect(headed(credit("Whatever", "")).title).toBeNull();
    expect(headed(`${large}<credit><credit-type>lyricist</credit-type></credit>`).title).toBeNull();
  });

  test.each(["月兒高", "Ода к радости", "قمر", "かぐや姫", "🎵 Ünïcode"])("%s stands as it is, on one line", (name) => {
    expect(headed(`<movement-title>${name}\n  II</movement-title>`).title).toBe(`${name} II`);
  });
});

test("the composer is named in the header or on the page", () => {
  const credit = "<credit><credit-type>composer</credit-type><credit-words>On the page</credit-words></credit>";
  const header =
    '<identification><creator type="lyricist">L</creator><creator type="composer">C</creator></identification>';
  expect(headed(header + credit).creator).toBe("C");
  expect(headed(credit).creator).toBe("On the page");
});
