import { existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { InputError } from "../core/errors.ts";
import { explained } from "../report/writeTogether.ts";

/** Writes a file whole or not at all, and gives its path; one that is there already may be a logger's: it is never written over. */
export function writeNew(folder: string, name: string, bytes: Uint8Array): string {
  const path = join(folder, name);
  const part = `${path}.part`;
  try {
    mkdirSync(folder, { recursive: true });
    if (existsSync(path)) throw new InputError([{ code: "file-exists", at: path, message: "expected no file of that name, found one", hint: "Remove it, or give another name or folder" }]);
    // Under its own name a file is whole: a full disk or a kill leaves the part.
    writeFileSync(part, bytes);
    renameSync(part, path);
    return path;
  } catch (error) {
    rmSync(part, { force: true });
    throw explained(error, path);
  }
}
