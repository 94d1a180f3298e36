import { createHash } from "node:crypto";
import type { DayResult } from "../processing/dayResult.ts";
import { renderReport } from "./renderReport.ts";
import { resultsJson } from "./resultsJson.ts";
import { runsCsv } from "./runsCsv.ts";
import { soilJson } from "./soilJson.ts";
import { writeTogether } from "./writeTogether.ts";
import type { reportFiles } from "./writeTogether.ts";

/** Writes the four files of a day into `outFolder`, all four or none, as `writeTogether` says. @throws InputError when the folder cannot be written */
export function writeReport(day: DayResult, outFolder: string, options: { readonly madeAt: string }): void {
  writeTogether(outFolder, reportTexts(day, options));
}

/** The four files of a day; the report names the other three by hash. */
export function reportTexts(day: DayResult, options: { readonly madeAt: string }): { readonly name: (typeof reportFiles)[number]; readonly text: string }[] {
  const others = [
    { name: "results.json", text: resultsJson(day) },
    { name: "runs.csv", text: runsCsv(day) },
    { name: "soil.json", text: soilJson(day) },
  ] as const;
  const outputs = others.map(({ name, text }) => ({ name, sha256: createHash("sha256").update(text, "utf8").digest("hex") }));
  return [{ name: "report.html", text: renderReport(day, { madeAt: options.madeAt, outputs }) }, ...others];
}
