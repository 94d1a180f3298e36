import { printableLines } from "../core/printable.ts";
import { inspectAnyLog } from "../importers/inspectAnyLog.ts";
import { exitCodes } from "./exitCodes.ts";
import { showContents } from "./showContents.ts";
import { showInspection } from "./showInspection.ts";

export async function inspectCommand(file: string): Promise<number> {
  const found = await inspectAnyLog(file);
  process.stdout.write(`${printableLines("readings" in found ? showInspection(found) : showContents(found))}\n`);
  return exitCodes.done;
}
