import { spawnSync } from "node:child_process";
import { resolve } from "node:path";
import { reduceDay } from "../../src/day.ts";
import { InputError } from "../../src/core/errors.ts";
import type { Issue } from "../../src/core/errors.ts";
import type { DayResult } from "../../src/processing/dayResult.ts";
import { tinyFiles, writeDay } from "../helpers/tinyDay.ts";
import type { DayFiles } from "../helpers/tinyDay.ts";

export type Change = (files: DayFiles) => void;

/** Replaces text in one file; a replacement that changes nothing is a mistake in the test. */
export function replaced(path: string, from: string | RegExp, to: string): Change {
  return (files) => {
    const before = String(files[path]);
    const after = before.replace(from, to);
    if (after === before) throw new Error(`${path} does not hold ${String(from)}`);
    files[path] = after;
  };
}

/** Changes the cells of T1's log, row by row; rows count from 0 below the heading. */
export function cells(change: (row: string[], index: number) => void): Change {
  return (files) => {
    const [heading, ...rows] = String(files["logs/T1.csv"]).trimEnd().split("\n");
    const changed = rows.map((line, index) => {
      const row = line.split(",");
      change(row, index);
      return row.join(",");
    });
    files["logs/T1.csv"] = `${[heading, ...changed].join("\n")}\n`;
  };
}

/** A tiny day with one thing wrong, in a folder of its own. */
export function dayWith(change: Change): string {
  const files = tinyFiles();
  change(files);
  return writeDay(files);
}

/** The issues that make the whole day unreadable. */
export async function refusal(folder: string): Promise<readonly Issue[]> {
  try {
    await reduceDay(folder);
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
  throw new Error("the day was not refused");
}

/** id → verdict */
export function verdicts(day: DayResult): Record<string, string> {
  return Object.fromEntries(day.runs.map((run) => [run.plan.id, run.verdict]));
}

/** A run counts as measured when its pull coefficient and slip have values and uncertainties. */
export function measured(day: DayResult, id: string): boolean {
  const run = day.runs.find((candidate) => candidate.plan.id === id);
  const names = run?.plan.kind === "hardFloor" ? ["rollingRadius"] : ["pullCoefficient", "slip"];
  return names.every((name) => (run?.measures.find((measure) => measure.name === name)?.estimate.standardUncertainty ?? 0) > 0);
}

export interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** The command line, as a user calls it: the one that `npm test` has just built; from the sources when a part is run alone. */
export function drawbar(...words: string[]): Ended {
  const built = process.env["DRAWBAR_BUILT"] === "yes";
  const ended = spawnSync(built ? process.execPath : resolve("node_modules/.bin/tsx"), [resolve(built ? "dist/cli/main.js" : "src/cli/main.ts"), ...words], { encoding: "utf8" });
  return { code: ended.status, out: ended.stdout, err: ended.stderr };
}
