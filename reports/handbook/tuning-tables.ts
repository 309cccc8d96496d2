// SPDX-License-Identifier: AGPL-3.0-or-later
// Each tuning with the places of its scale: the note-position tables.
import type { HandbookJson, ModeJson, TuningJson } from "./json.js";
import { type Cell, type Part, type Row, type Section, signed, type Table, text } from "./table.js";

const NUT = 14;

/** Every tuning and mode. */
export function tuningSection({ tunings }: HandbookJson): Section {
  return {
    id: "tunings",
    title: "Tunings and where their notes lie",
    words: [
      "Each table gives the places of a scale on the seven strings, as written, from the open string up to hui 4. The five tones of the scale come first, in bold. An octave up, 7.9 becomes 4.6, 7.6 becomes 4.4, 10 becomes 5.6 and 9 becomes 5.",
      "Below the scale stands what players keep in mind (common practice; the places are computed): the tones on either side of hui 7, mostly 7.6 or 7.9 below it and 6.4 or 6.2 above; and the zones where most strings have their tone at one place, with the odd strings marked ◆. ○ marks an open string that is no tone of the five. A stop off these places announces a change of mode.",
      "Places are computed in the Pythagorean scale on gong (degree 1, the major tonic).",
    ],
    parts: tunings.map(tuningPart),
  };
}

/** The anchor of a tuning. */
const tuningId = (name: string): string => `tuning-${name}`;

function tuningPart(tuning: TuningJson): Part {
  const { name, title, characters, alsoCalled, change, note, strings, pure, retuning } = tuning;
  const names = otherNames(alsoCalled);
  const also = names.length === 0 ? "" : ` Also called ${names.join(", ")}.`;
  const comparisons = pure.map(({ open, string, position }) =>
    position === NUT ? `${open} = open ${string}` : `${open} = ${string} at ${position}`,
  );
  const old = retuning.map(
    ({ open, string, position, differences }) =>
      `open ${open} = ${string} at ${position} (${signed(differences.equal.cents)} cents against equal temperament)`,
  );
  return {
    id: tuningId(name),
    title: `${title} ${characters}`,
    words: [
      `${name}: ${strings.join(" ")}, ${change}.${also}${note === null ? "" : ` Note: ${note}.`}`,
      `Open strings that farther strings sound at a pure place (computed): ${comparisons.join("; ")}.`,
      ...(old.length === 0 ? [] : [`Old handbooks (J. Thompson, silkqin.com) compare ${old.join("; ")}.`]),
      `Keys that lie best (open degrees / degrees open or on hui 7, 9 or 10, computed): ${tuning.keys
        .slice(0, 5)
        .map((key) => `${key.major} ${key.openDegrees}/${key.pureDegrees}`)
        .join(", ")}.`,
    ],
    tables: tuning.modes.map((mode) => modeTable(tuning, mode)),
  };
}

/** Other names without those that differ in spacing or marks only. */
function otherNames(names: readonly string[]): readonly string[] {
  const plain = (name: string): string => name.normalize("NFD").replace(/[\u0300-\u036f\s-]/g, "");
  return names.filter((name, at) => names.findIndex((other) => plain(other) === plain(name)) === at);
}

function modeTable(tuning: TuningJson, mode: ModeJson): Table {
  const reading = mode.own ? "its own gong" : "second reading";
  return {
    caption: `${tuning.title} on ${mode.gong} (${reading}; ${mode.evidence}: ${mode.source})`,
    layout: "places",
    head: ["Degree", ...tuning.strings.map((pitch, i) => `${i + 1} ${pitch}`)],
    rows: [openRow(mode), ...mode.tones.map(toneRow), ...octaveRows(mode), ...zoneRows(mode)],
  };
}

function openRow({ openDegrees, octave }: ModeJson): Row {
  return {
    head: text("open string is"),
    cells: openDegrees.map((degree, i) => text(octave[i]?.openInScale ? degree : `${degree} ○`)),
    strong: false,
  };
}

function toneRow({ degree, name, pitchClass, core, places }: ModeJson["tones"][number]): Row {
  return {
    head: text(`${degree} ${name} ${pitchClass}`),
    cells: places.map((ones) => text(placeWords(ones))),
    strong: core,
  };
}

function placeWords(places: readonly number[]): string {
  return places.length === 0 ? "–" : places.map((place) => (place === NUT ? "open" : String(place))).join(" ");
}

function octaveRows({ octave }: ModeJson): readonly Row[] {
  return [
    { head: text("below hui 7"), cells: octave.map(({ below }) => text(String(below))), strong: false, starts: true },
    { head: text("above hui 7"), cells: octave.map(({ above }) => text(String(above))), strong: false },
  ];
}

function zoneRows({ zones }: ModeJson): readonly Row[] {
  return zones.map(({ zone, strings, odd }) => ({
    head: text(zone),
    cells: strings.map(({ string, places }): Cell => {
      const isOdd = odd.some((one) => one.string === string);
      return { ...text(`${placeWords(places)}${isOdd ? " ◆" : ""}`), odd: isOdd };
    }),
    strong: false,
  }));
}
