import type { BudgetRow } from "../../core/estimate.ts";
import type { Finding } from "../../core/finding.ts";
import type { Fit, FitPoint } from "../../core/fit.ts";
import { estimateFrom } from "../../core/estimate.ts";
import { leastSquares } from "../../numerics/linearAlgebra.ts";
import { mean, standardDeviation } from "../../numerics/statistics.ts";
import { displacementAtLoad } from "./displacementAtLoad.ts";
import type { LoadCycle } from "./loadCycles.ts";
import type { PressCurve } from "./pressCurve.ts";
import { recomputedRows } from "./recomputedRows.ts";
import type { RecomputedCause } from "./recomputedRows.ts";

/** loads at which the loading branch is read */
const steps = 25;

/**
 * Deflection over load on the loading branch, mean of the cycles, with a two-constant curve through contact.
 *
 *   δ = (F / k₀) · (1 − h F / F_max)     k₀ [N/m] stiffness at contact, h [1] share by which the compliance falls up to F_max
 *
 * The points (25 loads up to the least peak of the cycles; x = load [N], y = deflection [m] with its standard
 * uncertainty) are what the deflection of other runs is read from; the curve only describes them.
 *
 * @param run        id of the run
 * @param curve      force and displacement from contact on
 * @param cycles     the cycles used, at least one
 * @param causes     causes of uncertainty of the press
 * @param findings   what the fit should carry along
 * @returns          the Fit; undetermined when fewer than 3 loads could be read
 * @source           own parabola of the compliance; common practice
 * @checked          tests/processing/loadDeflectionRun.test.ts
 */
export function complianceFit(run: string, curve: PressCurve, cycles: readonly LoadCycle[], causes: readonly RecomputedCause<PressCurve>[], findings: readonly Finding[]): Fit {
  const greatestN = Math.min(...cycles.map((cycle) => curve.force[cycle.peak] as number));
  const loads = Array.from({ length: steps }, (_, index) => (greatestN * (index + 1)) / steps);
  const each = loads.map((load) => cycles.map((cycle) => displacementAtLoad(curve, cycle, load)));
  const rows = recomputedRows(curve, causes, (data) => loads.map((load) => mean(cycles.map((cycle) => displacementAtLoad(data, cycle, load)))));
  const points: FitPoint[] = [];
  loads.forEach((load, index) => {
    const values = each[index] as number[];
    const deflection = mean(values);
    if (!Number.isFinite(deflection)) return;
    const scatter = values.length > 1 ? standardDeviation(values) / Math.sqrt(values.length) : 0;
    const moved = (rows[index] as BudgetRow[]).reduce((sum, row) => sum + row.effect ** 2, scatter ** 2);
    points.push({ run, x: load, y: deflection, yUncertainty: Number.isFinite(moved) ? Math.sqrt(moved) : null, kept: true, reason: "" });
  });
  const shape = { model: "deflection over load, loading branch", formula: "δ = (F / k0) · (1 − h · F / F_max), F_max = " + greatestN.toPrecision(4) + " N; k0 in N/m, h without unit", points, findings };
  const solve = (data: PressCurve): number[] => {
    const read = points.map((point) => ({ x: point.x, y: mean(cycles.map((cycle) => displacementAtLoad(data, cycle, point.x))) })).filter((point) => Number.isFinite(point.y));
    const [a, b] = leastSquares(read.map((point) => [point.x, point.x ** 2]), read.map((point) => point.y)).solution as [number, number];
    return [1 / a, (-b / a) * greatestN];
  };
  if (points.length < 3) {
    return { ...shape, parameters: [], covariance: [], residuals: [], degreesOfFreedom: 0, verdict: "undetermined", sentence: `Only ${points.length} loads could be read from the loading branch; 3 are needed.` };
  }
  const [k0, h] = solve(curve) as [number, number];
  const [rowsOfK, rowsOfH] = recomputedRows(curve, causes, solve) as [BudgetRow[], BudgetRow[]];
  const residuals = points.map((point) => point.y - (point.x / k0) * (1 - (h * point.x) / greatestN));
  const covariance = [rowsOfK, rowsOfH].map((one) => [rowsOfK, rowsOfH].map((other) => one.reduce((sum, row, index) => sum + row.effect * (other[index] as BudgetRow).effect, 0)));
  return {
    ...shape,
    parameters: [
      { name: "contactStiffness", symbol: "k0", estimate: estimateFrom(k0, "N/m", "parabola of deflection over load", rowsOfK) },
      { name: "hardening", symbol: "h", estimate: estimateFrom(h, "1", "parabola of deflection over load", rowsOfH) },
    ],
    covariance,
    residuals,
    degreesOfFreedom: points.length - 2,
    verdict: "determined",
    sentence: `${points.length} loads up to ${greatestN.toPrecision(4)} N, mean of ${cycles.length} ${cycles.length === 1 ? "cycle" : "cycles"}; its uncertainty is that of contact and calibration, not of the shape.`,
  };
}
