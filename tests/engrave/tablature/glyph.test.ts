// SPDX-License-Identifier: AGPL-3.0-or-later
import { describe, expect, it } from "vitest";
import { COMPONENTS, type ComponentName, drawingOf } from "../../../src/engrave/tablature/components.js";
import { composeGlyph, glyphDefinitions } from "../../../src/engrave/tablature/glyph.js";
import { GLYPH_SIZE, layOut, type TablatureReading } from "../../../src/engrave/tablature/layout.js";
import { drawPart, type Part, partId } from "../../../src/engrave/tablature/part.js";
import { type GivenFingering, spokenForm } from "../../../src/model/fingering.js";
import { readSpoken } from "../../../src/read/fingering.js";
import { edgesOf, type Ink, inkOf, whiteBetween } from "../../support/ink.js";
import { harmonic, open, plainReadings, richReadings, stopped, unpluckedReadings } from "../../support/tablature.js";

const ALL = [...plainReadings(), ...richReadings(), ...unpluckedReadings()];

/** Every part that any reading needs, with its ink. */
const parts = new Map<string, Part>();
/** Every two parts that stand beside each other in some reading, by their names and how far apart they are. */
const pairs = new Map<string, readonly [Part, Part]>();
for (const reading of ALL) {
  const laid = layOut(reading);
  laid.forEach((part, i) => {
    parts.set(partId(part), part);
    for (const other of laid.slice(i + 1))
      pairs.set(`${partId(part)} and ${partId(other)} at ${other.box.x - part.box.x},${other.box.y - part.box.y}`, [
        part,
        other,
      ]);
  });
}
const inks = new Map([...parts].map(([id, part]) => [id, inkOf(drawPart(part))]));
const inkIn = (part: Part): Ink => inks.get(partId(part)) as Ink;

/** What can be seen: which components stand where. */
const picture = (reading: TablatureReading): string =>
  layOut(reading)
    .map((part) => `${partId(part)}@${part.box.x},${part.box.y}`)
    .sort()
    .join(" ");

describe("the glyph of a reading", () => {
  it("keeps its ink inside its parts' boxes and those inside the glyph", () => {
    for (const part of parts.values()) {
      const { left, top, right, bottom } = edgesOf(inkIn(part), { x: 0, y: 0 });
      const { width, height } = part.box;
      expect([partId(part), left >= -1, top >= -1, right <= width + 1, bottom <= height + 1]).toEqual([
        partId(part),
        true,
        true,
        true,
        true,
      ]);
    }
    const outside = ALL.filter((reading) =>
      layOut(reading).some(
        ({ box: { x, y, width, height } }) =>
          x < 0 || y < 0 || x + width > GLYPH_SIZE.width || y + height > GLYPH_SIZE.height,
      ),
    );
    expect(outside).toEqual([]);
  });

  it("leaves white between any two of its parts: at least a fiftieth of its width", () => {
    const touching = [...pairs].flatMap(([name, [a, b]]) => {
      const offset = { x: b.box.x - a.box.x, y: b.box.y - a.box.y };
      const apart = Math.max(
        offset.x - a.box.width,
        -offset.x - b.box.width,
        offset.y - a.box.height,
        -offset.y - b.box.height,
      );
      if (apart >= 20) return [];
      return whiteBetween(inkIn(a), inkIn(b), offset) < 20 ? [name] : [];
    });
    expect(touching).toEqual([]);
  }, 60_000);

  it("is the same picture under the same name, and another picture for anything else", () => {
    const byId = new Map<string, string>();
    const byPicture = new Map<string, string>();
    const clashes: string[] = [];
    for (const reading of ALL) {
      const { id } = composeGlyph(reading);
      const seen = picture(reading);
      if ((byId.get(id) ?? seen) !== seen || (byPicture.get(seen) ?? id) !== id) clashes.push(id);
      byId.set(id, seen);
      byPicture.set(seen, id);
    }
    expect(clashes).toEqual([]);
    expect(byId.size).toBeGreaterThan(55_000);
  });

  it("has a name that does not change with the way bo is called, and says which", () => {
    const pi = composeGlyph(open({ stroke: "bo", string: 6, thumbStroke: "pi" }));
    expect(pi.spoken).toBe("san pi 6");
    expect(pi.id).toBe("jz-san-bo-6");
    expect(composeGlyph(open({ stroke: "bo", string: 6 })).id).toBe(pi.id);
  });

  it("names symbols and parts so that they can stand in any document", () => {
    const names = [...ALL.map((reading) => composeGlyph(reading).id), ...parts.keys()];
    expect(names.filter((name) => !/^jz-[a-z0-9.-]+$/.test(name))).toEqual([]);
    expect(names.filter((name) => parts.has(name)).length).toBe(parts.size);
  });
});

describe("a glyph read from top to bottom", () => {
  /** What the font draws for a component: the characters that a reader would type. */
  const typed = (reading: TablatureReading): string =>
    layOut(reading)
      .map(({ component }) => {
        const drawing = drawingOf(component);
        return "character" in drawing ? drawing.character : ({ tuo: "乇", zhai: "摘" }[component as string] ?? "?");
      })
      .join("");
  // Ti is drawn by part of its character, which nobody types; 10.1 to 10.3 are told from 11 to 13 by where they stand;
  // joint and kneeling are typed as words of their own.
  const readable = plainReadings().filter(({ stroke, position, contact }) => {
    const hundredths = Math.round((position ?? 0) * 100);
    const alike = hundredths > 1000 && hundredths <= 1030;
    return stroke !== "ti" && contact !== "joint" && contact !== "kneeling" && hundredths % 10 === 0 && !alike;
  });

  it("is what the reader of scores understands by its characters", () => {
    // Each place and hold once, each stroke and string once: the reader is slow for thousands.
    const seen = new Set<string>();
    const some = readable.filter(({ sound, position, finger, contact, stroke, string }) => {
      const keys = [`${sound} ${position} ${finger} ${contact}`, `${sound} ${stroke} ${string}`];
      const fresh = keys.filter((key) => !seen.has(key));
      for (const key of fresh) seen.add(key);
      return fresh.length > 0;
    });
    for (const reading of some) {
      const text = typed(reading);
      const read = readSpoken(text);
      const given: GivenFingering | null = read !== null && "given" in read ? read.given : null;
      const { sound, position, finger, stroke, string } = reading;
      const meant = { sound, position, finger, stroke, string };
      expect({ text, ...pick(given) }).toEqual({ text, ...meant });
    }
  });
});

function pick(given: GivenFingering | null): Partial<GivenFingering> {
  if (given === null) return {};
  const { sound, position, finger, stroke, string } = given;
  return { sound, position, finger, stroke, string };
}

describe("the components", () => {
  const characterOf = (name: ComponentName): string | null => {
    const drawing = drawingOf(name);
    return "character" in drawing ? drawing.character : null;
  };

  it.each<[ComponentName, string, string]>([
    // J. A. van Aalst, Chinese Music (Shanghai 1884), and the introduction to the notation in its worked examples
    ["san", "艹", "van Aalst 1884"],
    ["thumb", "大", "van Aalst 1884"],
    ["index", "人", "van Aalst 1884"],
    ["middle", "中", "van Aalst 1884"],
    ["ring", "夕", "van Aalst 1884"],
    ["mo", "木", "van Aalst 1884"],
    ["tiao", "乚", "van Aalst 1884"],
    ["gou", "勹", "van Aalst 1884"],
    ["bo", "尸", "van Aalst 1884"],
    ["da", "丁", "van Aalst 1884"],
    // the list of right-hand terms at yueqixuexi.com
    ["li", "厂", "yueqixuexi.com"],
    ["fu", "弗", "yueqixuexi.com"],
    ["wai", "卜", "kxting.com/article/20221020/448318.html"],
    // common practice, from memory
    ["kneeling", "足", "common practice, no source"],
    ["cuo", "早", "common practice, no source"],
    ["chuo", "卜", "common practice, no source"],
    ["zhu", "氵", "common practice, no source"],
    ["nao", "犭", "common practice, no source"],
    ["zhuang", "立", "common practice, no source"],
    ["dou", "豆", "common practice, no source"],
    ["fan", "乏", "common practice, no source"],
  ])("%s is written %s (%s)", (name, character) => {
    expect(characterOf(name)).toBe(character);
  });

  it("are all used by some reading", () => {
    const used = new Set([...parts.values()].map(({ component }) => component));
    expect(COMPONENTS.filter((name) => !used.has(name))).toEqual([]);
  });
});

describe("what goes into the page", () => {
  it("is each part and each symbol once, a kilobyte at most for each symbol and mostly for each part", () => {
    const glyphs = [
      stopped({ position: 7.6, stroke: "tiao", string: 4 }),
      stopped({ position: 7.6, stroke: "tiao", string: 5 }),
      open({ stroke: "gou", string: 1 }),
      harmonic({ position: 7, stroke: "gou", string: 1 }),
    ].map(composeGlyph);
    const markup = glyphDefinitions([...glyphs, ...glyphs]);
    const ids = [...markup.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id as string);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, href] of markup.matchAll(/href="#([^"]+)"/g)) expect(ids).toContain(href);
    for (const symbol of markup.match(/<symbol.*?<\/symbol>/g) ?? []) expect(symbol.length).toBeLessThan(1000);
    const sizes = [...parts.values()].map((part) => drawPart(part).length).sort((a, b) => a - b);
    expect(sizes.at(-1)).toBeLessThan(1500);
    expect(sizes[Math.floor(sizes.length * 0.95)]).toBeLessThan(1000);
  });

  it("says no colour and no size of its own", () => {
    const markup = glyphDefinitions(richReadings().map(composeGlyph));
    expect(markup).not.toMatch(/#[0-9a-f]{3,6}[";]|rgb\(|style=/i);
    expect(new Set(markup.match(/(?:fill|stroke)="[^"]*"/g))).toEqual(
      new Set(['fill="currentColor"', 'stroke="currentColor"', 'fill="none"']),
    );
  });
});

describe("places", () => {
  const shown = (position: number): string =>
    layOut(stopped({ position, stroke: "gou", string: 1 }))
      .slice(1, -2)
      .map(({ component }) => component)
      .join(" ");

  it.each([
    [7, "seven"],
    [7.6, "seven six"],
    [8.5, "eight half"],
    [10.8, "ten eight"],
    [12, "ten two"],
    [12.2, "ten two two"],
    [12.25, "ten two two five"],
    [13.1, "wai"],
    [13.6, "ten three six"],
  ])("%s is written with %s", (position, components) => {
    expect(shown(position)).toBe(components);
  });

  it("keeps 12 and 10.2 apart: ten and two beside each other, or the tenths below", () => {
    const boxes = (position: number): readonly Part[] =>
      layOut(stopped({ position, stroke: "gou", string: 1 })).slice(1, 3);
    const [twelve, tenAndTwo] = [boxes(12), boxes(10.2)];
    expect(twelve[1]?.box.y).toBe(twelve[0]?.box.y);
    expect(tenAndTwo[1]?.box.x).toBe(tenAndTwo[0]?.box.x);
  });

  it("is said as the reading says it", () => {
    const reading = stopped({ position: 10.8, finger: "ring", stroke: "gou", string: 3 });
    expect(composeGlyph(reading).spoken).toBe(spokenForm(reading));
  });

  it("refuses a string that no instrument has", () => {
    expect(() => layOut(open({ stroke: "gou", string: 12 }))).toThrow(RangeError);
  });
});
