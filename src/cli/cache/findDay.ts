import { resolve } from "node:path";
import { deserialize } from "node:v8";
import { sheetFiles } from "../../campaign/sheetFiles.ts";
import { filesUnder } from "../../importers/filesUnder.ts";
import { keyOf } from "./keyOf.ts";
import { sha256Of } from "./sha256Of.ts";
import type { Store } from "./store.ts";

/** Stands in the report for the moment it is made, the only thing in it that the day's files do not decide. */
export const madeAtMark = "\u{F0000}made at\u{F0000}";

/** What `reduce` writes and says of a day, but for the moment it was made. */
export interface DayOutput {
  readonly files: readonly { readonly name: string; readonly bytes: Uint8Array }[];
  /** rejected runs with their reason, a line each */
  readonly rejected: readonly string[];
  readonly summary: string;
  readonly exitCode: number;
}

/** A day's output and, beside the sheets that name the entry, all it was made from. */
export interface DayEntry {
  /** null = was not there */
  readonly logs: readonly (readonly [path: string, sha256: string | null])[];
  readonly folders: readonly (readonly [folder: string, files: readonly string[]])[];
  readonly output: DayOutput;
}

type HashAll = (folder: string, paths: readonly string[]) => Promise<readonly (string | null)[]>;

/** The day's output as it was kept, if every file it was made from still holds the very same bytes; null otherwise. */
export async function findDay(day: string, store: Store, program: string, hashAll: HashAll): Promise<DayOutput | null> {
  const kept = store.find("day", dayKey(day, program, (file) => sha256Of(day, file)));
  if (kept === null) return null;
  const { logs, folders, output } = deserialize(kept) as DayEntry;
  if (folders.some(([folder, files]) => filesUnder(day, folder).join("\n") !== files.join("\n"))) return null;
  const now = await hashAll(day, logs.map(([path]) => path));
  return logs.every(([, sha256], place) => sha256 === now[place]) ? output : null;
}

/** One entry for a day and its sheets: logs come and go, and stand inside the entry. */
export function dayKey(day: string, program: string, sha256: (sheet: string) => string | null): string {
  return keyOf(program, resolve(day), sheetFiles.map(sha256));
}

/** The files to write at that moment. */
export function madeAt({ files }: DayOutput, moment: string): { readonly name: string; readonly text: Uint8Array }[] {
  return files.map(({ name, bytes }) => {
    const at = name === "report.html" ? Buffer.from(bytes).indexOf(madeAtMark) : -1;
    return { name, text: at < 0 ? bytes : Buffer.concat([bytes.subarray(0, at), Buffer.from(moment), bytes.subarray(at + Buffer.byteLength(madeAtMark))]) };
  });
}
