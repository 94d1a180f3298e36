import { expect, it } from "vitest";
import { repeatabilitySection } from "../../src/report/sections/repeatability.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { sampleDay } from "./sampleDay.ts";

it("a measure that kinds of run name differently goes by its shortest name", () => {
  const day = sampleDay();
  const repeated = day.repeatability[0]?.measure as string;
  const run = day.runs.find((one) => one.measures.some(({ name }) => name === repeated)) as RunResult;
  const label = run.measures.find(({ name }) => name === repeated)?.label as string;
  const longer = { ...run, measures: run.measures.map((measure) => ({ ...measure, label: `${measure.label} while running` })) };
  for (const runs of [[...day.runs, longer], [longer, ...day.runs]]) {
    const page = repeatabilitySection({ ...day, runs }).html;
    expect(page).toContain(`<td>${label}</td>`);
    expect(page).not.toContain("while running");
  }
});
