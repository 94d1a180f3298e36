import { formFit } from "./formFit.ts";
import type { FormFit, FormPoint } from "./formFit.ts";

/**
 * The pressure of `saturatingCurve` at a sinkage.
 *
 *   p = p_s (1 − e^(−z/z_s)) + m z
 *
 * @param sinkageM    z [m]
 * @param constants   p_s [Pa], z_s [m], m [Pa/m]
 * @returns           p [Pa]
 * @source            sum of the saturating form of brittle ground and a linear term; common practice
 * @checked           tests/processing/measures/saturatingCurve.test.ts
 */
export function pressureWithKnee(sinkageM: number, [plateauPa = 0, buildUpM = 0, rise = 0]: readonly number[]): number {
  return plateauPa * (1 - Math.exp(-sinkageM / buildUpM)) + rise * sinkageM;
}

/**
 * A plateau that builds up, and a straight rise, through the points of one plate run.
 *
 *   p = p_s (1 − e^(−z/z_s)) + m z      least squares in the pressure
 *
 * For beds with a knee, dense or crusted, which a power law does not describe. Where the plateau is built up before the
 * first point, z_s rests at its bound, a tenth of that sinkage, and is not told by the points.
 *
 * @param points   sinkage [m] rising, pressure [Pa]
 * @returns        p_s [Pa], z_s [m], m [Pa/m]; null with fewer than 5 points, without a plateau, or where it is still building up at the end
 * @source         form as `pressureWithKnee`; least squares, common practice
 * @checked        tests/processing/measures/saturatingCurve.test.ts
 */
export function saturatingCurve(points: readonly FormPoint[]): FormFit | null {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined || !(last.x > first.x && last.y > 0)) return null;
  const found = formFit(points, pressureWithKnee, [
    { start: last.y / 2, lower: 0, upper: 10 * last.y },
    { start: last.x / 10, lower: first.x / 10, upper: last.x },
    { start: last.y / last.x / 2, lower: 0, upper: (10 * last.y) / last.x },
  ]);
  const [, buildUpM = Number.NaN] = found?.values ?? [];
  return found === null || points.length < 5 || found.atBound[0] === true || buildUpM === last.x ? null : found;
}

/**
 * How far curves miss stretches of the sinkage that they were not fitted to.
 *
 *   √(Σ (p − p̂)²/n) / p̄      the points in five stretches; each of the inner three left out in turn
 *
 * The outer stretches stay: beyond the data either form would be an extrapolation.
 *
 * @param points   sinkage [m] rising, pressure [Pa]
 * @param fit      gives the curve through the points that are left; null where there is none
 * @returns        [1], as a share of the mean pressure of the points left out; NaN where a fit fails
 * @source         cross-validation, common practice
 * @checked        tests/processing/measures/saturatingCurve.test.ts
 */
export function missedStretches(points: readonly FormPoint[], fit: (left: readonly FormPoint[]) => ((x: number) => number) | null): number {
  let [squares, sum, count] = [0, 0, 0];
  for (const stretch of [1, 2, 3]) {
    const [from, to] = [Math.round((stretch * points.length) / 5), Math.round(((stretch + 1) * points.length) / 5)];
    const curve = fit([...points.slice(0, from), ...points.slice(to)]);
    if (curve === null) return Number.NaN;
    for (const { x, y } of points.slice(from, to)) {
      squares += (y - curve(x)) ** 2;
      sum += y;
      count++;
    }
  }
  return Math.sqrt(squares / count) / (sum / count);
}
