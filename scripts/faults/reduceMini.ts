import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { InputError } from "../../src/core/errors.ts";
import type { Estimate } from "../../src/core/estimate.ts";
import { reduceDay } from "../../src/day.ts";
import type { DayResult } from "../../src/processing/dayResult.ts";
import { expandedUncertainty } from "../../src/processing/expandedUncertainty.ts";
import type { Headline } from "./fault.ts";
import type { MiniDay } from "./miniDay.ts";

/** What a day says: alarms as `code@run` (or `code@day`), and the result, null when the whole day was refused. */
export interface Said {
  readonly alarms: ReadonlySet<string>;
  readonly result: DayResult | null;
}

/** The day's files, written into a folder of their own and reduced as a user would. */
export async function reduceMini(day: MiniDay): Promise<Said> {
  const folder = mkdtempSync(join(tmpdir(), "faults-"));
  try {
    for (const [path, content] of day.files) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), content);
    }
    const result = await reduceDay(folder);
    return { alarms: alarmsOf(result), result };
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return { alarms: new Set(error.issues.map((issue) => `${issue.code}@day`)), result: null };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Everything a person is made to look at; notes are not alarms. */
function alarmsOf(day: DayResult): Set<string> {
  const alarms = new Set<string>();
  for (const run of day.runs) {
    for (const found of run.findings) if (found.severity !== "note") alarms.add(`${found.code}@${run.plan.id}`);
    for (const issue of run.issues) alarms.add(`${issue.code}@${run.plan.id}`);
  }
  for (const found of [...day.findings, ...day.cones.flatMap((cone) => cone.findings)]) if (found.severity !== "note") alarms.add(`${found.code}@day`);
  for (const issue of day.campaign.issues) alarms.add(`${issue.code}@${issue.run ?? "day"}`);
  return alarms;
}

export function codeOf(alarm: string): string {
  return alarm.slice(0, alarm.indexOf("@"));
}

/** The headline's estimate; null when the day does not give it. */
export function headlineOf(said: Said, headline: Headline): Estimate | null {
  if (said.result === null) return null;
  const estimate = "run" in headline ? said.result.runs.find((run) => run.plan.id === headline.run)?.measures.find((measure) => measure.name === headline.measure)?.estimate : headline.of(said.result);
  return estimate === undefined || estimate === null || !Number.isFinite(estimate.value) ? null : estimate;
}

/** How far a fault moved the headline number, in halves of a stated 95 % interval. */
export interface Shift {
  /** against the clean day's statement: whether the fault matters */
  readonly ofClean: number;
  /** against the spoiled day's own statement: beyond 1 the report is wrong by more than it admits */
  readonly ofOwn: number;
}

/** null when either day gives no such number; a number that is withheld does not mislead. */
export function shiftOf(clean: Said, spoiled: Said, headline: Headline): Shift | null {
  const before = headlineOf(clean, headline);
  const after = headlineOf(spoiled, headline);
  if (before === null || after === null) return null;
  const stated = [before, after].map((estimate) => expandedUncertainty(estimate)?.half ?? null);
  const [clear, own] = stated;
  const moved = Math.abs(after.value - before.value);
  return clear === null || clear === undefined || own === null || own === undefined ? null : { ofClean: moved / clear, ofOwn: moved / own };
}
