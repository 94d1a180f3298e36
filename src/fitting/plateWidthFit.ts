import type { Fit, FitPoint } from "../core/fit.ts";
import { undetermined } from "../core/estimate.ts";
import type { Band } from "../processing/dayResult.ts";
import { powerLawGoodness } from "../processing/measures/sinkagePowerLaw.ts";
import { referenceSinkageM } from "../processing/plateRun.ts";
import { pointwiseBand } from "./band.ts";
import { functionOfFit, parameterEstimates } from "./parameterEstimates.ts";
import type { ParameterName } from "./parameterEstimates.ts";
import { sharedShifts } from "./plateTests.ts";
import type { PlateGroup } from "./plateTests.ts";
import type { PlateScatter } from "./plateScatter.ts";

const names: readonly ParameterName[] = [
  { name: "sinkageExponent", symbol: "n", unit: "1" },
  { name: "plateStiffness", symbol: "k", unit: "N/m^(n+2)" },
  { name: "pressureAt10mm", symbol: "p₁₀", unit: "Pa" },
];
const bandPoints = 61;

/**
 * Power law of one plate width over all its repeats.
 *
 *   p = k zⁿ     n and p at 10 mm are the pair the data determine well; k and n lean on each other
 *
 * Uncertainty from the scatter of whole runs or beds (`plateScatter`), and what runs share on top.
 *
 * @param groups    all plate groups of the day
 * @param index     which of them
 * @param scatter   from `plateScatter` over the same groups
 * @returns         the Fit: n, k, p at 10 mm; without repeats anywhere its values stand without uncertainty and it is undetermined
 * @source          J. Y. Wong, J. Terramechanics 17(1), 1980, 5–21; from memory
 * @checked         tests/fitting/pressureSinkageFit.test.ts
 */
export function plateWidthFit(groups: readonly PlateGroup[], index: number, scatter: PlateScatter): Fit {
  const group = groups[index] as PlateGroup;
  const { exponent: n, points, tests, centre } = group;
  const k = Math.exp(group.logStiffness);
  const p10 = k * referenceSinkageM ** n;
  const deepestM = Math.max(...points.map((point) => point.sinkageM));
  const method = `weighted least squares (p²) over ${tests.length} ${tests.length === 1 ? "run" : "runs"} of the ${(1000 * group.widthM).toFixed(1)} mm plate`;
  const shape = {
    model: "pressure over sinkage, one plate width",
    formula: "p = k zⁿ; k = k_c/b + k_φ in N/m^(n+2), z in m, p in Pa",
    points: tests.flatMap((test) => test.points.map((point): FitPoint => ({ run: test.run, x: point.sinkageM, y: point.pressurePa, yUncertainty: null, kept: true, reason: "" }))),
    residuals: points.map((point) => point.pressurePa - k * point.sinkageM ** n),
    degreesOfFreedom: scatter.degreesOfFreedom,
    findings: [],
  };
  const notReached = `the plate went down ${(1000 * deepestM).toFixed(1)} mm only`;
  if (scatter.covariance === null) {
    const reason = "the plates are not repeated, so how far they scatter is not known";
    const values = [n, k, deepestM >= referenceSinkageM ? p10 : Number.NaN];
    return { ...shape, parameters: names.map(({ name, symbol, unit }, i) => ({ name, symbol, estimate: undetermined(unit, `${method}; no uncertainty, because ${reason}`, values[i] as number) })), covariance: [], verdict: "undetermined", sentence: `Values without uncertainty: ${reason}. Repeat each plate, in a bed prepared again.` };
  }
  const reach = Math.log(referenceSinkageM);
  // slopes of n, k and p₁₀ by (n, q): ln k = q − n ℓ
  const slopes = [[1, 0], [-k * centre, k], [p10 * (reach - centre), p10]] as const;
  const own = scatter.covariance.slice(2 * index, 2 * index + 2).map((row) => row.slice(2 * index, 2 * index + 2));
  const carry = (matrix: readonly (readonly number[])[]): number[][] => slopes.map((a) => slopes.map((b) => a.reduce((sum, x, i) => sum + b.reduce((inner, y, j) => inner + x * y * ((matrix[i] as readonly number[])[j] as number), 0), 0)));
  const shifts = sharedShifts([group]).map((shift) => ({ ...shift, shifts: slopes.map(([a, b]) => a * (shift.shifts[0] as number) + b * (shift.shifts[1] as number)) }));
  const estimates = parameterEstimates([n, k, p10], names, carry(own), scatter.degreesOfFreedom, scatter.cause, shifts, method);
  const parameters = deepestM >= referenceSinkageM ? estimates.parameters : estimates.parameters.map((one, i) => (i < 2 ? one : { ...one, estimate: undetermined("Pa", `${notReached}; the pressure at 10 mm is not measured`) }));
  return { ...shape, parameters, covariance: estimates.covariance, verdict: "determined", sentence: `${tests.length} ${tests.length === 1 ? "run" : "runs"} down to ${(1000 * deepestM).toFixed(1)} mm; goodness ε = ${powerLawGoodness(points, n, k).toFixed(3)}.` };
}

/**
 * Curve of one plate width with its pointwise 95 % band, over the sinkages measured.
 *
 *   value ± k u     band for the mean curve, not for a single run
 *
 * @param fit   from `plateWidthFit`
 * @returns     61 sinkages [m] with pressure [Pa]; null when the fit is undetermined
 * @source      JCGM 100:2008, G.3
 * @checked     tests/fitting/pressureSinkageFit.test.ts
 */
export function plateBand(fit: Fit): Band | null {
  if (fit.verdict !== "determined") return null;
  const [n, k] = fit.parameters.map((parameter) => parameter.estimate.value) as [number, number];
  const sinkages = fit.points.map((point) => point.x);
  const from = Math.min(...sinkages);
  const to = Math.max(...sinkages);
  const x = Array.from({ length: bandPoints }, (_, i) => from + ((to - from) * i) / (bandPoints - 1));
  const estimates = x.map((z) => functionOfFit(fit, k * z ** n, [k * z ** n * Math.log(z), z ** n, 0], "Pa", "power law"));
  return pointwiseBand(x, estimates);
}
