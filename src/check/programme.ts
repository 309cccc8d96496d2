// SPDX-License-Identifier: AGPL-3.0-or-later
// Linear programmes, solved by HiGHS. The solver is heavy, so it is loaded only where one is asked for.

/** A least sum of numbers under bounds and inequalities. */
export interface LinearProgramme {
  /** what each number costs; as many as there are numbers */
  readonly costs: readonly number[];
  /** the least and the greatest that each number may be */
  readonly bounds: readonly (readonly [least: number, greatest: number])[];
  /** sums of multiples of the numbers that must not fall below a limit */
  readonly rows: readonly { readonly multiples: readonly number[]; readonly atLeast: number }[];
  /** whether only whole numbers will do */
  readonly whole: boolean;
}

/** Solves a programme: its numbers, or null where none satisfy it. */
export type ProgrammeSolver = (programme: LinearProgramme) => readonly number[] | null;

/**
 * Loads a solver.
 *
 * @throws Error when HiGHS neither solves a programme nor finds that nothing satisfies it
 */
export async function loadSolver(): Promise<ProgrammeSolver> {
  const { default: load } = await import("highs");
  const highs = await load();
  return (programme) => {
    const { Status, Columns } = highs.solve(programmeText(programme), { output_flag: false });
    if (Status === "Infeasible") return null;
    if (Status !== "Optimal") throw new Error(`the linear programme ended as "${Status}"`);
    return programme.costs.map((_, i) => Columns[name(i)]?.Primal ?? 0);
  };
}

const name = (i: number): string => `x${i}`;

/** A programme in the text form of linear programmes that HiGHS reads; a number that has no part in a row is left out of it. */
function programmeText({ costs, bounds, rows, whole }: LinearProgramme): string {
  return [
    "Minimize",
    ` cost: ${sumText(costs)}`,
    "Subject To",
    ...rows.map(({ multiples, atLeast }, i) => ` row${i}: ${sumText(multiples)} >= ${atLeast}`),
    "Bounds",
    ...bounds.map(([least, greatest], i) => ` ${least} <= ${name(i)} <= ${greatest}`),
    ...(whole ? ["General", ` ${costs.map((_, i) => name(i)).join(" ")}`] : []),
    "End",
    "",
  ].join("\n");
}

function sumText(multiples: readonly number[]): string {
  const terms = multiples.flatMap((multiple, i) => {
    if (multiple === 0) return [];
    return [`${multiple < 0 ? "-" : "+"} ${Math.abs(multiple)} ${name(i)}`];
  });
  return terms.length === 0 ? `0 ${name(0)}` : terms.join(" ");
}
