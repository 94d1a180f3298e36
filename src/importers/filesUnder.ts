import { readdirSync } from "node:fs";
import { join } from "node:path";

/** Files in a folder of the day, not its sub-folders, as sorted relative paths; none when the folder is missing. */
export function filesUnder(day: string, folder: string): string[] {
  try {
    return readdirSync(join(day, folder), { withFileTypes: true })
      .filter((entry) => entry.isFile() && !entry.name.startsWith("."))
      .map((entry) => (folder === "" ? entry.name : `${folder}/${entry.name}`))
      .sort();
  } catch {
    return [];
  }
}
