import type { Fit } from "../core/fit.ts";
import type { SoilResult } from "../processing/dayResult.ts";
import type { Belief } from "./wheelSoilFit.ts";
import { soilParameters } from "./wheelSoilParameters.ts";

/** How far a plate's or a shear box's constants may be off under a wheel: standard deviations, declared in rig.yaml; undefined = do not use them. */
export interface Transfer {
  /** of ln p */
  readonly plate?: number | undefined;
  /** of φ [rad] */
  readonly shearRad?: number | undefined;
}

/** A belief with where it comes from. */
export interface ReasonedBelief extends Belief {
  readonly reason: string;
}

/**
 * What is believed of the soil before the wheel runs: published ranges, narrowed by plates and shear runs where rig.yaml
 * says how far these may be off under a wheel.
 *
 *   ln p₁₀: plates' value at the wheels' width, sd √(u² + transfer²)      n: plates' n, sd √(u² + 0.1²)
 *   φ: shear runs' angle, sd √(u² + transfer²)      ln K: shear runs' K, sd √(u² + ln² 1.6)
 *
 * Constants from plates do not carry over to wheels unchanged: footprint, curvature and slip differ. The transfer says by
 * how much a laboratory expects them to.
 *
 * @param soil               the day's plate and shear fits; null = none
 * @param referenceWidthM    b₀ [m]
 * @param transfer           from rig.yaml
 * @returns                  one belief a parameter, in the order of `soilParameters`
 * @source                   plates as prior, wheels as likelihood: A. Gallina et al., J. Terramechanics (abstract seen); n and K: common practice
 * @checked                  tests/fitting/soilBeliefs.test.ts
 */
export function soilBeliefs(soil: Pick<SoilResult, "pressureSinkage" | "shearStrength" | "shearCurves"> | null, referenceWidthM: number, transfer: Transfer): ReasonedBelief[] {
  const changed = new Map<string, ReasonedBelief>();
  const plates = soil?.pressureSinkage ?? null;
  if (transfer.plate !== undefined && plates?.verdict === "determined") {
    const [n, cohesive, frictional] = plates.parameters.map(({ estimate }) => estimate.value) as [number, number, number];
    const pressure = (cohesive / referenceWidthM + frictional) * 0.01 ** n;
    const relative = relativeUncertainty(plates, (values) => (values[1] as number) / referenceWidthM + (values[2] as number), n);
    if (pressure > 0) {
      changed.set("pressureAt10mm", { mean: Math.log(pressure / 1000), sd: Math.hypot(relative, transfer.plate), reason: `the plates, within a factor of ${Math.exp(transfer.plate).toFixed(2)} under a wheel` });
      changed.set("sinkageExponent", { mean: n, sd: Math.hypot(plates.parameters[0]?.estimate.standardUncertainty ?? 0, 0.1), reason: "the plates' n, within 0.1 under a wheel" });
    }
  }
  const strength = soil?.shearStrength ?? null;
  if (transfer.shearRad !== undefined && strength?.verdict === "determined") {
    const angle = strength.parameters[1]?.estimate;
    if (angle !== undefined) changed.set("frictionAngle", { mean: (angle.value * 180) / Math.PI, sd: (Math.hypot(angle.standardUncertainty ?? 0, transfer.shearRad) * 180) / Math.PI, reason: `the shear runs, within ${((transfer.shearRad * 180) / Math.PI).toFixed(1)}° under a wheel` });
    const moduli = (soil?.shearCurves ?? []).flatMap(({ fit }) => (fit.verdict === "determined" ? [fit.parameters.find((parameter) => parameter.name === "shearModulus")?.estimate.value ?? Number.NaN] : [])).filter((value) => value > 0);
    if (moduli.length > 0) changed.set("shearModulus", { mean: Math.log((1000 * moduli.reduce((sum, value) => sum + value, 0)) / moduli.length), sd: Math.log(1.6), reason: "the shear runs' K, within a factor of 1.6 under a wheel" });
  }
  return soilParameters.map(({ name, prior, lower, upper }) => {
    const belief = changed.get(name);
    return belief === undefined ? prior : { ...belief, mean: Math.min(upper, Math.max(lower, belief.mean)) };
  });
}

/** u of ln(k z₁₀ⁿ) from the covariance of n, k_c, k_φ, by differences. */
function relativeUncertainty(fit: Fit, stiffness: (values: readonly number[]) => number, n: number): number {
  const values = fit.parameters.map(({ estimate }) => estimate.value);
  const log = (at: readonly number[]): number => Math.log(stiffness(at)) + (at[0] as number) * Math.log(0.01);
  const slopes = values.map((value, j) => {
    const step = 1e-4 * Math.max(Math.abs(value), n * 1e-3);
    const moved = (by: number): number[] => values.map((other, k) => (k === j ? other + by : other));
    return (log(moved(step)) - log(moved(-step))) / (2 * step);
  });
  return Math.sqrt(Math.max(0, slopes.reduce((sum, a, i) => sum + slopes.reduce((inner, b, j) => inner + a * b * ((fit.covariance[i] as readonly number[])[j] as number), 0), 0)));
}
