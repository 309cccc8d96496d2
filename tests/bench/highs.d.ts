// SPDX-License-Identifier: AGPL-3.0-or-later
// What the bench uses of highs 1.15 beside src/check/highs.d.ts: programmes as arrays.
declare module "highs" {
  /** A linear programme, its matrix by columns. */
  export interface ModelData {
    readonly numCols: number;
    readonly numRows: number;
    readonly colCost: Float64Array;
    readonly colLower: Float64Array;
    readonly colUpper: Float64Array;
    readonly rowLower: Float64Array;
    readonly rowUpper: Float64Array;
    readonly matrix: {
      readonly format: "csc";
      readonly numRows: number;
      readonly numCols: number;
      readonly starts: Int32Array;
      readonly indices: Int32Array;
      readonly values: Float64Array;
    };
  }

  export interface Model {
    readonly options: { set(options: Readonly<Record<string, unknown>>): void };
    /** `modelStatus` 7 means that the optimum was found. */
    run(): { readonly modelStatus: number };
    getObjectiveValue(): number;
  }

  export interface Highs {
    /** What is made of a model that lives no longer than the call. */
    withModel<Result>(source: ModelData, use: (model: Model) => Result): Result;
  }
}
