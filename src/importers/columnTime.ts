import { InputError } from "../core/errors.ts";
import { isZone, parseIso, toIso } from "../core/instants.ts";
import type { ChosenColumn } from "./chooseColumns.ts";
import type { CellIssues } from "./columnCells.ts";
import type { ColumnValues } from "./columnLog.ts";
import type { ClockFormat } from "./contract.ts";
import { clockProblem, stampReader } from "./stamps.ts";
import { stampTimes } from "./times.ts";
import { shown } from "./shown.ts";

/** Times of the rows, and the moment of the first where the file gives one. */
export interface ColumnTime {
  readonly timesS: Float64Array;
  readonly startedAt: string | null;
}

type Clock<K extends ClockFormat["kind"]> = Extract<ClockFormat, { kind: K }>;
type Stamps = Extract<ColumnValues, { kind: "stamps" }>;

const nsPerMs = 1_000_000n;
const year2000Ns = 946_684_800_000_000_000n;

/** Stamps written as text. */
export function textTime(clock: Clock<"wall" | "iso">, chosen: ChosenColumn, values: ColumnValues, fileName: string, issues: CellIssues): ColumnTime {
  const at = `${fileName}, column "${chosen.name}"`;
  if (values.kind !== "cells") throw new InputError([{ code: "stored-stamp", at, message: `expected stamps written as text, since the clock is of kind: ${clock.kind}, found a ${chosen.column.type}`, hint: `Declare clock: with kind ${values.kind === "stamps" ? "stamp" : "elapsed"} in rig.yaml` }]);
  if (clock.zone !== undefined && !isZone(clock.zone)) throw new InputError([unknownZone(at, clock.zone)]);
  const texts = values.cells.map((cell) => (cell === null ? "" : String(cell).replaceAll("\n", " ")));
  const problem = texts[0] === undefined || texts[0] === "" ? null : clockProblem(clock, texts[0]);
  if (problem !== null) throw new InputError([{ code: "incomplete-clock", at, message: `expected ${problem}`, hint: "Correct clock: in rig.yaml" }]);
  // The stamp reader works on bytes, as logs of text have them.
  const bytes = new TextEncoder().encode(texts.join("\n"));
  const decoder = new TextDecoder();
  const reader = stampReader(clock, bytes, (from, to) => decoder.decode(bytes.subarray(from, to)));
  const stamps = new Float64Array(texts.length);
  let from = 0;
  for (let row = 0; row < texts.length; row++) {
    let to = bytes.indexOf(10, from);
    if (to < 0) to = bytes.length;
    stamps[row] = reader.read(from, to);
    if (Number.isNaN(stamps[row])) issues.add({ code: "unreadable-time", at: `${fileName} ${chosen.part.rowName(row)}, column "${chosen.name}"`, message: `${shown(texts[row] as string)} ${reader.problem()}`, hint: "Correct clock: in rig.yaml, or repair the log" });
    from = to + 1;
  }
  return { timesS: stampTimes(stamps), startedAt: reader.startedAt() };
}

/** Time stamps that the file stores as such. */
export function storedTime(clock: Clock<"stamp">, chosen: ChosenColumn, values: ColumnValues, fileName: string, issues: CellIssues): ColumnTime {
  const at = `${fileName}, column "${chosen.name}"`;
  if (values.kind !== "stamps") throw new InputError([{ code: "no-stored-stamp", at, message: `expected stored time stamps, since the clock is of kind: stamp, found ${chosen.column.type}`, hint: `Declare clock: with kind ${values.kind === "cells" ? "iso or wall" : "elapsed"} in rig.yaml` }]);
  if (clock.zone !== undefined && !isZone(clock.zone)) throw new InputError([unknownZone(at, clock.zone)]);
  if (!values.zoned && clock.zone === undefined) throw new InputError([{ code: "incomplete-clock", at, message: "expected time stamps in UTC, or a zone: in the clock, found time stamps without a zone", hint: "Declare zone: in the clock in rig.yaml: the zone the logger's clock was set to" }]);
  const timesS = sinceFirst(values, chosen, fileName, issues);
  const first = values.ns[0];
  const last = values.ns.at(-1);
  if (first == null || last == null) return { timesS, startedAt: null };
  if (values.zoned) return { timesS, startedAt: toIso(Number(first / nsPerMs), clock.zone ?? "UTC") };
  const zone = clock.zone as string;
  const start = moment(first, zone);
  const end = moment(last, zone);
  for (const one of [start, end]) if ("problem" in one) issues.add({ code: "unreadable-time", at, message: `the time stamp ${one.problem}`, hint: "Set the logger to UTC, or correct zone: in rig.yaml" });
  if (!("problem" in start) && !("problem" in end) && BigInt(end.ms - start.ms) !== last / nsPerMs - first / nsPerMs) issues.add({ code: "clocks-changed", at, message: `expected a log within one offset of ${zone}, found one over which the clocks were changed`, hint: "Set the logger to UTC and repeat, or cut the log at the change" });
  return { timesS, startedAt: "problem" in start ? null : toIso(start.ms, zone) };
}

/** The stamps that recorded messages carry. */
export function messageTime(clock: Clock<"message">, chosen: ChosenColumn, values: Stamps, fileName: string, issues: CellIssues): ColumnTime {
  const at = `${fileName}, ${chosen.name} of ${shown(chosen.part.name)}`;
  const [first] = values.ns;
  if (values.ns.length > 1 && values.ns.every((ns) => ns === first)) throw new InputError([{ code: "idle-stamp", at, message: `expected stamps that go forward, found ${first === 0n ? "all of them zero" : "the same in every message"}: nobody filled them in`, hint: "Choose another stamp: in clock: in rig.yaml" }]);
  const timesS = sinceFirst(values, chosen, fileName, issues);
  if (clock.epoch === "boot" || first == null) return { timesS, startedAt: null };
  if (first < year2000Ns) throw new InputError([{ code: "not-unix-time", at, message: `expected a clock that counts from 1970 (epoch: unix), found ${Number(first) / 1e9} s in the first message`, hint: "Declare epoch: boot in clock: in rig.yaml, if the clock counts from a computer's start" }]);
  return { timesS, startedAt: toIso(Number(first / nsPerMs), "UTC") };
}

function sinceFirst(values: Stamps, chosen: ChosenColumn, fileName: string, issues: CellIssues): Float64Array {
  const first = values.ns[0] ?? 0n;
  return Float64Array.from(values.ns, (ns, row) => {
    if (ns !== null) return Number(ns - first) / 1e9;
    issues.add({ code: "unreadable-time", at: `${fileName} ${chosen.part.rowName(row)}, column "${chosen.name}"`, message: "expected a time stamp, found none", hint: "Correct clock: in rig.yaml, or repair the log" });
    return Number.NaN;
  });
}

function moment(localNs: bigint, zone: string): ReturnType<typeof parseIso> {
  const date = new Date(Number(localNs / nsPerMs));
  return Number.isNaN(date.getTime()) ? { problem: "is outside the calendar" } : parseIso(date.toISOString().replace("Z", ""), zone);
}

function unknownZone(at: string, zone: string): { code: string; at: string; message: string; hint: string } {
  return { code: "unknown-zone", at, message: `expected a time zone, found "${zone}"`, hint: "Set zone: in rig.yaml to an IANA name like Europe/Oslo, to UTC, or to an offset like UTC+2" };
}
