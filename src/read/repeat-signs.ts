// SPDX-License-Identifier: AGPL-3.0-or-later
// Bars that show a repeat sign in place of their notes. The sign is a way of printing only (MusicXML 4.0, measure-repeat
// and beat-repeat): the notes belong into the file. Where an editor omits them nothing is made up; the user is told.
import type { ReadNote } from "./notes.js";
import type { UnreadList } from "./unread.js";
import type { Placed } from "./walk.js";
import { child, children, type XmlElement } from "./xml.js";

/** The signs that stand for notes: a whole bar or several, or one beat. */
const SIGNS = ["measure-repeat", "beat-repeat"] as const;

/**
 * Tells the bars under a sign that hold no note of the voice, and those under a sign for beats in which it rests.
 *
 * @param staff the voice's staff; signs on other staves do not count
 * @param bars  how many there are
 */
export function tellEmptyRepeats(
  placed: readonly Placed[],
  notes: readonly ReadNote[],
  {
    staff,
    voice,
    voices,
    bars,
  }: { staff: string; voice: string | null; voices: readonly (string | null)[]; bars: number },
  unread: UnreadList,
): void {
  const signs = SIGNS.map((name) => barsUnder(placed, name, staff, bars));
  if (signs.every((under) => under.size === 0)) return;
  const sounding = new Set(notes.filter((note) => note.voice === voice).map(({ bar }) => bar));
  const resting = new Set(
    placed.flatMap(({ element, bar }, order) =>
      element.nodeName === "note" && child(element, "rest") !== null && voices[order] === voice ? [bar] : [],
    ),
  );
  const [whole, beats] = signs as [ReadonlySet<number>, ReadonlySet<number>];
  for (let bar = 0; bar < bars; bar++) {
    const empty = (whole.has(bar) || beats.has(bar)) && !sounding.has(bar);
    if (empty || (beats.has(bar) && resting.has(bar))) unread.add("emptyRepeat", bar);
  }
}

/** The bars from a sign's start to before its stop; to the end where it has none. */
function barsUnder(placed: readonly Placed[], name: string, staff: string, bars: number): ReadonlySet<number> {
  const under = new Set<number>();
  let from: number | null = null;
  const cover = (to: number): void => {
    for (let bar = from ?? to; bar < to; bar++) under.add(bar);
  };
  for (const { element, bar, at } of placed)
    for (const sign of signsIn(element, name, staff)) {
      if (sign.getAttribute("type") === "start") from ??= bar;
      else {
        cover(at.n === 0n ? bar : bar + 1);
        from = null;
      }
    }
  cover(bars);
  return under;
}

function signsIn(element: XmlElement, name: string, staff: string): XmlElement[] {
  if (element.nodeName !== "attributes") return [];
  return children(element, "measure-style")
    .filter((style) => (style.getAttribute("number") ?? staff) === staff)
    .flatMap((style) => children(style, name));
}
