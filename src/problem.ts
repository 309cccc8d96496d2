// SPDX-License-Identifier: AGPL-3.0-or-later

/**
 * Input or a call that cannot be used. The command line prints it as one line and exits with 2.
 *
 * @example throw new InputProblem("no-notes", "song.musicxml", "the first part holds no notes", "choose another with --part P2")
 */
export class InputProblem extends Error {
  /**
   * @param code  a short stable name of the kind of problem
   * @param place where it is: a file, a line, an option
   * @param what  what is wrong, without a full stop
   * @param cure  what would work, without a full stop
   */
  constructor(
    readonly code: string,
    readonly place: string,
    readonly what: string,
    readonly cure: string,
  ) {
    super(`${place}: ${what}; ${cure}`);
    this.name = "InputProblem";
  }
}
