import { readdirSync, rmSync, statSync } from "node:fs";
import { join } from "node:path";
import { entryName, partName } from "./store.ts";

/** A part so old was left by a process that was killed. */
const oldestPartMs = 3_600_000;

/** Removes the entries that were used longest ago until the folder holds no more than `mostBytes`. Files that are not entries stay. */
export function trimStore(folder: string, mostBytes: number): void {
  const files = entriesIn(folder);
  let bytes = files.reduce((sum, file) => sum + file.bytes, 0);
  const abandoned = files.filter((file) => partName.test(file.name) && Date.now() - file.usedMs > oldestPartMs);
  const oldest = files.filter((file) => entryName.test(file.name)).sort((a, b) => a.usedMs - b.usedMs);
  for (const file of [...abandoned, ...oldest]) {
    if (bytes <= mostBytes && !abandoned.includes(file)) return;
    rmSync(join(folder, file.name), { force: true });
    bytes -= file.bytes;
  }
}

function entriesIn(folder: string): { readonly name: string; readonly bytes: number; readonly usedMs: number }[] {
  try {
    return readdirSync(folder).flatMap((name) => {
      if (!entryName.test(name) && !partName.test(name)) return [];
      const seen = statSync(join(folder, name), { throwIfNoEntry: false });
      return seen === undefined ? [] : [{ name, bytes: seen.size, usedMs: seen.mtimeMs }];
    });
  } catch {
    // No folder, nothing to remove.
    return [];
  }
}
