import { arrowToTable, tableToArrow } from "../../importers/arrow/tableArrow.ts";
import type { RawTable, ReadOptions } from "../../importers/contract.ts";
import { readLog } from "../../importers/readLog.ts";
import { keyOf } from "./keyOf.ts";
import type { Store } from "./store.ts";

const readingKeys: Readonly<Record<keyof ReadOptions, true>> = { clock: true, columns: true, encoding: true, delimiter: true, decimal: true, thousands: true, headerLine: true, unitLine: true, part: true, grid: true, storedGain: true, missing: true, overload: true };

/** What the reader is told of a logger and nothing beside it: a changed calibration is no reason to read anew. */
function readingOnly(options: ReadOptions): ReadOptions {
  return Object.fromEntries(Object.entries(options).filter(([name]) => name in readingKeys)) as unknown as ReadOptions;
}

/** A larger table takes too long to write and too much room. */
const mostNumbers = 2 ** 26;

/** A log of these bytes as its reader gives it, from the store where the same reader has read them in the same way before. @throws InputError */
export async function keptTable(folder: string, path: string, sha256: string | null, options: ReadOptions, store: Store, readers: string): Promise<RawTable> {
  const told = readingOnly(options);
  const key = keyOf(readers, path, sha256, told);
  const kept = sha256 === null ? null : store.find("table", key);
  if (kept !== null) return arrowToTable(kept);
  const table = await readLog(folder, path, told);
  // A file that changes while it is read is not what it was named by.
  if (table.source.sha256 === sha256 && table.timesS.length * (table.columns.length + 1) <= mostNumbers) store.keep("table", key, await tableToArrow(table));
  return table;
}
