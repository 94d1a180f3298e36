import { homedir } from "node:os";
import { isAbsolute, join, relative, resolve } from "node:path";
import { UsageError } from "../../core/errors.ts";
import { programKeys } from "./programKey.ts";
import type { ProgramKeys } from "./programKey.ts";

/** As the command line gives it: a folder, false for none, nothing for the usual one. */
export interface CacheOptions {
  readonly cache?: string | boolean;
}

/** Where earlier work is kept, and for which program it holds; can be sent to a thread. */
export interface CachePlace {
  readonly folder: string;
  readonly program: ProgramKeys;
}

/** What the folder may hold before what was used longest ago is removed: a few days of tests. */
export const mostCacheBytes = 2 * 2 ** 30;

/** @throws UsageError when the folder lies inside the day folder, which is never written to */
export function cachePlace(day: string, { cache }: CacheOptions): CachePlace | null {
  if (cache === false) return null;
  const folder = typeof cache === "string" ? resolve(cache) : usualFolder();
  const way = relative(resolve(day), folder);
  if (!way.startsWith("..") && !isAbsolute(way)) throw new UsageError(`--cache: expected a folder outside the day folder, which is never written to, found “${folder}”.`);
  return { folder, program: programKeys() };
}

function usualFolder(): string {
  const stated = process.env["XDG_CACHE_HOME"] ?? "";
  return join(isAbsolute(stated) ? stated : join(homedir(), ".cache"), "drawbar");
}
