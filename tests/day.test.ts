import { tableFromArrays, tableToIPC } from "apache-arrow";
import { afterAll, describe, expect, test } from "vitest";
import { reduceDay } from "../src/day.ts";
import type { DayResult, RunResult } from "../src/processing/dayResult.ts";
import { readLog } from "../src/importers/readLog.ts";
import { reduceRun } from "../src/processing/reduceRun.ts";
import { resultsJson } from "../src/report/resultsJson.ts";
import { removeDays, tinyFiles, tinyLog, writeDay } from "./helpers/tinyDay.ts";
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

describe("a reject that only the day shows", () => {
  /** The same samples in other bytes, as a file that was opened and saved again. */
  const savedAgain = (text: unknown): string => String(text).replace(/^(\d+\.\d+),/gm, "$10,");
  const verdicts = (day: DayResult): Record<string, string> => Object.fromEntries(day.runs.map((run) => [run.plan.id, run.verdict]));
  const of = (day: DayResult, id: string): RunResult => day.runs.find((run) => run.plan.id === id) as RunResult;

  test("takes its runs out of fits and repeats, and stands with them, not with the day", async () => {
    const files = tinyFiles();
    const day = await reduceDay(writeDay({ ...files, "runs.csv": String(files["runs.csv"]).replace("70,20", "70,10"), "logs/T2.csv": savedAgain(files["logs/T1.csv"]) }));
    expect(verdicts(day)).toEqual({ H1: "go", T1: "repeat", T2: "repeat" });
    for (const run of ["T1", "T2"]) {
      expect(of(day, run).findings.map(({ code }) => code)).toContain("same-numbers");
      expect(of(day, run).reasons[0]).toMatch(/^T1, T2 hold the very same numbers/);
    }
    expect(day.findings.map(({ code }) => code)).not.toContain("same-numbers");
    expect(day.pullCurves[0]?.fit.points.map(({ run, kept }) => [run, kept])).toEqual([["T1", false], ["T2", false]]);
    expect(day.repeatability.flatMap(({ conditions }) => conditions.flatMap(({ runs }) => runs)).filter((run) => run !== "H1")).toEqual([]);
  });

  test("takes a run out that others rest on: these are measured as if it were not there", async () => {
    const files: DayFiles = { ...tinyFiles(), "runs.csv": `${String(tinyFiles()["runs.csv"])}T3,traction,W1,B1,70,0,\n` };
    const day = await reduceDay(writeDay({ ...files, "logs/T3.csv": savedAgain(files["logs/H1.csv"]) }));
    expect(verdicts(day)).toEqual({ H1: "repeat", T1: "repeat", T2: "repeat", T3: "repeat" });
    expect([day.rollingRadii, of(day, "T1").findings.map(({ code }) => code)]).toEqual([[], expect.arrayContaining(["radius-unknown"])]);
    const without = await reduceDay(writeDay({ ...files, "logs/H1.csv": "t,W\n0,x\n", "logs/T3.csv": tinyLog(0, 2) }));
    for (const run of ["T1", "T2"]) expect(of(day, run)).toEqual(of(without, run));
  });

  test("leaves the one standing whose copy is out already", async () => {
    const files = tinyFiles();
    const runs = "run,kind,wheel,bed,load [N],slip [%],remark,excluded,reason\nH1,hard floor,W1,,70,,,,\nT1,traction,W1,B1,70,10,,,\nT2,traction,W1,B1,70,20,,yes,copied by mistake\n";
    const day = await reduceDay(writeDay({ ...files, "runs.csv": runs, "logs/T2.csv": savedAgain(files["logs/T1.csv"]) }));
    expect(verdicts(day)).toEqual({ H1: "go", T1: "go", T2: "excluded" });
    expect(day.findings.filter(({ code }) => code === "same-numbers").map(({ severity }) => severity)).toEqual(["look"]);
  });
});
