import { isQuantity, quantities } from "../../campaign/quantities.ts";
import type { Logger, Rig, RigChannel } from "../../campaign/rigSchema.ts";
import { InputError } from "../../core/errors.ts";
import type { Issue } from "../../core/errors.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import type { Channel, Doubt, Recording, Samples } from "../../core/recording.ts";
import { conversion, convert, parseUnit, unitKind } from "../../core/units.ts";
import type { Unit } from "../../core/units.ts";
import type { RawColumn, RawTable } from "../../importers/contract.ts";
import { angleJumps } from "./angleJumps.ts";
import { calibrationCurve } from "./calibrationCurve.ts";
import { risingTime } from "./risingTime.ts";
import { encoderAngle } from "./encoderAngle.ts";

/** A calibrated recording and what was noticed on the way. */
export interface Calibrated {
  readonly recording: Recording;
  readonly findings: readonly Finding[];
}

/**
 * Counts and volts to physical units in SI: calibration curve, unit, sign; the calibration's doubt attached.
 *
 * @throws InputError when the clock does not run forwards, a column is missing, or the file names another unit than the rig description
 */
export function calibrate(table: RawTable, logger: Logger, rig: Rig): Calibrated {
  const issues: Issue[] = [];
  const findings: Finding[] = [...table.findings];
  const time = risingTime(table.timesS, table.source.file);
  issues.push(...time.issues);
  const channels: Channel[] = [];
  for (const [name, description] of Object.entries(logger.channels)) {
    const column = table.columns.find((candidate) => candidate.name === description.column);
    if (column === undefined) {
      issues.push({ code: "column-missing", at: `${table.source.file}, column "${description.column}"`, message: `expected this column for the channel ${name}, found ${table.columns.map((c) => c.name).join(", ") || "none"}`, hint: `Correct loggers.*.channels.${name}.column in rig.yaml, or look whether this is the right file` });
      continue;
    }
    const other = otherUnit(column, description, table.source.file);
    if (other !== null) issues.push(other);
    findings.push(...unitInName(name, column, description));
    const made = calibrateChannel(name, column, description, rig);
    channels.push(made.channel);
    findings.push(...made.findings);
  }
  if (issues.length > 0) throw new InputError(issues);
  const recording: Recording = {
    time: time.time,
    startedAt: table.startedAt,
    channels,
    sources: [table.source],
    history: [{ name: "calibrate", version: "1", parameters: Object.fromEntries(channels.map((c) => [c.name, c.doubt?.calibration ?? "none stated"])) }],
  };
  return { recording, findings };
}

function otherUnit(column: RawColumn, description: RigChannel, file: string): Issue | null {
  if (column.unit === null) return null;
  const written = parseUnit(column.unit);
  if (written === undefined || written === description.unit) return null;
  return { code: "unit-differs", at: `${file}, column "${column.name}"`, message: `expected the unit "${description.unit}" that rig.yaml states, found "${column.unit}" in the file`, hint: "Correct the unit in rig.yaml, or find out whether the logger's set-up was changed" };
}

/** `Fx_kN` may say its unit at its end, or may not: what differs from rig.yaml within one kind of quantity is told, no more. */
function unitInName(name: string, column: RawColumn, description: RigChannel): Finding[] {
  const ending = /[^_]_([^_]+)$/.exec(column.name)?.[1];
  const said = ending === undefined || column.unit !== null ? undefined : parseUnit(ending);
  if (said === undefined || said === description.unit || unitKind(said) !== unitKind(description.unit)) return [];
  return [finding("unit-in-name", "look", `The column "${column.name}" ends in a unit, ${ending}, where rig.yaml states ${description.unit}. If the logger writes ${ending}, correct the unit in rig.yaml`, { channel: name })];
}

function calibrateChannel(name: string, column: RawColumn, description: RigChannel, rig: Rig): { channel: Channel; findings: Finding[] } {
  const sign = description.sign ?? 1;
  if (name === "wheelAngle" && description.unit === "count" && rig.encoder !== undefined) {
    const angle = encoderAngle(column.samples, rig.encoder, sign);
    const step = (2 * Math.PI) / (rig.encoder.countsPerRevolution * rig.encoder.gear);
    const doubt: Doubt = { noise: step / Math.sqrt(12), offset: 0, relativeGain: 0, calibration: "encoder counts" };
    return { channel: { name, unit: "rad", samples: angle.samples, doubt }, findings: [...angle.findings, ...angleJumps(angle.samples, step)] };
  }
  const curve = description.calibration === undefined ? null : calibrationCurve(description.calibration, description.unit);
  const { target, factor, summand } = scaleOf(name, description, rig);
  const samples = new Float64Array(column.samples.length);
  for (let i = 0; i < samples.length; i++) {
    const raw = column.samples[i] as number;
    samples[i] = sign * ((curve === null ? raw : curve(raw)) * factor + summand);
  }
  const doubt: Doubt | null = description.uncertainty === undefined ? null : { noise: 0, offset: description.uncertainty.offset * factor, relativeGain: description.uncertainty.relative, calibration: description.calibration?.certificate ?? `statement for ${name}` };
  return { channel: { name, unit: target, samples, doubt }, findings: [...rangeFindings(name, samples, column, description, { factor, summand, sign }, rig), ...(name === "wheelAngle" ? angleJumps(samples, null) : [])] };
}

/** What takes a channel's calibrated numbers to the SI unit it is kept in. */
export function scaleOf(name: string, description: RigChannel, rig: Rig): { readonly target: Unit; readonly factor: number; readonly summand: number } {
  const gives = description.calibration?.gives ?? description.unit;
  const target: Unit = isQuantity(name) ? quantities[name].unit : gives;
  if (description.massAsForce !== undefined) return { target, factor: weight(gives, description.massAsForce, rig.gravity), summand: 0 };
  return { target, ...conversion(gives, target) };
}

/** Newton per unit of mass that a scale shows. */
function weight(mass: Unit, means: NonNullable<RigChannel["massAsForce"]>, gravity: number): number {
  return convert(1, mass, "kg") * (means === "standardGravity" ? convert(1, "gn", "m/s2") : gravity);
}

/** Samples at the ends of the sensor's range, and overload marks: said here, judged against the window later. */
function rangeFindings(name: string, samples: Samples, column: RawColumn, description: RigChannel, { factor, summand, sign }: { factor: number; summand: number; sign: number }, rig: Rig): Finding[] {
  const findings: Finding[] = [];
  if (column.overloaded.length > 0) {
    findings.push({ code: "overload-marks", severity: "look", channel: name, fromS: null, toS: null, message: `The logger marked ${column.overloaded.length} samples of ${name} as overloaded; they count as missing`, measured: column.overloaded.length, limit: 0 });
  }
  if (description.range !== undefined) {
    const ends = description.range.map((end) => sign * (end * factor + summand));
    const low = Math.min(...ends);
    const high = Math.max(...ends);
    const clipped = countAtEnds(samples, low, high);
    const share = clipped / samples.length;
    const limits = rig.tolerances.clippedShare;
    if (share > limits.look) {
      const severity = share > limits.reject ? "reject" : "look";
      findings.push({ code: "clipped", severity, channel: name, fromS: null, toS: null, message: `${clipped} samples of ${name} stand at the end of the sensor's range; the true value was beyond. Lower the gain or take a larger sensor, and repeat`, measured: share, limit: limits[severity] });
    }
  }
  return findings;
}

/** How many samples stand at or beyond either end. */
export function countAtEnds(samples: Samples, low: number, high: number): number {
  let count = 0;
  for (let i = 0; i < samples.length; i++) {
    const value = samples[i] as number;
    if (value <= low || value >= high) count++;
  }
  return count;
}
