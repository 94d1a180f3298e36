import type { RigChannel } from "../../campaign/rigSchema.ts";
import { UsageError } from "../../core/errors.ts";

/** Reading → value, by straight line, polynomial or table. Beyond a table's ends the value is missing: nothing is extrapolated. */
export function calibrationCurve(calibration: NonNullable<RigChannel["calibration"]>): (reading: number) => number {
  const { gain, offset, polynomial, table } = calibration;
  if (gain !== undefined) return (reading) => reading * gain + (offset ?? 0);
  if (polynomial !== undefined) return (reading) => polynomial.reduceRight((sum, coefficient) => sum * reading + coefficient, 0);
  if (table !== undefined) return (reading) => betweenPairs(table, reading);
  throw new UsageError("a calibration needs gain, polynomial or table");
}

function betweenPairs(table: readonly (readonly [number, number])[], reading: number): number {
  for (let i = 1; i < table.length; i++) {
    const [x0, y0] = table[i - 1] as readonly [number, number];
    const [x1, y1] = table[i] as readonly [number, number];
    if (reading >= x0 && reading <= x1) return y0 + ((reading - x0) / (x1 - x0)) * (y1 - y0);
  }
  return Number.NaN;
}
