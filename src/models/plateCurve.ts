import { UsageError } from "../core/errors.ts";

/** Load against deflection of a wheel on a hard plate, as measured: both rising from the first point on. */
export interface PlateCurve {
  readonly deflectionM: readonly number[];
  readonly loadN: readonly number[];
}

/**
 * Load on the hard plate at a deflection: straight lines between the points, from nothing to the first.
 *
 * @param curve         both columns rising, above zero
 * @param deflectionM   δ [m], 0 up to the last point
 * @returns             F [N]; beyond the last point the last line goes on
 * @source              linear interpolation; common practice
 * @checked             tests/models/plateCurve.test.ts
 */
export function loadAt(curve: PlateCurve, deflectionM: number): number {
  return between(curve.deflectionM, curve.loadN, deflectionM);
}

/**
 * Deflection on the hard plate at a load.
 *
 * @param curve   both columns rising, above zero
 * @param loadN   F [N], ≥ 0
 * @returns       δ [m]; null beyond the last point: the wheel was not pressed that far
 * @throws        UsageError when the columns do not rise or differ in length
 * @source        linear interpolation; common practice
 * @checked       tests/models/plateCurve.test.ts
 */
export function deflectionAt(curve: PlateCurve, loadN: number): number | null {
  requireRising(curve);
  return loadN > (curve.loadN[curve.loadN.length - 1] as number) ? null : between(curve.loadN, curve.deflectionM, loadN);
}

/**
 * A curve must rise in both columns, or no deflection belongs to a load.
 *
 * @param curve   to be looked at
 * @returns       nothing
 * @throws        UsageError when it is empty, its columns differ in length or do not rise from above zero
 * @source        a condition of the interpolation
 * @checked       tests/models/plateCurve.test.ts
 */
export function requireRising({ deflectionM, loadN }: PlateCurve): void {
  if (!(deflectionM.length > 0 && deflectionM.length === loadN.length && rises(deflectionM) && rises(loadN))) throw new UsageError("expected a load–deflection curve of values above 0, both columns rising");
}

function rises(values: readonly number[]): boolean {
  for (let i = 0; i < values.length; i++) if (!((values[i] as number) > (i === 0 ? 0 : (values[i - 1] as number)))) return false;
  return true;
}

function between(x: readonly number[], y: readonly number[], at: number): number {
  let [low, high] = [0, x.length - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((x[middle] as number) < at) low = middle + 1;
    else high = middle;
  }
  const [x0, y0] = low === 0 ? [0, 0] : [x[low - 1] as number, y[low - 1] as number];
  return y0 + (((y[low] as number) - y0) * (at - x0)) / ((x[low] as number) - x0);
}
