// SPDX-License-Identifier: AGPL-3.0-or-later
// The parts of verovio 6.3 that are used; the package ships no types.
declare module "verovio/wasm" {
  /** Starts the WebAssembly module. */
  export default function createVerovioModule(): Promise<object>;
}

declare module "verovio/esm" {
  export const LOG_OFF: number;
  /** Sets how much the module writes to the console. */
  export function enableLog(level: number, module: object): void;
  export class VerovioToolkit {
    constructor(module: object);
    setOptions(options: Readonly<Record<string, unknown>>): void;
    /** false when the document could not be read */
    loadData(data: string): boolean;
    redoLayout(): void;
    getPageCount(): number;
    renderToSVG(page: number): string;
    /** must be called before the two below: it works out the times */
    renderToTimemap(options: object): readonly { readonly qstamp: number; readonly on?: readonly string[] }[];
    /** empty for an id that the document does not hold */
    getMIDIValuesForElement(id: string): { readonly pitch?: number };
    /** fractions of a quarter note as [numerator, denominator], one entry for each time that the element is played */
    getTimesForElement(
      id: string,
    ): Partial<Record<"qfracOn" | "qfracDuration" | "qfracTiedDuration", [number, number][]>>;
  }
}
