import { estimateFrom, undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import type { Measure } from "../core/measure.ts";
import type { PressCurve, PressReading } from "./measures/pressCurve.ts";
import { recomputedRows } from "./measures/recomputedRows.ts";
import { reloadStiffness } from "./measures/reloadStiffness.ts";
import type { ReloadLine } from "./measures/reloadStiffness.ts";

/** The stiffness of unloading and reloading at the deepest unloading of a plate run; nothing where it was not unloaded. */
export function plateReload(reading: PressReading, areaM2: number, unloadings: readonly (readonly [from: number, to: number])[]): readonly Measure[] {
  const deepest = unloadings.at(-1);
  if (deepest === undefined) return [];
  const lineOf = (data: PressCurve): ReloadLine | null => reloadStiffness(data.displacement.slice(...deepest), data.force.slice(...deepest).map((force) => force / areaM2));
  return [{ name: "reloadStiffness", label: "Stiffness in unloading and reloading", estimate: estimateOf(lineOf(reading.curve), reading, lineOf), segment: null }];
}

function estimateOf(line: ReloadLine | null, reading: PressReading, lineOf: (data: PressCurve) => ReloadLine | null): Estimate {
  if (line === null) return undetermined("Pa/m", "the pressure was not taken down to half, or by too few samples; unload further and slower");
  const method = `straight line through the unloading and reloading that began at ${(1000 * line.turnedM).toFixed(1)} mm, down to a fifth of the pressure there; it grows with that sinkage`;
  // the zero of the sinkage does not stand in a slope, so a log that begins in contact has one with its uncertainty
  const rows = recomputedRows(reading.curve, reading.causes, (data) => [lineOf(data)?.stiffness ?? Number.NaN])[0] ?? [];
  const all = [{ cause: "scatter about the line of unloading and reloading", effect: line.uncertainty, sharedBy: null, degreesOfFreedom: line.degreesOfFreedom }, ...rows];
  if (all.some((row) => !Number.isFinite(row.effect))) return undetermined("Pa/m", `${method}; no uncertainty, because the line is another one when a cause of uncertainty moves`, line.stiffness);
  return estimateFrom(line.stiffness, "Pa/m", method, all);
}
