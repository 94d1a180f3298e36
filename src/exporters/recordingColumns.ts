import { hasChannel, sampleCount, timeAt } from "../core/recording.ts";
import type { Recording, TimeBase } from "../core/recording.ts";
import type { Unit } from "../core/units.ts";
import { version } from "../version.ts";

/** What the caller adds to a file's own account of where it comes from: run, logger, findings. */
export type About = readonly (readonly [key: string, value: string])[];

export interface ExportColumn {
  readonly name: string;
  readonly unit: Unit;
  readonly values: Float64Array;
}

/** Time first, then every channel, each as one block of numbers. NaN stands for a missing value. */
export function columnsOf(recording: Recording): ExportColumn[] {
  const count = sampleCount(recording.time);
  const columns = recording.channels.map(({ name, unit, samples }) => ({ name, unit, values: samples instanceof Float64Array ? samples : Float64Array.from(samples) }));
  return [{ name: timeName(recording), unit: "s", values: timesOf(recording.time, count) }, ...columns];
}

/** Where the numbers come from and what was done to them, as keys and values on one line each. */
export function provenanceOf(recording: Recording, about: About = []): [string, string][] {
  return [
    ["written by", `drawbar ${version}`],
    ...about,
    ["time", `column ${timeName(recording)} in s on the clock that all recordings of a run share`],
    ["started at", recording.startedAt ?? "not known"],
    ["missing values", "empty cells in CSV, NaN in Parquet and Arrow"],
    ...recording.sources.flatMap((source, index): [string, string][] => [
      [`source ${index + 1}`, source.file],
      [`source ${index + 1} SHA-256`, source.sha256],
      [`source ${index + 1} read as`, `${source.format}; ${source.bytes} bytes; ${source.rowsRead} rows read, ${source.rowsRefused} refused`],
    ]),
    ...recording.history.map((step, index): [string, string] => [`step ${index + 1}`, `${step.name} ${step.version} ${JSON.stringify(step.parameters)}`]),
    ...recording.channels.map(({ name, unit, doubt }): [string, string] => [
      `standard uncertainty of ${name}`,
      doubt === null ? "not stated" : `noise ${doubt.noise} ${unit} a sample; offset ${doubt.offset} ${unit} common to the run; gain ${doubt.relativeGain} of the reading, shared by ${doubt.calibration}`,
    ]),
  ].map(([key, value]) => [oneLine(key as string), oneLine(value as string)]);
}

/** A rig may carry a channel that is itself called time. */
function timeName(recording: Recording): string {
  return hasChannel(recording, "time") ? "runTime" : "time";
}

function timesOf(time: TimeBase, count: number): Float64Array {
  if (time.kind === "stamped" && time.timesS instanceof Float64Array) return time.timesS;
  return Float64Array.from({ length: count }, (_, index) => timeAt(time, index));
}

function oneLine(text: string): string {
  return text.replace(/[\u0000-\u001f\u007f\u2028\u2029]+/g, " ").trim();
}
