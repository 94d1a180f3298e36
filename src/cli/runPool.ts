import { availableParallelism } from "node:os";
import { Piscina } from "piscina";
import type { Hands, ReduceOptions } from "../day.ts";
import type { RunResult } from "../processing/dayResult.ts";
import type { RunTask } from "./runWorker.ts";

/** More threads than this gain little: the runs wait for the disk and for memory (common practice). */
const mostThreads = 8;
/** A day of fewer runs is done before threads have started. */
const fewestRuns = 16;

/** Runs a piece of work that may call for threads, and ends them afterwards. */
export async function withThreads<T>(work: (hands: NonNullable<ReduceOptions["hands"]>) => Promise<T>): Promise<T> {
  let pool: Piscina<RunTask, RunResult> | null = null;
  const lanes = Math.min(availableParallelism(), mostThreads);
  // The same file stands as .ts in the sources and as .js in the built package.
  const filename = new URL(import.meta.url.endsWith(".ts") ? "./runWorker.ts" : "./runWorker.js", import.meta.url).href;
  const hands = (runs: number): Hands | null => {
    if (runs < fewestRuns || lanes < 2) return null;
    const threads = new Piscina<RunTask, RunResult>({ filename, minThreads: lanes, maxThreads: lanes });
    pool = threads;
    return { lanes, reduce: (folder, plan, wheel, rig, references) => threads.run({ folder, plan, wheel, rig, references }) };
  };
  try {
    return await work(hands);
  } finally {
    await (pool as Piscina | null)?.destroy();
  }
}
