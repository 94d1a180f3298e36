import { join } from "node:path";
import { hashOfFile } from "../../importers/fileHash.ts";

/** What a file of the day is named by; null when it is not there or cannot be read. */
export function sha256Of(folder: string, path: string): string | null {
  try {
    return hashOfFile(join(folder, path));
  } catch {
    return null;
  }
}
