import { resolve } from "node:path";
import { writeTogether } from "../report/writeTogether.ts";
import { cachePlace, mostCacheBytes } from "./cache/cachePlace.ts";
import type { CacheOptions } from "./cache/cachePlace.ts";
import { findDay, madeAt } from "./cache/findDay.ts";
import type { DayOutput } from "./cache/findDay.ts";
import { openStore } from "./cache/store.ts";
import { trimStore } from "./cache/trimStore.ts";
import { noteOnce } from "./progress.ts";
import { withThreads } from "./runPool.ts";

/** Measures the day and writes its report; where no file of the day has changed since it was last done, what was kept is written. */
export async function reduceCommand(day: string, options: CacheOptions & { readonly out: string; readonly quiet?: boolean }): Promise<number> {
  const quiet = options.quiet === true;
  const note = noteOnce();
  const cache = cachePlace(day, options);
  const store = cache === null ? null : openStore(cache.folder, note);
  const output = await withThreads(cache, note, async (threads): Promise<DayOutput> => {
    const kept = cache === null || store === null ? null : await findDay(day, store, cache.program.whole, threads.sha256);
    if (kept !== null) {
      if (!quiet) process.stderr.write([...kept.rejected, "No file of the day has changed since it was last reduced: the results come from the cache.", ""].join("\n"));
      return kept;
    }
    // Loaded when needed: what is kept can be written without the libraries that measure, fit and draw.
    const { freshDay } = await import("./freshDay.ts");
    const { result, output: made } = await freshDay(day, quiet, threads);
    if (cache === null || store === null) return made;
    (await import("./cache/keepDay.ts")).keepDay(day, result, made, store, cache.program.whole);
    trimStore(cache.folder, mostCacheBytes);
    return made;
  });
  writeTogether(options.out, madeAt(output, new Date().toISOString()));
  process.stdout.write(`${output.summary}\nReport: ${resolve(options.out, "report.html")}\n`);
  return output.exitCode;
}
