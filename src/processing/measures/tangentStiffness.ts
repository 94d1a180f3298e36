import { polynomialFit } from "../../numerics/lineFit.ts";
import type { LoadCycle } from "./loadCycles.ts";
import type { PressCurve } from "./pressCurve.ts";

/** the stretch of load around the load asked for, as a share of it to either side */
const half = 0.4;
const fewest = 8;

/**
 * Tangent stiffness on the loading branch of one cycle: the slope at the load of a parabola of force over
 * displacement through the samples between 0.6 and 1.4 times that load.
 *
 *   k_tan = dF/dδ at F     [N/m]
 *
 * The parabola follows a stiffness that changes steadily over that stretch; a kink inside it is smeared.
 *
 * @param curve   force and displacement from contact on
 * @param cycle   which cycle
 * @param loadN   the load it is read at [N]
 * @returns       k_tan; NaN when the load was not reached (2 % allowed) or fewer than 8 samples lie in the stretch
 * @source        common practice
 * @checked       tests/processing/measures/tangentStiffness.test.ts
 */
export function tangentStiffness(curve: PressCurve, cycle: LoadCycle, loadN: number): number {
  if (!(loadN > 0) || loadN > 1.02 * (curve.force[cycle.peak] as number)) return Number.NaN;
  const forces: number[] = [];
  const displacements: number[] = [];
  for (let i = cycle.valley; i <= cycle.peak; i++) {
    const force = curve.force[i] as number;
    if (Math.abs(force - loadN) > half * loadN) continue;
    forces.push(force);
    displacements.push(curve.displacement[i] as number);
  }
  if (forces.length < fewest) return Number.NaN;
  const first = displacements[0] as number;
  const span = (displacements[displacements.length - 1] as number) - first;
  if (!(span > 0)) return Number.NaN;
  const { coefficients } = polynomialFit(displacements.map((value) => (value - first) / span), forces, 2);
  const [c0, c1, c2] = coefficients as [number, number, number];
  // slope where the parabola passes the load: dF/dx = √(c1² − 4 c2 (c0 − F)), no root search needed
  const square = c1 ** 2 - 4 * c2 * (c0 - loadN);
  return square > 0 ? Math.sqrt(square) / span : Number.NaN;
}
