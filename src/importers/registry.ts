import type { Issue } from "../core/errors.ts";
import type { Importer } from "./contract.ts";
import { delimitedText } from "./delimitedText.ts";
import type { FormatName } from "./guardBody.ts";
import { foreignFormat, isArrow, isHdf5, isMatFive, isMatSevenThree, isMcap, isParquet, isWorkbook } from "./signatures.ts";

/** One format of log: how to know it, and its reader, loaded only when a file needs it. */
export interface Format {
  readonly format: string;
  readonly sniff: Importer["sniff"];
  readonly load: () => Promise<Importer>;
}

/** Every format drawbar reads; the first that recognises a file reads it. Delimited text recognises any text, so it comes last. */
export const formats: readonly Format[] = [
  { format: "XLSX workbook", sniff: isWorkbook, load: async () => (await import("./xlsx/workbookLog.ts")).workbookLog },
  { format: "MAT version 5", sniff: isMatFive, load: async () => (await import("./mat/matFive.ts")).matFive },
  { format: "MAT version 7.3", sniff: isMatSevenThree, load: () => guarded("MAT version 7.3", isMatSevenThree) },
  { format: "HDF5", sniff: isHdf5, load: () => guarded("HDF5", isHdf5) },
  { format: "Parquet", sniff: isParquet, load: () => guarded("Parquet", isParquet) },
  { format: "Arrow IPC", sniff: isArrow, load: () => guarded("Arrow IPC", isArrow) },
  { format: "MCAP", sniff: isMcap, load: () => guarded("MCAP", isMcap) },
  { format: delimitedText.format, sniff: (head, fileName) => foreignFormat(head) === null && delimitedText.sniff(head, fileName), load: () => Promise.resolve(delimitedText) },
];

/** Formats that libraries of others read are read in a thread of their own. */
async function guarded(format: FormatName, sniff: Importer["sniff"]): Promise<Importer> {
  return (await import("./guard.ts")).guardedImporter(format, sniff);
}

export function formatOf(head: Uint8Array, fileName: string): Format | undefined {
  return formats.find((format) => format.sniff(head, fileName));
}

/** What to say of a file that no reader recognises. */
export function unknownFormat(head: Uint8Array, fileName: string): Issue {
  const foreign = foreignFormat(head);
  const known = "text, XLSX, MAT, HDF5, Parquet, Arrow IPC or MCAP";
  if (foreign !== null) return { code: "unknown-format", at: fileName, message: `expected a log as ${known}, found ${foreign.found}`, hint: foreign.hint };
  return { code: "unknown-format", at: fileName, message: `expected a log as ${known}, found bytes of no kind drawbar knows`, hint: "Export the log as delimited text or in one of these formats" };
}
