import { inspectLog } from "../importers/inspectLog.ts";
import { exitCodes } from "./exitCodes.ts";
import { showInspection } from "./showInspection.ts";

export function inspectCommand(file: string): number {
  process.stdout.write(`${showInspection(inspectLog(file))}\n`);
  return exitCodes.done;
}
