import { UsageError } from "../core/errors.ts";
import { exportFormats, exportRun } from "../exporters/exportRun.ts";
import type { ExportFormat } from "../exporters/exportRun.ts";
import { exitCodes } from "./exitCodes.ts";
import { writeNew } from "./writeNew.ts";

export async function exportCommand(day: string, run: string, options: { readonly as: string; readonly out: string }): Promise<number> {
  if (!Object.hasOwn(exportFormats, options.as)) throw new UsageError(`expected --as ${Object.keys(exportFormats).join(", ")}, found "${options.as}"`);
  const { files, findings } = await exportRun(day, run, options.as as ExportFormat);
  for (const one of findings) if (one.severity !== "note") process.stderr.write(`${one.severity}: ${one.message}\n`);
  for (const { name, bytes } of files) process.stdout.write(`${writeNew(options.out, name, bytes)}\n`);
  return findings.some(({ severity }) => severity === "reject") ? exitCodes.rejected : exitCodes.done;
}
