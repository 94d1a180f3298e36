import { lineFit } from "../../numerics/lineFit.ts";
import { effectiveSampleSize, lag1Autocorrelation } from "../../numerics/statistics.ts";

/** pressure below which the plate lifts off its seat, as a share of that at the turning point */
const seated = 0.2;
/** fewest samples a straight line is read from */
const fewest = 6;

/** The line along which soil answers while the pressure is taken off and put back. */
export interface ReloadLine {
  /** k_u [Pa/m] */
  readonly stiffness: number;
  /** from the scatter about the line, neighbours counted once where they move together [Pa/m] */
  readonly uncertainty: number;
  readonly degreesOfFreedom: number;
  /** z_u, sinkage of the turning point [m] */
  readonly turnedM: number;
}

/**
 * Stiffness of soil in unloading and reloading, of one unloading.
 *
 *   p = p_u − k_u (z_u − z)      k_u by least squares over both ways, where p ≥ 0.2 p_u
 *
 * A mean of the two ways, which differ by what the loop loses; below 0.2 p_u the plate leaves its seat and the line bends.
 * The pressure must have come down to half of p_u.
 *
 * @param sinkageM     z from the turning point until the sinkage is back there [m]
 * @param pressurePa   p of the same samples [Pa]
 * @returns            k_u and z_u; null with fewer than 6 such samples, where the pressure does not come down to half, or where k_u is not above zero
 * @source             J. Y. Wong, M. Garber and J. Preston-Thomas, Proc. Inst. Mech. Eng. 198, 1984, from memory; share of the pressure: common practice
 * @checked            tests/processing/measures/reloadStiffness.test.ts
 */
export function reloadStiffness(sinkageM: readonly number[], pressurePa: readonly number[]): ReloadLine | null {
  const [turnedM, turnedPa] = [sinkageM[0], pressurePa[0]];
  if (turnedM === undefined || turnedPa === undefined || !(Math.min(...pressurePa) <= turnedPa / 2)) return null;
  const on = [...sinkageM.keys()].filter((i) => (pressurePa[i] as number) >= seated * turnedPa);
  if (on.length < fewest) return null;
  const [x, y] = [on.map((i) => sinkageM[i] as number), on.map((i) => pressurePa[i] as number)];
  const line = lineFit(x, y);
  if (!(line.slope > 0)) return null;
  const residuals = y.map((value, i) => value - line.intercept - line.slope * (x[i] as number));
  const scatters = line.residualSd > 1e-12 * turnedPa;
  const effective = scatters ? Math.max(3, effectiveSampleSize(on.length, lag1Autocorrelation(residuals))) : on.length;
  return { stiffness: line.slope, uncertainty: Math.sqrt((line.covariance[1][1] * on.length) / effective), degreesOfFreedom: Math.max(1, effective - 2), turnedM };
}
