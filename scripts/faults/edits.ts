import { bridgeRange, decoupling, encoder, inverse } from "../demo/rigTruth.ts";
import { editLog } from "./logTable.ts";
import { miniRates } from "./miniDay.ts";
import type { MiniDay, RunPhases } from "./miniDay.ts";

const toBridges = inverse(decoupling);

/** What the six-axis sensor feels: the carriage's push on the wheel, so a pulling wheel reads forceX < 0. [N, N·m] */
export interface SensorForces {
  forceX: number;
  forceY: number;
  forceZ: number;
  momentX: number;
  momentY: number;
  momentZ: number;
}

const outputs = ["forceX", "forceY", "forceZ", "momentX", "momentY", "momentZ"] as const;
const bridges = ["B1", "B2", "B3", "B4", "B5", "B6"];

/** Changes the forces of a rolling run sample by sample: through the certificate's matrix to the bridges' readings and back. */
export function editForces(day: MiniDay, run: string, change: (forces: SensorForces, timeS: number, phases: RunPhases) => void): void {
  const phases = phasesOf(day, run);
  editLog(day, `logs/${run}_frame.txt`, (table, column) => {
    const at = bridges.map(column);
    table.rows.forEach((row, i) => {
      const readings = at.map((index) => row[index] as number);
      const forces = Object.fromEntries(outputs.map((name, k) => [name, dot(decoupling[k] as readonly number[], readings)])) as unknown as SensorForces;
      change(forces, i / miniRates.frameHz, phases);
      const values = outputs.map((name) => forces[name]);
      at.forEach((index, bridge) => {
        row[index] = Math.max(-bridgeRange, Math.min(bridgeRange, dot(toBridges[bridge] as readonly number[], values)));
      });
    });
  });
}

/** Changes one column of the frame logger's file; time on that logger's clock. */
export function editFrame(day: MiniDay, run: string, name: string, change: (value: number, timeS: number, phases: RunPhases) => number): void {
  editLog(day, `logs/${run}_frame.txt`, (table, column) => {
    const at = column(name);
    table.rows.forEach((row, i) => (row[at] = change(row[at] as number, i / miniRates.frameHz, phasesOf(day, run))));
  });
}

/** Adds a column at the end of the frame logger's file. */
export function addFrameColumn(day: MiniDay, run: string, name: string, unit: string, valueAt: (timeS: number, phases: RunPhases) => number): void {
  editLog(day, `logs/${run}_frame.txt`, (table) => {
    const lines = table.head.split("\n");
    table.head = lines.map((line, i) => (i === lines.length - 2 ? `${line}\t${name}` : i === lines.length - 1 ? `${line}\t${unit}` : line)).join("\n");
    table.names.push(name);
    table.decimals.push(3);
    table.rows.forEach((row, i) => row.push(valueAt(i / miniRates.frameHz, phasesOf(day, run))));
  });
}

/** Changes one column of the drive logger's file; time on the frame logger's clock (to a few parts in 10 000). */
export function editDrive(day: MiniDay, run: string, name: string, change: (value: number, timeS: number, phases: RunPhases) => number): void {
  const phases = phasesOf(day, run);
  editLog(day, `logs/${run}_drive.csv`, (table, column) => {
    const at = column(name);
    table.rows.forEach((row, i) => (row[at] = change(row[at] as number, i / miniRates.driveHz - phases.leadS, phases)));
  });
}

/** Changes the encoder's counts as a count that never rolls over; they are wrapped again. */
export function editCounts(day: MiniDay, run: string, change: (count: number, timeS: number, phases: RunPhases) => number): void {
  let turns = 0;
  let before = Number.NaN;
  editDrive(day, run, "Enc", (count, timeS, phases) => {
    if (count - before < -encoder.rollover / 2) turns++;
    else if (count - before > encoder.rollover / 2) turns--;
    before = count;
    const changed = Math.round(change(count + turns * encoder.rollover, timeS, phases));
    return ((changed % encoder.rollover) + encoder.rollover) % encoder.rollover;
  });
}

/** Replaces text in one of the day's written files. A replacement that changes nothing is a mistake of the injector. */
export function replaceText(day: MiniDay, path: string, from: string | RegExp, to: string | ((...parts: string[]) => string)): void {
  const before = textOf(day, path);
  const after = typeof to === "string" ? before.replace(from, to) : before.replace(from, to);
  if (after === before) throw new Error(`${path} does not hold ${String(from)}`);
  day.files.set(path, after);
}

/** Changes the rows of a sheet: cells by heading, as typed. Return false to leave the row out. */
export function editSheet(day: MiniDay, path: string, change: (row: Record<string, string>, index: number) => void | false): void {
  const [heading = "", ...lines] = textOf(day, path).replace(/^\ufeff/, "").trimEnd().split("\r\n");
  const names = heading.split(";");
  const rows = lines.map((line) => Object.fromEntries(line.split(";").map((cell, i) => [names[i] ?? "", cell])));
  const kept = rows.filter((row, index) => change(row, index) !== false);
  const all = [...new Set([...names, ...kept.flatMap((row) => Object.keys(row))])];
  day.files.set(path, `\ufeff${[all.join(";"), ...kept.map((row) => all.map((name) => row[name] ?? "").join(";"))].join("\r\n")}\r\n`);
}

/** Runs of a kind in the order of the day. */
export function runsOf(day: MiniDay, kind: string): string[] {
  return day.plan.filter((run) => run.kind === kind).map((run) => run.id);
}

/** Runs that the frame and drive loggers recorded. */
export function rollingRuns(day: MiniDay): string[] {
  return [...day.phases.keys()];
}

/** Time of the frame logger's last row. */
export function lastTimeS(day: MiniDay, run: string): number {
  let rows = 0;
  editLog(day, `logs/${run}_frame.txt`, (table) => void (rows = table.rows.length));
  return (rows - 1) / miniRates.frameHz;
}

/** A text file of the day. */
export function textOf(day: MiniDay, path: string): string {
  const content = day.files.get(path);
  if (content === undefined) throw new Error(`the day has no ${path}`);
  return typeof content === "string" ? content : Buffer.from(content).toString("utf-8");
}

export function phasesOf(day: MiniDay, run: string): RunPhases {
  const phases = day.phases.get(run);
  if (phases === undefined) throw new Error(`${run} is no rolling run of this day`);
  return phases;
}

/** Whether the wheel stands or rolls on the ground at that time. */
export function onGround(timeS: number, phases: RunPhases): boolean {
  return timeS >= (phases.touchS ?? Infinity) && timeS < (phases.liftFromS ?? -Infinity);
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, i) => sum + value * (b[i] as number), 0);
}
