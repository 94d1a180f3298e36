import type { RigChannel } from "../../campaign/rigSchema.ts";
import { UsageError } from "../../core/errors.ts";
import type { Unit } from "../../core/units.ts";
import { sensitivityCurve, strainCurve } from "./bridgeCurve.ts";

/** Reading → value, by straight line, polynomial, table, a bridge's rated output or its gauges. Beyond a table's ends the value is missing: nothing is extrapolated. */
export function calibrationCurve(calibration: NonNullable<RigChannel["calibration"]>, unit: Unit): (reading: number) => number {
  const { gain, offset, polynomial, table, sensitivity, strainGauge } = calibration;
  if (gain !== undefined) return (reading) => reading * gain + (offset ?? 0);
  if (polynomial !== undefined) return (reading) => polynomial.reduceRight((sum, coefficient) => sum * reading + coefficient, 0);
  if (table !== undefined) return (reading) => betweenPairs(table, reading);
  if (sensitivity !== undefined) return sensitivityCurve(sensitivity, unit);
  if (strainGauge !== undefined) return strainCurve(strainGauge, unit, calibration.gives);
  throw new UsageError("a calibration needs gain, polynomial, table, sensitivity or strainGauge");
}

function betweenPairs(table: readonly (readonly [number, number])[], reading: number): number {
  for (let i = 1; i < table.length; i++) {
    const [x0, y0] = table[i - 1] as readonly [number, number];
    const [x1, y1] = table[i] as readonly [number, number];
    if (reading >= x0 && reading <= x1) return y0 + ((reading - x0) / (x1 - x0)) * (y1 - y0);
  }
  return Number.NaN;
}
