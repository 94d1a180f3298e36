import type { Logger } from "./rigSchema.ts";

/** The file a logger wrote for a run, relative to the day folder. `sheetId` is the id as typed on the run sheet. */
export function logPath(logger: Pick<Logger, "files">, sheetId: string): string {
  return logger.files.replaceAll("{run}", () => sheetId);
}
