import type { Fit, FitParameter } from "../core/fit.ts";
import type { Measure } from "../core/measure.ts";
import { undetermined } from "../core/estimate.ts";
import { furtherFit } from "./furtherFit.ts";
import type { FormPoint } from "./measures/formFit.ts";
import { humpedCurve } from "./measures/humpedCurve.ts";
import type { PressCurve, PressReading } from "./measures/pressCurve.ts";
import { shearStrengthOf } from "./measures/shearStrengthOf.ts";

/** share of the fall from the peak that the travel must show; with less the residual stress is mostly extrapolated */
const shown = 0.5;

/** What a shear curve with a peak tells beyond it: the curve with its hump, and the stress it comes down to. */
export function shearPastPeak(run: string, reading: PressReading, toPoints: (data: PressCurve) => readonly FormPoint[]): { readonly fits: readonly Fit[]; readonly measures: readonly Measure[] } {
  const points = toPoints(reading.curve);
  const fit = furtherFit(
    {
      model: "shear stress over displacement, with a hump",
      formula: "τ = [τ_r + (τ_m/(1 − 1/e) − τ_r) e^(1 − j/K_w)] (1 − e^(−j/K_w)); τ in Pa, j and K_w in m; τ_r/τ_m is K_r of the books",
      constants: [{ name: "stressAtHump", symbol: "τ_m", unit: "Pa" }, { name: "residualStress", symbol: "τ_r", unit: "Pa" }, { name: "displacementAtHump", symbol: "K_w", unit: "m" }],
      fit: (of) => humpedCurve(of, shearStrengthOf(of.map(({ x, y }) => ({ displacementM: x, stressPa: y })))?.peakDisplacementM ?? Number.NaN),
    },
    run, reading, toPoints,
  );
  const residual = (reason: string): Measure => ({ name: "residualShearStrength", label: "Residual shear strength", estimate: undetermined("Pa", reason), segment: null });
  if (fit === null) return { fits: [], measures: [residual("the stress past the peak comes down to no level within reach. Shear further")] };
  const { estimate } = fit.parameters[1] as FitParameter;
  const greatest = Math.max(...points.map(({ y }) => y));
  const share = (greatest - (points.at(-1) as FormPoint).y) / (greatest - estimate.value);
  const within = `${(100 * share).toFixed(0)} % of the fall from the peak to the residual stress lie within the travel`;
  const fits = [{ ...fit, sentence: `${within}. K_w is not where the peak stands; that is read off the points.` }];
  return { fits, measures: [share >= shown ? { ...residual(""), estimate: { ...estimate, method: `${estimate.method}, humped curve; ${within}` } } : residual(`only ${within}. Shear further`)] };
}
