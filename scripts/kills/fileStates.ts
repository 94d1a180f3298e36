import { createHash } from "node:crypto";
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";

/** Every file below a folder with its bytes' hash and, where asked, its time of change. */
export function fileStates(folder: string, withTimes: boolean): ReadonlyMap<string, string> {
  const names = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => statSync(join(folder, name)).isFile());
  return new Map(names.sort().map((name) => {
    const path = join(folder, name);
    const hash = createHash("sha256").update(readFileSync(path)).digest("hex");
    return [name, withTimes ? `${hash} ${statSync(path, { bigint: true }).mtimeNs}` : hash];
  }));
}

/** Files that differ, came or went. */
export function differences(before: ReadonlyMap<string, string>, after: ReadonlyMap<string, string>): string[] {
  return [...new Set([...before.keys(), ...after.keys()])].filter((name) => before.get(name) !== after.get(name));
}
