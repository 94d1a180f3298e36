import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { readCampaign } from "../../src/campaign/readCampaign.ts";
import { reduceDay } from "../../src/day.ts";
import type { DayResult } from "../../src/processing/dayResult.ts";
import { renderReport } from "../../src/report/renderReport.ts";
import { resultsJson } from "../../src/report/resultsJson.ts";
import { runsCsv } from "../../src/report/runsCsv.ts";
import { soilJson } from "../../src/report/soilJson.ts";
import { exampleDay } from "../../tests/campaign/exampleDay.ts";
import { tinyFiles } from "../../tests/helpers/tinyDay.ts";
import type { DayFiles } from "../../tests/helpers/tinyDay.ts";
import { spoilBytes } from "./spoilBytes.ts";
import { spoilText } from "./spoilText.ts";
import { spoilWorkbook } from "./spoilWorkbook.ts";
import { spoilYaml } from "./spoilYaml.ts";
import type { FuzzSample, Target } from "./target.ts";

const example: DayFiles = { ...exampleDay };
const book = new Uint8Array(readFileSync(new URL("../../fixtures/formats/xlsx/runs.xlsx", import.meta.url)));
const { "runs.csv": _, ...bookDay } = example;
const tiny = tinyFiles();

/** What people write, and whole days. */
export const dayTargets: readonly Target[] = [
  { name: "rig.yaml", samples: [described("rig.yaml", example)], spoils: { ...spoilYaml, ...spoilBytes, "huge cell": spoilText["huge cell"]!, "NUL bytes": spoilText["NUL bytes"]! } },
  { name: "run sheet", samples: [described("runs.csv", example)], spoils: { ...spoilText, ...spoilBytes } },
  { name: "records", samples: ["wheels.csv", "beds.csv", "cones.csv"].map((file) => described(file, example)), spoils: { ...spoilText, ...spoilBytes } },
  { name: "run sheet, XLSX", samples: [described("runs.xlsx", { ...bookDay, "runs.xlsx": book })], spoils: { ...spoilWorkbook, ...spoilBytes } },
  { name: "whole day: rig.yaml", samples: [reduced("rig.yaml")], spoils: spoilYaml },
  { name: "whole day: sheets", samples: ["runs.csv", "wheels.csv", "beds.csv"].map(reduced), spoils: spoilText },
  { name: "whole day: logs", samples: ["logs/H1.csv", "logs/T1.csv"].map(reduced), spoils: { ...spoilText, ...spoilBytes } },
];

function described(file: string, files: DayFiles): FuzzSample {
  return { name: file, bytes: bytesOf(files, file), read: (bytes) => inFolder({ ...files, [file]: bytes }, async (folder) => void readCampaign(folder)) };
}

function reduced(file: string): FuzzSample {
  return { name: file, bytes: bytesOf(tiny, file), read: (bytes) => inFolder({ ...tiny, [file]: bytes }, async (folder) => checkReport(await reduceDay(folder))) };
}

function bytesOf(files: DayFiles, file: string): Uint8Array {
  const content = files[file] as string | Uint8Array;
  return typeof content === "string" ? new TextEncoder().encode(content) : content;
}

async function inFolder(files: DayFiles, use: (folder: string) => Promise<void>): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), "drawbar-fuzz-"));
  try {
    for (const [path, content] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), content);
    }
    await use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Faults of drawbar itself are no result, and what people typed is never markup. @throws Error */
export function checkReport(day: DayResult): void {
  const fault = day.runs.flatMap((run) => run.issues).find(({ code }) => code === "own-fault");
  if (fault !== undefined) throw new Error(fault.message);
  const page = renderReport(day, { madeAt: "" });
  const markup = /<img src=x|<script>drawbar|<b onmouseover/.exec(page);
  if (markup !== null) throw new Error(`markup in the report: ${page.slice(markup.index - 100, markup.index + 100)}`);
  const hidden = /[\u0000-\u0008\u000b-\u001f\u007f\u0080-\u009f\u200e\u200f\u202a-\u202e\u2066-\u2069]/.exec(page);
  if (hidden !== null) throw new Error(`a control character in the report: ${JSON.stringify(page.slice(hidden.index - 100, hidden.index + 100))}`);
  JSON.parse(resultsJson(day));
  JSON.parse(soilJson(day));
  runsCsv(day);
}
