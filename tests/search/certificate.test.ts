// SPDX-License-Identifier: AGPL-3.0-or-later
// Potentials that prove the optimum to somebody who does not trust the search.
import { readFileSync } from "node:fs";
import { Ajv2020 } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { choicesOf } from "../../src/candidates/candidates.js";
import { momentsOf } from "../../src/model/moments.js";
import { type CertificateJson, certificateOf } from "../../src/report/certificate.js";
import { search } from "../../src/search/solve.js";
import { faultsInCertificate } from "../support/certificate.js";
import { bookFor, settingOf } from "../support/playing.js";
import { shortScore } from "../support/shorthand.js";

const SCHEMA = new URL("../../reports/schema/certificate.schema.json", import.meta.url);
const validate = new Ajv2020({ strict: true, strictTypes: false }).compile(JSON.parse(readFileSync(SCHEMA, "utf8")));
const setting = settingOf();
const rules = bookFor(setting);

function certified(melody: string, fingering: readonly string[] = []) {
  const moments = momentsOf(shortScore(melody, fingering, 90), setting);
  const choices = choicesOf(moments, setting, rules);
  const searched = search(choices, setting, rules);
  const played = { moments, lefts: searched.solution.lefts, rights: searched.solution.rights };
  const certificate = certificateOf({ file: "small", setting, played, searched, version: "0" });
  return { certificate, faults: (one: CertificateJson) => faultsInCertificate(one, choices, setting, rules) };
}

/** A certificate that can be tampered with. */
interface Bendable {
  readonly moments: { readonly chosen: [number, number]; readonly hands: { readonly rest: (number | null)[] }[] }[];
}

function bent(certificate: CertificateJson, change: (one: Bendable) => void): CertificateJson {
  const text = JSON.stringify(certificate);
  const copy = JSON.parse(text) as Bendable & CertificateJson;
  change(copy);
  return copy;
}

/** Says something else of the rest of the line after the second chosen hands. */
function raise({ moments }: Bendable, by: number): void {
  const [hand, stroke] = moments[1]?.chosen ?? [0, 0];
  const rest = moments[1]?.hands[hand]?.rest ?? [];
  rest[stroke] = (rest[stroke] ?? 0) + by;
}

describe.each([
  ["plain notes", "C3 F3 A3", []],
  ["slides and a grace note", "(F3 G3) ,A3 G3", []],
  ["chords, a rest, a harmonic", "C2+C3 r A3^ D3", []],
  ["a note below the strings, a given fingering", "C2 A1 D3 E3", ["-", "-", "san tiao 7", "gou 3"]],
] as const)("%s", (_, melody, fingering) => {
  const { certificate, faults } = certified(melody, fingering);

  test("the certificate proves its total", () => {
    expect(faults(certificate)).toEqual([]);
  });

  test("it keeps its published schema", () => {
    expect(validate(JSON.parse(JSON.stringify(certificate))), JSON.stringify(validate.errors)).toBe(true);
  });

  test("a certificate that was changed does not", () => {
    expect(faults({ ...certificate, total: certificate.total + 1 })).not.toEqual([]);
    expect(faults({ ...certificate, total: certificate.total - 1 })).not.toEqual([]);
    for (const by of [-1, 1]) expect(faults(bent(certificate, (one) => raise(one, by)))).not.toEqual([]);
    expect(faults(bent(certificate, ({ moments }) => moments[1]?.hands.pop()))).not.toEqual([]);
  });
});
