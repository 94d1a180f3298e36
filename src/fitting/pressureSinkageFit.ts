import type { Finding } from "../core/finding.ts";
import type { Fit, FitPoint } from "../core/fit.ts";
import { partial, undetermined } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import { plateWidthSplit } from "../models/plateWidthSplit.ts";
import { bekkerPressure } from "../models/pressureSinkage.ts";
import { studentTQuantile } from "../numerics/distributions.ts";
import { mean } from "../numerics/statistics.ts";
import { expandedUncertainty } from "../processing/expandedUncertainty.ts";
import { parameterEstimates } from "./parameterEstimates.ts";
import type { ParameterName } from "./parameterEstimates.ts";
import { bedFindings } from "./plateScatter.ts";
import type { PlateScatter } from "./plateScatter.ts";
import { sharedShifts } from "./plateTests.ts";
import type { PlateGroup } from "./plateTests.ts";

const names: readonly ParameterName[] = [
  { name: "sinkageExponent", symbol: "n", unit: "1" },
  { name: "cohesiveModulus", symbol: "k_c", unit: "N/m^(n+1)" },
  { name: "frictionalModulus", symbol: "k_φ", unit: "N/m^(n+2)" },
];
/** chance that sound data raise one of the two disagreement findings */
const alarm = 0.01;

/** n, k_c, k_φ from (n₁, q₁, n₂, q₂ …) with each width's centre sinkage held. */
function constants(groups: readonly PlateGroup[], theta: readonly number[]): [number, number, number] {
  const n = mean(groups.map((_, h) => theta[2 * h] as number));
  const { cohesive, frictional } = plateWidthSplit(groups.map((group, h) => ({ widthM: group.widthM, stiffness: Math.exp((theta[2 * h + 1] as number) - n * group.centre) })));
  return [n, cohesive, frictional];
}

/**
 * Bekker's constants from plates of several widths.
 *
 *   per width: minimise Σ p² (ln p − ln k − n ln z)²;  n = mean of the widths' n;  k again with that n;
 *   k = k_c/b + k_φ: two widths exactly, more by the straight line of k over 1/b
 *
 * Covariance by linearisation: the scatter of whole runs or beds in (n, ln p at the width's centre sinkage), carried
 * through the steps above; what runs share (calibrations) is added as whole shifts.
 * A negative k_c is kept and said. With one width k_c and k_φ cannot be told apart, and the fit says so.
 *
 * @param groups    plate runs by width
 * @param scatter   from `plateScatter`
 * @param refused   runs that do not count, with reasons
 * @param widthNote what b means, to stand in the formula
 * @returns         the Fit: n [1], k_c [N/m^(n+1)], k_φ [N/m^(n+2)]
 * @source          J. Y. Wong, J. Terramechanics 17(1), 1980, 5–21; from memory
 * @checked         tests/fitting/pressureSinkageFit.test.ts
 */
export function pressureSinkageFit(groups: readonly PlateGroup[], scatter: PlateScatter, refused: readonly FitPoint[], widthNote: string): Fit {
  const kept = groups.flatMap((group) => group.tests.flatMap((test) => test.points.map((point): FitPoint => ({ run: test.run, x: point.sinkageM, y: point.pressurePa, yUncertainty: null, kept: true, reason: "" }))));
  const shape = { model: "pressure over sinkage, Bekker", formula: `p = (k_c/b + k_φ) zⁿ; k_c in N/m^(n+1), k_φ in N/m^(n+2), z and b in m, p in Pa; b is ${widthNote}`, points: [...kept, ...refused], degreesOfFreedom: scatter.degreesOfFreedom };
  const nothing = (sentence: string, values: readonly number[]): Fit => ({
    ...shape,
    parameters: names.map(({ name, symbol, unit }, i) => ({ name, symbol, estimate: undetermined(unit, sentence, values[i] as number) })),
    covariance: [], residuals: [], verdict: "undetermined", sentence, findings: bedFindings(groups),
  });
  if (groups.length === 0) return nothing("No plate run counts.", [Number.NaN, Number.NaN, Number.NaN]);
  const theta = groups.flatMap((group) => [group.exponent, group.logPressure]);
  if (groups.length === 1) {
    const only = groups[0] as PlateGroup;
    return nothing(`One plate width only (b = ${(1000 * only.widthM).toFixed(1)} mm): k_c and k_φ cannot be told apart; test a second width. n and the pressure at 10 mm stand with that width.`, [only.exponent, Number.NaN, Number.NaN]);
  }
  const values = constants(groups, theta);
  if (scatter.covariance === null) return nothing("Values without uncertainty: the plates are not repeated, so how far they scatter is not known. Repeat each plate, in a bed prepared again.", values);

  const own = scatter.covariance;
  const gradient = (f: (...at: number[]) => number): number[] => theta.map((_, a) => partial(f, theta, a, Math.sqrt((own[a] as readonly number[])[a] as number)));
  const slopes = names.map((_, i) => gradient((...at) => constants(groups, at)[i] as number));
  const between = (g: readonly number[], h: readonly number[]): number => g.reduce((sum, x, a) => sum + h.reduce((inner, y, b) => inner + x * y * ((own[a] as readonly number[])[b] as number), 0), 0);
  const unshared = slopes.map((g) => slopes.map((h) => between(g, h)));
  const shifts = sharedShifts(groups).map((shift) => ({ ...shift, shifts: slopes.map((g) => g.reduce((sum, x, a) => sum + x * (shift.shifts[a] as number), 0)) }));
  const runs = groups.reduce((sum, group) => sum + group.tests.length, 0);
  const method = `weighted least squares (p²) over ${runs} runs of ${groups.length} plate widths`;
  const { parameters, covariance: whole } = parameterEstimates(values, names, unshared, scatter.degreesOfFreedom, scatter.cause, shifts, method);

  const critical = studentTQuantile(1 - alarm / (2 * groups.length), scatter.degreesOfFreedom);
  const worst = (f: (h: number, at: readonly number[]) => number): number => Math.max(...groups.map((_, h) => {
    const g = gradient((...at) => f(h, at));
    return Math.abs(f(h, theta)) / Math.sqrt(between(g, g));
  }));
  const findings: Finding[] = bedFindings(groups);
  const apart = worst((h, at) => (at[2 * h] as number) - constants(groups, at)[0]);
  if (apart > critical) findings.push(finding("exponents-differ", "look", `The exponents of the plate widths differ by more than the runs scatter (${groups.map((group) => group.exponent.toFixed(3)).join(", ")}): one n does not describe them all, and k_c and k_φ mean little.`, { measured: apart, limit: critical }));
  if (groups.length > 2) {
    const offLine = worst((h, at) => {
      const [n, cohesive, frictional] = constants(groups, at);
      const group = groups[h] as PlateGroup;
      return Math.exp((at[2 * h + 1] as number) - n * group.centre) - cohesive / group.widthM - frictional;
    });
    if (offLine > critical) findings.push(finding("widths-off-line", "look", "The stiffnesses of the plate widths do not lie on one line over 1/b, more than the runs scatter: the split into k_c and k_φ does not hold over these widths.", { measured: offLine, limit: critical }));
  }
  const soil = { exponent: values[0], cohesive: values[1], frictional: values[2] };
  const residuals = groups.flatMap((group) => group.points.map((point) => point.pressurePa - bekkerPressure(point.sinkageM, group.widthM, soil)));
  return { ...shape, parameters, covariance: whole, residuals, verdict: "determined", sentence: sentenceOf(parameters, runs, groups.length), findings };
}

function sentenceOf(parameters: Fit["parameters"], runs: number, widths: number): string {
  const cohesive = (parameters[1] as Fit["parameters"][number]).estimate;
  const half = expandedUncertainty(cohesive)?.half ?? Number.NaN;
  const sign = Math.abs(cohesive.value) <= half ? "; k_c does not differ from zero by more than its uncertainty" : cohesive.value < 0 ? "; k_c is negative and kept so" : "";
  return `${runs} runs of ${widths} plate widths${sign}.`;
}
