// SPDX-License-Identifier: AGPL-3.0-or-later
// Long scores made of a short one, and what a parser alone costs on them: what reading is measured beside.
import { SaxesParser } from "saxes";

/** Where the bars of a document of one part begin and end. */
const barsOf = (text: string): readonly [number, number] => [text.indexOf("<measure"), text.lastIndexOf("</part>")];

/**
 * A document whose part's bars come again and again, each with a number of its own and ids of its own.
 *
 * @param text     a document of one part
 * @param megabyte how large it is at least, in megabytes
 */
export function lengthened(text: string, megabyte: number): string {
  const [from, to] = barsOf(text);
  return repeated(text, Math.max(1, Math.ceil((megabyte * 1e6 - (text.length - (to - from))) / (to - from))));
}

/** The same with so many times the bars. */
export function repeated(text: string, times: number): string {
  const [from, to] = barsOf(text);
  const bars = text.slice(from, to);
  const ofOneTime = bars.split("<measure").length - 1;
  const copies = Array.from({ length: times }, (_, time) =>
    bars
      .replace(/(<measure\b[^>]*? number=")(\d+)"/g, (_whole, tag: string, number: string) => {
        return `${tag}${Number(number) + time * ofOneTime}"`;
      })
      .replace(/(<note\b[^>]*? id=")([^"]*)"/g, `$1$2-${time}"`),
  );
  return text.slice(0, from) + copies.join("") + text.slice(to);
}

/** Parses a text with handlers that build nothing, with the options that the reader sets; returns how many elements there are. */
export function bareParse(text: string): number {
  const parser = new SaxesParser<{ xmlns: false; position: true }>({ xmlns: false, position: true });
  let elements = 0;
  parser.on("error", (error) => {
    throw error;
  });
  parser.on("opentag", () => {
    elements++;
  });
  parser.on("text", () => {});
  parser.on("closetag", () => {});
  parser.write(text).close();
  return elements;
}

/** Median milliseconds of the processor that something takes, warm. */
export function cpuMs(run: () => unknown, runs: number): number {
  run();
  const each = Array.from({ length: runs }, () => {
    const before = process.cpuUsage();
    run();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  });
  return each.sort((a, b) => a - b)[Math.floor(runs / 2)] as number;
}
