import { closeSync, existsSync, fsyncSync, lstatSync, mkdirSync, openSync, readFileSync, readdirSync, realpathSync, renameSync, rmdirSync, rmSync, writeFileSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { InputError } from "../core/errors.ts";

/** What a report folder holds. */
export const reportFiles = ["report.html", "results.json", "runs.csv", "soil.json"] as const;

/**
 * Writes files that belong together into `outFolder`, which is new, empty, or holds an earlier report.
 *
 * They are finished and flushed in a folder beside it, then the folders change places by renaming. So a file is always
 * whole and the files always belong together. If the machine or the process dies between the two renames, the folder is
 * missing for that moment: the earlier report then lies whole in `<outFolder>.drawbar-previous`, and the next call puts
 * it back before it starts. Other files that people put beside an earlier report are carried over.
 *
 * @throws InputError when the folder cannot be written
 */
export function writeTogether(outFolder: string, files: readonly { readonly name: string; readonly text: string | Uint8Array }[]): void {
  const asked = resolve(outFolder);
  try {
    const parent = dirname(asked);
    mkdirSync(parent, { recursive: true });
    const out = existsSync(asked) ? realpathSync(asked) : join(realpathSync(parent), basename(asked));
    recover(out);
    refuseForeign(out, asked);
    const stage = `${out}.drawbar-new-${process.pid}`;
    try {
      rmSync(stage, { recursive: true, force: true });
      mkdirSync(stage);
      for (const { name, text } of files) writeFlushed(join(stage, name), text);
      flushFolder(stage);
      swap(stage, out);
    } catch (error) {
      rmSync(stage, { recursive: true, force: true });
      throw error;
    }
  } catch (error) {
    throw error instanceof InputError ? error : explained(error, asked);
  }
}

/** Finishes or undoes what a killed call left beside the folder. */
function recover(out: string): void {
  const previous = previousOf(out);
  if (existsSync(previous)) {
    if (existsSync(out)) retire(previous, out);
    else renameSync(previous, out);
  }
  const stages = `${basename(out)}.drawbar-new-`;
  for (const name of readdirSync(dirname(out))) {
    if (name.startsWith(stages) && !isAlive(Number(name.slice(stages.length)))) rmSync(join(dirname(out), name), { recursive: true, force: true });
  }
}

function swap(stage: string, out: string): void {
  const previous = previousOf(out);
  const replaced = existsSync(out);
  if (replaced) renameSync(out, previous);
  try {
    renameSync(stage, out);
  } catch (error) {
    if (replaced) renameSync(previous, out);
    throw error;
  }
  flushFolder(dirname(out));
  if (replaced) retire(previous, out);
}

/** Carries people's own files over into the new folder, then removes the old report. */
function retire(previous: string, out: string): void {
  for (const name of readdirSync(previous)) {
    const own = (reportFiles as readonly string[]).includes(name);
    if (own || existsSync(join(out, name))) rmSync(join(previous, name), { recursive: true, force: true });
    else renameSync(join(previous, name), join(out, name));
  }
  rmdirSync(previous);
}

/** The folder is about to change its place: it must be ours. */
function refuseForeign(out: string, asked: string): void {
  if (!existsSync(out)) return;
  if (!lstatSync(out).isDirectory()) throw refusal("out-not-a-folder", asked, "expected a folder for the report, found a file", "Give the name of a new or empty folder.");
  const names = readdirSync(out);
  if (names.length > 0 && !holdsReport(out)) {
    throw refusal("out-not-empty", asked, `expected an empty folder or one with an earlier report, found ${names.length} other ${names.length === 1 ? "entry" : "entries"}`, "Give the name of a new or empty folder.");
  }
}

/** Only an earlier report says of itself that it is one. */
function holdsReport(out: string): boolean {
  const results = join(out, "results.json");
  return existsSync(results) && readFileSync(results, "utf8").slice(0, 200).includes('"format": "drawbar results"');
}

function writeFlushed(path: string, text: string | Uint8Array): void {
  const file = openSync(path, "wx");
  try {
    writeFileSync(file, text, "utf8");
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** Makes the folder's own entries last; systems that cannot open a folder for this do not need it. */
function flushFolder(path: string): void {
  if (process.platform === "win32") return;
  const folder = openSync(path, "r");
  try {
    fsyncSync(folder);
  } finally {
    closeSync(folder);
  }
}

function isAlive(processId: number): boolean {
  try {
    process.kill(processId, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}

function previousOf(out: string): string {
  return `${out}.drawbar-previous`;
}

function refusal(code: string, at: string, message: string, hint: string): InputError {
  return new InputError([{ code, at, message, hint }]);
}

/** What the system says, in words, with what to do. */
export function explained(error: unknown, at: string): unknown {
  const code = (error as NodeJS.ErrnoException | null)?.code;
  if (code === "ENOSPC" || code === "EDQUOT") return refusal("out-disk-full", at, "expected room on the disk, found it full", "Free some space, or write to another disk. The earlier report, if any, is untouched.");
  if (code === "EACCES" || code === "EPERM" || code === "EROFS") return refusal("out-not-writable", at, "expected a folder that can be written, found it read-only", "Give another folder, or ask for the right to write there.");
  // Where a disk is read-only, making a folder with its parents says that there is none.
  if (code === "ENOENT") return refusal("out-not-writable", at, "expected a folder that can be made, found it read-only or gone", "Give another folder, or ask for the right to write there.");
  if (code === "EBUSY" || code === "EXDEV") return refusal("out-in-use", at, "expected a folder that can be renamed, found one in use or a mount point", "Give a folder inside it.");
  if (code === "ENOTDIR" || code === "EEXIST") return refusal("out-not-a-folder", at, "expected a folder, found a file on the way", "Give the name of a new or empty folder.");
  return error;
}
