// SPDX-License-Identifier: AGPL-3.0-or-later
// The parts of highs 1.15 that are used; the types that the package ships describe its CommonJS form only.
declare module "highs" {
  export interface HighsResult {
    /** such as "Optimal" or "Infeasible" */
    readonly Status: string;
    readonly ObjectiveValue: number;
    /** by name of the variable; without values where nothing was found */
    readonly Columns: Readonly<Record<string, { readonly Primal?: number; readonly Dual?: number }>>;
    /** in the order of the programme */
    readonly Rows: readonly { readonly Name: string; readonly Primal?: number; readonly Dual?: number }[];
  }

  export interface Highs {
    /** Solves a programme in the CPLEX LP text form; each call has a solver of its own. */
    solve(programme: string, options?: Readonly<Record<string, unknown>>): HighsResult;
  }

  /** Starts the WebAssembly module. */
  export default function loadHighs(): Promise<Highs>;
}
