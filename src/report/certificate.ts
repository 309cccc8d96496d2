// SPDX-License-Identifier: AGPL-3.0-or-later
// What proves that no fingering of a line costs less: for every pair of hands of every moment, what the cheapest rest of
// the line costs after it. Whoever has the rules can check it without a search: no move may cost less than the potential
// falls by, along the chosen line each costs just that, and nothing begins cheaper.
import type { Arrival, Contact, Finger, Sound, Stroke } from "../model/fingering.js";
import type { Left, Right } from "../model/playing.js";
import type { Setting } from "../model/setting.js";
import { BLOCK } from "../rule/cost.js";
import type { Played } from "../search/charges.js";
import type { Searched } from "../search/solve.js";
import { type SettingJson, settingJson } from "./setting.js";

/** `--certificate` of `check`. Costs are whole thousandths of a spare move; one blocked move counts as `block` of them. */
export interface CertificateJson {
  readonly schema: 1;
  readonly tool: { readonly name: string; readonly version: string };
  readonly command: "check --certificate";
  readonly file: string;
  readonly setting: SettingJson;
  readonly block: number;
  readonly total: number;
  /** every stroke that is offered anywhere, once */
  readonly strokes: readonly StrokeJson[];
  readonly moments: readonly MomentJson[];
}

/** A stroke on its strings, with the string on which the middle finger waits meanwhile. */
interface StrokeJson {
  readonly strings: readonly number[];
  readonly stroke: Stroke | null;
  readonly inner: Stroke | null;
  readonly compound: string | null;
  readonly waiting: number | null;
}

/** All that could be done at one moment. */
interface MomentJson {
  /** ids of the notes that begin here, lowest first */
  readonly notes: readonly string[];
  readonly hands: readonly HandJson[];
  /** number of the chosen hand, and of its chosen stroke, from 0 */
  readonly chosen: readonly [hand: number, stroke: number];
}

/** A left hand, and the strokes that it may be struck with. */
interface HandJson {
  readonly placed: readonly {
    readonly note: number;
    readonly string: number;
    readonly sound: Sound;
    readonly position: number | null;
    readonly finger: Finger | null;
    readonly contact: Contact | null;
  }[];
  readonly arrival: Arrival;
  readonly chain: number;
  /** where the thumb of the relaxed hand lies, in cm from the bridge */
  readonly thumbCm: readonly [number, number];
  /** numbers of strokes, from 0 */
  readonly strokes: readonly number[];
  /** for each stroke what the rest of the line costs; null where there is no rest */
  readonly rest: readonly (number | null)[];
}

/** What a certificate is made from: a line without tolls. */
export interface Proved {
  readonly file: string;
  readonly setting: Setting;
  readonly played: Played;
  readonly searched: Searched;
  readonly version: string;
}

/** The certificate of a searched line. */
export function certificateOf({ file, setting, played, searched, version }: Proved): CertificateJson {
  const strokes = new Strokes();
  const moments = played.moments.map(({ notes }, at) => ({
    notes: notes.map((note) => note.source.id),
    ...handsOf(searched, at, played, strokes),
  }));
  return {
    schema: 1,
    tool: { name: "huipath", version },
    command: "check --certificate",
    file,
    setting: settingJson(setting),
    block: BLOCK,
    total: searched.solution.weight,
    strokes: strokes.entries,
    moments,
  };
}

/** Numbers strokes as they come. */
class Strokes {
  readonly entries: StrokeJson[] = [];
  private readonly numbers = new Map<Right, number>();

  numberOf(right: Right): number {
    const known = this.numbers.get(right);
    if (known !== undefined) return known;
    this.entries.push(strokeEntry(right));
    this.numbers.set(right, this.entries.length - 1);
    return this.entries.length - 1;
  }
}

function handsOf(
  searched: Searched,
  at: number,
  played: Played,
  strokes: Strokes,
): Pick<MomentJson, "hands" | "chosen"> {
  const hands: { readonly left: Left; readonly strokes: number[]; readonly rest: (number | null)[] }[] = [];
  for (const [state, rest] of searched.potentials(at).entries()) {
    const { left, right } = searched.hands(at, state);
    if (hands.at(-1)?.left !== left) hands.push({ left, strokes: [], rest: [] });
    hands.at(-1)?.strokes.push(strokes.numberOf(right));
    hands.at(-1)?.rest.push(Number.isFinite(rest) ? rest : null);
  }
  const hand = hands.findIndex(({ left }) => left === played.lefts[at]);
  return {
    hands: hands.map(({ left, ...rest }) => ({ ...handEntry(left), ...rest })),
    chosen: [hand, hands[hand]?.strokes.indexOf(strokes.numberOf(played.rights[at] as Right)) ?? -1],
  };
}

/** A stroke as a certificate names it. */
export function strokeEntry({ strings, stroke, innerStroke, figure, pinch, planted }: Right): StrokeJson {
  return {
    strings: strings.outer === strings.inner ? [strings.outer] : [strings.outer, strings.inner],
    stroke,
    inner: innerStroke,
    compound: figure?.name ?? pinch,
    waiting: planted === 0 ? null : planted,
  };
}

function handEntry(left: Left): Omit<HandJson, "strokes" | "rest"> {
  return {
    placed: left.placed.map(({ note, string, sound, position, finger, contact }) => ({
      note,
      string,
      sound,
      position,
      finger,
      contact,
    })),
    arrival: left.arrival,
    chain: left.chain,
    thumbCm: [left.handFromCm, left.handToCm],
  };
}
