// SPDX-License-Identifier: AGPL-3.0-or-later
// Columns of a terminal. Widths after Unicode 15.1, EastAsianWidth.txt: W and F are two columns, the rest one.
import { describe, expect, test } from "vitest";
import { columnsOf, cut, padded } from "../../reports/terminal.js";

describe("columns", () => {
  test.each([
    ["", 0],
    ["hui 7", 5],
    ["定弦", 4],
    ["，。（）：", 10],
    ["、《》", 6],
    ["“”", 2],
    ["ruìbīn", 6],
    ["rui\u0300bi\u0304n", 6],
    ["♯♭–−…", 5],
    ["カナ", 4],
    ["한글", 4],
    ["𠀀", 2],
  ])("%s", (text, columns) => expect(columnsOf(text)).toBe(columns));

  test("a cell is filled up to its columns, a longer one stays", () => {
    expect(padded("弦", 4, "end")).toBe("弦  ");
    expect(padded("弦 1", 6, "start")).toBe("  弦 1");
    expect(padded("定弦", 3, "end")).toBe("定弦");
  });
});

describe("a line that is too long", () => {
  test("is cut between words, without the mark that stood there", () => {
    expect(cut("one, two, three", 15)).toBe("one, two, three");
    expect(cut("one, two, three", 14)).toBe("one, two …");
    expect(cut("one, two, three", 9)).toBe("one …");
  });

  test("is cut behind a mark in Chinese", () => {
    expect(cut("一弦最低，七弦最高。", 20)).toBe("一弦最低，七弦最高。");
    expect(cut("一弦最低，七弦最高。", 18)).toBe("一弦最低 …");
  });

  test("is cut anywhere where nothing else is left", () => {
    expect(cut("一弦最低七弦最高", 10)).toBe("一弦最低 …");
    expect(cut("abcdefghij", 6)).toBe("abcd …");
  });

  test("never grows past its columns", () => {
    const line = "第3小节第2拍：“大七六挑四”改为“散挑六”, and then some English words（空动）。".repeat(3);
    for (let most = 4; most <= columnsOf(line); most++) expect(columnsOf(cut(line, most))).toBeLessThanOrEqual(most);
  });
});
