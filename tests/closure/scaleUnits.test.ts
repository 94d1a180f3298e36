import { afterAll, expect, it } from "vitest";
import { reduceDay } from "../../src/day.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { agrees } from "../helpers/agrees.ts";
import { removeDays, tinyFiles, writeDay } from "../helpers/tinyDay.ts";
import type { DayFiles } from "../helpers/tinyDay.ts";

afterAll(removeDays);

/** The day with its load column divided by a number, and the load channel described otherwise. */
function day(divisor: number, unit: string): DayFiles {
  const files = tinyFiles();
  for (const path of Object.keys(files).filter((name) => name.startsWith("logs/"))) {
    const lines = (files[path] as string).trimEnd().split("\n");
    files[path] = `${lines.map((line, i) => (i === 0 ? line.replace("W [N]", "W") : line.split(",").map((cell, column) => (column === 1 ? (Number(cell) / divisor).toFixed(5) : cell)).join(","))).join("\n")}\n`;
  }
  files["rig.yaml"] = (files["rig.yaml"] as string)
    .replace("{ column: W, unit: N, sign: 1, calibration: { gives: N, gain: 1, offset: 0, date: 2026-10-01, certificate: LC-1 }, uncertainty: { relative: 0.002, offset: 0.1 }, range: [-100, 500] }", `{ column: W, ${unit}, sign: 1, uncertainty: { relative: 0.002, offset: ${0.1 / divisor} }, range: [${-100 / divisor}, ${500 / divisor}] }`);
  return files;
}

async function loads(files: DayFiles): Promise<{ readonly run: RunResult; readonly loadN: number }> {
  const { runs } = await reduceDay(writeDay(files));
  const run = runs.find((candidate) => candidate.plan.id === "T1") as RunResult;
  return { run, loadN: run.measures.find((measure) => measure.name === "verticalLoad")?.estimate.value ?? Number.NaN };
}

it("a load read from a scale in kilograms or pounds is the load, where that is declared", async () => {
  for (const [divisor, unit] of [[9.81, "unit: kg, massAsForce: localGravity"], [9.80665, "unit: kg, massAsForce: standardGravity"], [4.4482216, "unit: lb, massAsForce: standardGravity"], [9.80665, 'unit: "kgf"'], [4.4482216, 'unit: "[lbf_av]"']] as const) {
    const { run, loadN } = await loads(day(divisor, unit));
    agrees(loadN, { expected: 70, within: 0.1, source: "made day: 70 N put in, noise of ±0.05 N" });
    expect(run.findings.filter((found) => found.severity !== "note").map((found) => found.code)).toEqual([]);
    expect(run.sampling).toMatchObject([{ logger: "box", intervals: { median: expect.closeTo(0.02, 9) as number, gaps: 0, backward: 0 } }]);
  }
});

it("kilograms that pass for newton are named", async () => {
  const { run } = await loads(day(9.81, "unit: N"));
  const named = run.findings.filter((found) => found.message.includes("kilogram-force and newton"));
  expect(named.map((found) => found.code)).toEqual(expect.arrayContaining(["load-off"]));
});
