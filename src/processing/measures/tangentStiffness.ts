import { polynomialFit } from "../../numerics/lineFit.ts";
import { mean } from "../../numerics/statistics.ts";
import type { LoadCycle } from "./loadCycles.ts";
import type { PressCurve } from "./pressCurve.ts";

/** the stretch of load around the load asked for, as a share of it to either side */
const half = 0.8;
const fewest = 8;
/** points that the samples are averaged to */
const points = 24;

/** The slope, and what the noise of the samples leaves open. */
export interface Tangent {
  /** k_tan [N/m]; NaN where the data do not give it */
  readonly stiffness: number;
  /** from the scatter about the polynomial [N/m] */
  readonly standardError: number;
  readonly degreesOfFreedom: number;
}

const none: Tangent = { stiffness: Number.NaN, standardError: Number.NaN, degreesOfFreedom: 0 };

/**
 * Tangent stiffness on the loading branch of one cycle: the slope at the load of a cubic of force over displacement
 * through the samples between 0.2 and 1.8 times that load.
 *
 *   F = c₀ + c₁δ + c₂δ² + c₃δ³      k_tan = dF/dδ at F     [N/m]
 *
 * A cubic, because the greatest load lies at the end of its stretch, where a parabola over a spring that hardens with δ³
 * reads one part in a hundred too low. Neighbouring samples are averaged first, to 24 points: noise of the displacement
 * would flatten the slope of a stiff wheel. A kink inside the stretch is smeared.
 *
 * @param curve   force and displacement from contact on
 * @param cycle   which cycle
 * @param loadN   the load it is read at [N]
 * @returns       k_tan and its standard error; NaN when the load was not reached (2 % allowed), fewer than 8 samples lie in the stretch, or the force does not rise there
 * @source        common practice
 * @checked       tests/processing/measures/tangentStiffness.test.ts
 */
export function tangentStiffness(curve: PressCurve, cycle: LoadCycle, loadN: number): Tangent {
  if (!(loadN > 0) || loadN > 1.02 * (curve.force[cycle.peak] as number)) return none;
  const forces: number[] = [];
  const displacements: number[] = [];
  for (let i = cycle.valley; i <= cycle.peak; i++) {
    const force = curve.force[i] as number;
    if (Math.abs(force - loadN) > half * loadN) continue;
    forces.push(force);
    displacements.push(curve.displacement[i] as number);
  }
  if (forces.length < fewest) return none;
  const y = neighbourMeans(forces);
  const raw = neighbourMeans(displacements);
  const first = raw[0] as number;
  const span = (raw[raw.length - 1] as number) - first;
  if (!(span > 0)) return none;
  const { coefficients, covariance, degreesOfFreedom } = polynomialFit(raw.map((value) => (value - first) / span), y, 3);
  const [c0, c1, c2, c3] = coefficients as [number, number, number, number];
  const slopeAt = (x: number): number => c1 + 2 * c2 * x + 3 * c3 * x ** 2;
  let x = (loadN - (y[0] as number)) / ((y[y.length - 1] as number) - (y[0] as number));
  for (let step = 0; step < 30; step++) x -= (c0 + c1 * x + c2 * x ** 2 + c3 * x ** 3 - loadN) / slopeAt(x);
  const stiffness = slopeAt(x) / span;
  if (!(stiffness > 0 && x > -0.2 && x < 1.2)) return none;
  const g = [0, 1, 2 * x, 3 * x ** 2];
  const variance = g.reduce((sum, a, i) => sum + g.reduce((inner, b, j) => inner + a * b * ((covariance[i] as readonly number[])[j] as number), 0), 0);
  return { stiffness, standardError: Math.sqrt(Math.max(0, variance)) / span, degreesOfFreedom };
}

/** Means of neighbouring values, all groups alike in size but for one value. */
function neighbourMeans(values: readonly number[]): number[] {
  const groups = Math.min(points, values.length);
  const edge = (group: number): number => Math.round((group * values.length) / groups);
  return Array.from({ length: groups }, (_, group) => mean(values.slice(edge(group), edge(group + 1))));
}
