import { existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { InputError, UsageError } from "../core/errors.ts";
import { exportFormats, exportRun } from "../exporters/exportRun.ts";
import type { ExportFormat } from "../exporters/exportRun.ts";
import { explained } from "../report/writeTogether.ts";
import { exitCodes } from "./exitCodes.ts";

export async function exportCommand(day: string, run: string, options: { readonly as: string; readonly out: string }): Promise<number> {
  if (!Object.hasOwn(exportFormats, options.as)) throw new UsageError(`expected --as ${Object.keys(exportFormats).join(", ")}, found "${options.as}"`);
  const { files, findings } = await exportRun(day, run, options.as as ExportFormat);
  for (const one of findings) if (one.severity !== "note") process.stderr.write(`${one.severity}: ${one.message}\n`);
  for (const { name, bytes } of files) process.stdout.write(`${writeNew(options.out, name, bytes)}\n`);
  return findings.some(({ severity }) => severity === "reject") ? exitCodes.rejected : exitCodes.done;
}

/** A file that is there already may be a logger's: it is never written over. */
function writeNew(folder: string, name: string, bytes: Uint8Array): string {
  const path = join(folder, name);
  const part = `${path}.part`;
  try {
    mkdirSync(folder, { recursive: true });
    if (existsSync(path)) throw new InputError([{ code: "file-exists", at: path, message: "expected no file of that name, found one", hint: "Remove it, or give another folder" }]);
    // Under its own name a file is whole: a full disk or a kill leaves the part.
    writeFileSync(part, bytes);
    renameSync(part, path);
    return path;
  } catch (error) {
    rmSync(part, { force: true });
    throw explained(error, path);
  }
}
