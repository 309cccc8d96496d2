// SPDX-License-Identifier: AGPL-3.0-or-later
// What is remembered of a text must be what reading it anew would say.
import { expect, test } from "vitest";
import { isForm, readSpoken } from "../../src/read/fingering.js";
import { remembered } from "../../src/read/remembered.js";
import { readScore } from "../../src/read/score.js";
import { annotated } from "../support/annotated.js";
import { fixture } from "./helpers.js";

/** A reader that notes what it was asked. */
function counted(): { readonly read: (text: string) => string | null; readonly asked: string[] } {
  const asked: string[] = [];
  const read = remembered((text): string | null => {
    asked.push(text);
    return text === "nothing" ? null : text.toUpperCase();
  });
  return { read, asked };
}

test("a short text is read once, also one that says nothing", () => {
  const { read, asked } = counted();
  expect(["gou 3", "nothing", "gou 3", "nothing", "散挑七", "\ud800"].map(read)).toEqual([
    "GOU 3",
    null,
    "GOU 3",
    null,
    "散挑七",
    "\ud800",
  ]);
  expect(asked).toEqual(["gou 3", "nothing", "散挑七", "\ud800"]);
});

test("a long text is read each time, and of many short ones only so many are kept", () => {
  const { read, asked } = counted();
  const long = "gou 3 ".repeat(100);
  expect(read(long)).toBe(read(long));
  expect(asked).toEqual([long, long]);
  for (let i = 0; i < 1_001; i++) read(`gou ${i}`);
  const before = asked.length;
  expect(read("gou 0")).toBe("GOU 0");
  expect(asked).toHaveLength(before + 1);
});

test("a form keeps the text as it was written, whatever was read before", () => {
  const [plain, spaced] = [readSpoken("gou 3"), readSpoken(" gou 3")];
  expect(isForm(plain) && isForm(spaced) ? [plain.given, spaced.given] : []).toEqual([
    expect.objectContaining({ string: 3, text: "gou 3" }),
    expect.objectContaining({ string: 3, text: "gou 3" }),
  ]);
  expect(readSpoken("gou 3")).toEqual(plain);
});

test("an annotated score reads the same when it is read again, with its strings counted from the other side between", () => {
  const { bytes } = annotated(fixture("melodies/auld-lang-syne.musicxml"), "auld-lang-syne.musicxml");
  const first = readScore(bytes, "again.musicxml");
  const copy = structuredClone(first.score.notes.map(({ given, marks, lyrics }) => ({ given, marks, lyrics })));
  readScore(bytes, "again.musicxml", { stringNumbers: "guqin" });
  const second = readScore(bytes, "again.musicxml");
  expect(second.score.notes.map(({ given, marks, lyrics }) => ({ given, marks, lyrics }))).toEqual(copy);
});
