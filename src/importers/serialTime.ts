import { isZone, parseIso, toIso } from "../core/instants.ts";
import type { Issue } from "../core/errors.ts";
import { dateMs } from "../workbook/numberFormats.ts";
import type { ClockFormat } from "./contract.ts";

/** Times of rows whose clock counts days as a spreadsheet does, and what keeps them from being moments. */
export function serialTime(days: Float64Array, clock: Extract<ClockFormat, { kind: "serial" }>, at: string): { readonly timesS: Float64Array; readonly startedAt: string | null; readonly issues: readonly Issue[] } {
  const first = days[0] ?? Number.NaN;
  const timesS = days.map((day) => (day - first) * 86_400);
  const refused = (code: string, message: string, hint: string) => ({ timesS, startedAt: null, issues: [{ code, at, message, hint }] });
  if (!isZone(clock.zone)) return refused("unknown-zone", `expected a time zone, found "${clock.zone}"`, "Set zone: in rig.yaml to an IANA name like Europe/Oslo, to UTC, or to an offset like UTC+2");
  const moments: number[] = [];
  for (const day of [first, days.at(-1) ?? first]) {
    const local = dateMs(day, clock.epoch === 1904);
    // Nobody logs before 1970; such a number counts days from somewhere else.
    if (local === null || local < 0) return refused("not-a-date", `expected days counted from ${clock.epoch}, found ${day}`, "Correct epoch: in rig.yaml, or declare kind: elapsed with unit: d if the log counts from its own start");
    const moment = parseIso(new Date(local).toISOString().replace("Z", ""), clock.zone);
    if ("problem" in moment) return refused("unreadable-time", `the moment ${new Date(local).toISOString().slice(0, 19)} ${moment.problem}`, "Set the logger to UTC, or correct zone: in rig.yaml");
    moments.push(moment.ms - local);
  }
  if (moments[0] !== moments[1]) return refused("clocks-changed", `expected a log within one offset of ${clock.zone}, found one over which the clocks were changed`, "Set the logger to UTC and repeat, or cut the log at the change");
  return { timesS, startedAt: toIso((dateMs(first, clock.epoch === 1904) as number) + (moments[0] as number), clock.zone), issues: [] };
}
