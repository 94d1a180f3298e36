import type { Hands } from "../../day.ts";
import type { CachePlace } from "./cachePlace.ts";
import { freshRun, keptRun } from "./keptRun.ts";
import { openStore } from "./store.ts";

/** Reduces single runs in this thread, with the cache where there is one. */
export function cachedReduce(cache: CachePlace | null, onNote: (note: string) => void): Hands["reduce"] {
  const store = cache === null ? null : openStore(cache.folder, onNote);
  return (folder, plan, wheel, rig, references) => {
    const task = { folder, plan, wheel, rig, references };
    return cache === null || store === null ? freshRun(task) : keptRun(task, store, cache.program);
  };
}
