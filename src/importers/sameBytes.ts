import { statSync } from "node:fs";
import { join } from "node:path";
import { hashOfFile } from "./fileHash.ts";

/** Groups of files with the very same bytes; only files of equal size are read. Missing files are left out. */
export function sameBytes(folder: string, relativePaths: readonly string[]): string[][] {
  const bySize = new Map<number, string[]>();
  for (const path of relativePaths) {
    const size = statSync(join(folder, path), { throwIfNoEntry: false })?.size;
    if (size !== undefined) bySize.set(size, [...(bySize.get(size) ?? []), path]);
  }
  const groups: string[][] = [];
  for (const paths of bySize.values()) {
    if (paths.length < 2) continue;
    const byHash = new Map<string, string[]>();
    for (const path of paths) {
      const hash = hashOfFile(join(folder, path));
      byHash.set(hash, [...(byHash.get(hash) ?? []), path]);
    }
    groups.push(...[...byHash.values()].filter((same) => same.length > 1));
  }
  return groups;
}
