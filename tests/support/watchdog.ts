// SPDX-License-Identifier: AGPL-3.0-or-later
// Numbered jobs in a thread of their own: one that never ends, or that eats all memory, is found and named.
import { Worker } from "node:worker_threads";

/** How a job ended: with a result, or with the reason why there is none. */
export type Watched<T> =
  | { readonly number: number; readonly result: T }
  | { readonly number: number; readonly result: null; readonly stopped: string };

/** How long a job may take by the clock, in seconds, and how much its thread may hold, in MB. */
export interface Bounds {
  readonly seconds: number;
  readonly megabytes: number;
}

/**
 * Does jobs one after the other. A thread whose job does not come back is ended; the next job gets a new one.
 *
 * @param script     takes a number as a message and answers with a result as a message
 * @param workerData given to each thread
 */
export async function* watched<T>(
  script: URL,
  workerData: unknown,
  numbers: Iterable<number>,
  { seconds, megabytes }: Bounds,
): AsyncGenerator<Watched<T>> {
  let worker: Worker | null = null;
  try {
    for (const number of numbers) {
      worker ??= new Worker(script, { workerData, resourceLimits: { maxOldGenerationSizeMb: megabytes } });
      const answer = await answerOf<T>(worker, number, seconds);
      if (answer.result === null) {
        await worker.terminate();
        worker = null;
      }
      yield answer;
    }
  } finally {
    await worker?.terminate();
  }
}

function answerOf<T>(worker: Worker, number: number, seconds: number): Promise<Watched<T>> {
  return new Promise((resolve) => {
    const end = (answer: Watched<T>): void => {
      clearTimeout(timer);
      worker.off("message", done).off("error", failed).off("exit", left);
      resolve(answer);
    };
    const stop = (stopped: string): void => end({ number, result: null, stopped });
    const done = (result: T): void => end({ number, result });
    const failed = (error: Error): void => stop(`its thread fails: ${error.message}`);
    const left = (): void => stop("its thread ends without a result");
    const timer = setTimeout(() => stop(`it hangs: no result after ${seconds} s`), 1000 * seconds);
    worker.on("message", done).on("error", failed).on("exit", left);
    worker.postMessage(number);
  });
}
