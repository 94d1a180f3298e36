import { closeSync, openSync, promises, readSync } from "node:fs";
import { join } from "node:path";
import { endsWhole } from "./lastLine.ts";
import { lookAgain } from "./settle.ts";
import type { FileWatch, SettleRule } from "./settle.ts";

const headBytes = 512;
const tailBytes = 4;

/** A further look at files of the day. They are opened for reading only, and only when they have changed. Missing ones are left out. */
export async function lookAtFiles(folder: string, paths: readonly string[], known: ReadonlyMap<string, FileWatch>, nowMs: () => number, rule: SettleRule): Promise<Map<string, FileWatch>> {
  const looks = await Promise.all(
    paths.map(async (path): Promise<[string, FileWatch] | null> => {
      const full = join(folder, path);
      const seen = await promises.stat(full).catch(() => null);
      if (seen === null || !seen.isFile()) return null;
      const sighting = { size: seen.size, changedMs: Math.max(seen.mtimeMs, seen.ctimeMs) };
      return [path, lookAgain(known.get(path), sighting, nowMs(), rule, () => fileEndsWhole(full, seen.size))];
    }),
  );
  return new Map(looks.filter((look) => look !== null));
}

/** null = the file cannot be opened now, perhaps because its logger holds it. */
function fileEndsWhole(path: string, size: number): boolean | null {
  let file: number | null = null;
  try {
    file = openSync(path, "r");
    const head = new Uint8Array(Math.min(headBytes, size));
    const tail = new Uint8Array(Math.min(tailBytes, size));
    const headRead = readSync(file, head, 0, head.length, 0);
    const tailRead = readSync(file, tail, 0, tail.length, size - tail.length);
    return endsWhole(head.subarray(0, headRead), tail.subarray(0, tailRead));
  } catch {
    return null;
  } finally {
    if (file !== null) closeSync(file);
  }
}
