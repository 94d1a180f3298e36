import { tableFromArrays, tableToIPC } from "apache-arrow";
import { afterAll, expect, test } from "vitest";
import { reduceDay } from "../src/day.ts";
import type { RunResult } from "../src/processing/dayResult.ts";
import { readLog } from "../src/importers/readLog.ts";
import { reduceRun } from "../src/processing/reduceRun.ts";
import { resultsJson } from "../src/report/resultsJson.ts";
import { removeDays, tinyFiles, writeDay } from "./helpers/tinyDay.ts";
import type { DayFiles } from "./helpers/tinyDay.ts";

afterAll(removeDays);

/** The tiny day's text logs as columns of an Arrow file, written by the Arrow library. */
function asArrow(files: DayFiles): DayFiles {
  const changed: DayFiles = {};
  for (const [path, content] of Object.entries(files)) {
    if (!path.startsWith("logs/")) {
      changed[path] = String(content).replace("logs/{run}.csv", "logs/{run}.arrow");
      continue;
    }
    const [heading, ...rows] = String(content).trim().split("\n").map((line) => line.split(","));
    const columns = (heading ?? []).map((name, index): [string, Float64Array] => [name.replace(/ \[.*\]$/, ""), Float64Array.from(rows, (row) => Number(row[index]))]);
    changed[path.replace(".csv", ".arrow")] = tableToIPC(tableFromArrays(Object.fromEntries(columns)), "file");
  }
  return changed;
}

test("a day gives the same numbers whatever format its logs have", async () => {
  const text = await reduceDay(writeDay(tinyFiles()));
  const arrow = await reduceDay(writeDay(asArrow(tinyFiles())));
  const told = (run: RunResult): unknown => [run.plan.id, run.verdict, run.measures.map((measure) => [measure.name, measure.estimate.value, measure.estimate.standardUncertainty])];
  expect(arrow.runs.map(told)).toEqual(text.runs.map(told));
  expect(arrow.runs.flatMap((run) => run.sources.map((source) => source.format))).toEqual(arrow.runs.map(() => expect.stringContaining("Arrow")));
  expect(text.runs.map((run) => run.verdict)).toEqual(["go", "go", "go"]);
});

test("the same bytes come out whoever finishes first", async () => {
  const folder = writeDay(tinyFiles());
  const waits = [60, 0, 30];
  const inLanes = await reduceDay(folder, {
    hands: () => ({
      lanes: 3,
      reduce: async (day, plan, wheel, rig, references) => {
        await new Promise((resolve) => setTimeout(resolve, waits.pop() ?? 0));
        return reduceRun(plan, wheel, rig, references, (path, options) => readLog(day, path, options));
      },
    }),
  });
  expect(resultsJson(inLanes)).toBe(resultsJson(await reduceDay(folder)));
});
