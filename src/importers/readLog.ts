import { readFileSync, realpathSync } from "node:fs";
import { isAbsolute, relative, resolve, sep } from "node:path";
import { InputError } from "../core/errors.ts";
import type { RawTable, ReadOptions } from "./contract.ts";
import { readLargeText } from "./largeText.ts";
import { formatOf, unknownFormat } from "./registry.ts";
import { tooLarge } from "./textOnDisk.ts";

const headBytes = 65_536;

/** Reads one log of a day folder, whatever format it has; a format's reader is loaded when its first file comes. @throws InputError with every issue found */
export async function readLog(folder: string, relativePath: string, options: ReadOptions): Promise<RawTable> {
  const path = pathInside(folder, relativePath);
  const large = options.grid !== undefined ? null : await opening(relativePath, () => readLargeText(path, relativePath, options));
  return large ?? readBytes(await opening(relativePath, () => readFileSync(path)), relativePath, options);
}

export async function readBytes(bytes: Uint8Array, fileName: string, options: ReadOptions): Promise<RawTable> {
  if (bytes.length === 0) throw emptyFile(fileName);
  if (options.grid !== undefined) return (await import("./grid/readGrid.ts")).readGrid(bytes, fileName, options);
  const head = bytes.subarray(0, headBytes);
  const format = formatOf(head, fileName);
  if (format === undefined) throw new InputError([unknownFormat(head, fileName)]);
  return (await format.load()).read(bytes, fileName, options);
}

export function emptyFile(fileName: string): InputError {
  return new InputError([{ code: "empty-file", at: fileName, message: "expected a log, found an empty file", hint: "Copy the log again, or exclude the run in runs.csv" }]);
}

/** A file inside the folder; links that lead outside are refused like paths that do. */
export function pathInside(folder: string, relativePath: string): string {
  const path = resolve(folder, relativePath);
  if (isAbsolute(relativePath) || !within(resolve(folder), path)) throw outside(relativePath);
  try {
    if (!within(realpathSync(folder), realpathSync(path))) throw outside(relativePath);
    return path;
  } catch (error) {
    throw error instanceof InputError ? error : new InputError([unreadable(relativePath, error)]);
  }
}

/** What the file system says against it becomes an issue of the file. */
export async function opening<T>(relativePath: string, open: () => T | Promise<T>): Promise<T> {
  try {
    return await open();
  } catch (error) {
    const { code, syscall } = error as NodeJS.ErrnoException;
    throw syscall === undefined && code !== "ERR_FS_FILE_TOO_LARGE" ? error : new InputError([unreadable(relativePath, error)]);
  }
}

function within(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== "" && way !== ".." && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

function outside(path: string): InputError {
  return new InputError([{ code: "outside-folder", at: path, message: "expected a path inside the day folder, relative to it, found one that leaves it or starts elsewhere", hint: "Copy the log into the day folder, and correct files: in rig.yaml" }]);
}

function unreadable(path: string, error: unknown): { code: string; at: string; message: string; hint: string } {
  const code = (error as NodeJS.ErrnoException).code ?? "";
  if (code === "ENOENT" || code === "ENOTDIR") return { code: "missing-file", at: path, message: "expected a log, found no file of that name", hint: "Copy the log into the day folder, correct files: in rig.yaml, or exclude the run in runs.csv" };
  if (code === "EISDIR") return { code: "not-a-file", at: path, message: "expected a file, found a folder", hint: "Correct files: in rig.yaml" };
  if (code === "ERR_FS_FILE_TOO_LARGE") return tooLarge(path);
  return { code: "unreadable-file", at: path, message: `expected a readable file, found ${code === "" ? String(error) : code}`, hint: "Check the file's permissions" };
}
