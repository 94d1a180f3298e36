import type { RunResult } from "../processing/dayResult.ts";
import { cachedReduce } from "./cache/cachedReduce.ts";
import type { CachePlace } from "./cache/cachePlace.ts";
import type { RunTask } from "./cache/keptRun.ts";

/** What the thread says of one run. */
export interface RunAnswer {
  readonly result: RunResult;
  /** what the cache has to say */
  readonly notes: readonly string[];
}

/** Body of a thread: one run from its files, or from the cache, to its measures. */
export default async function reduceTask({ cache, folder, plan, wheel, rig, references }: RunTask & { readonly cache: CachePlace | null }): Promise<RunAnswer> {
  const notes: string[] = [];
  const result = await cachedReduce(cache, (note) => notes.push(note))(folder, plan, wheel, rig, references);
  return { result, notes };
}
