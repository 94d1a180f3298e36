import type { Estimate } from "../core/estimate.ts";
import type { Fit, FitPoint } from "../core/fit.ts";
import { undetermined } from "../core/estimate.ts";
import { shearMobilised } from "../models/shearDisplacement.ts";
import { mean } from "../numerics/statistics.ts";
import { parameterEstimates } from "./parameterEstimates.ts";
import type { ParameterName } from "./parameterEstimates.ts";
import { pooledCovariance } from "./pooledCovariance.ts";
import type { PooledCovariance } from "./pooledCovariance.ts";
import { sharedEffects } from "./sharedEffects.ts";

/** One shear run with its curve. */
export interface ShearCurveTest {
  readonly run: string;
  readonly strength: Estimate;
  readonly shearModulus: Estimate;
  readonly points: readonly FitPoint[];
}

const names: readonly ParameterName[] = [
  { name: "shearStrength", symbol: "τ_max", unit: "Pa" },
  { name: "shearModulus", symbol: "K", unit: "m" },
];

/**
 * How single runs scatter in (ln τ_max, ln K) about the mean of their normal stress, pooled over the stresses.
 *
 * @param groups   runs by normal stress
 * @returns        covariance of one run; null when no stress has a repeat
 * @source         common practice
 * @checked        tests/fitting/shearModulusFit.test.ts
 */
export function shearRunToRun(groups: readonly (readonly ShearCurveTest[])[]): PooledCovariance {
  return pooledCovariance(groups.map((group) => group.map((test) => [Math.log(test.strength.value), Math.log(test.shearModulus.value)])));
}

/**
 * Shear strength and shear modulus at one normal stress: geometric means over its runs.
 *
 *   τ = τ_max (1 − e^(−j/K))     ln τ_max = mean ln τ_max,i,  ln K = mean ln K_i
 *
 * Uncertainty from run-to-run scatter, pooled over the normal stresses of the day, over √(runs); shared calibrations on top.
 *
 * @param tests     the runs at that stress, at least one
 * @param scatter   from `shearRunToRun`
 * @returns         the Fit: τ_max [Pa], K [m]; without repeats anywhere its values stand without uncertainty and it is undetermined
 * @source          Z. Janosi and B. Hanamoto 1961; mean over runs: common practice
 * @checked         tests/fitting/shearModulusFit.test.ts
 */
export function shearModulusFit(tests: readonly ShearCurveTest[], scatter: PooledCovariance): Fit {
  const strength = Math.exp(mean(tests.map((test) => Math.log(test.strength.value))));
  const modulus = Math.exp(mean(tests.map((test) => Math.log(test.shearModulus.value))));
  const points = tests.flatMap((test) => test.points);
  const count = `${tests.length} ${tests.length === 1 ? "run" : "runs"}`;
  const shape = {
    model: "shear stress over displacement, one normal stress",
    formula: "τ = τ_max (1 − e^(−j/K)); τ in Pa, j and K in m",
    points,
    residuals: points.filter((point) => point.kept).map((point) => point.y - strength * shearMobilised(Math.max(0, point.x), modulus)),
    degreesOfFreedom: scatter.degreesOfFreedom,
    findings: [],
  };
  const method = `geometric mean of ${count}`;
  if (scatter.covariance === null) {
    const reason = "no normal stress has a repeat, so the scatter from run to run is not known";
    return { ...shape, parameters: names.map(({ name, symbol, unit }, i) => ({ name, symbol, estimate: undetermined(unit, `${method}; no uncertainty, because ${reason}`, i === 0 ? strength : modulus) })), covariance: [], verdict: "undetermined", sentence: `Values without uncertainty: ${reason}. Repeat each stress.` };
  }
  const size = [strength, modulus];
  const unshared = scatter.covariance.map((row, i) => row.map((value, j) => (value * (size[i] as number) * (size[j] as number)) / tests.length));
  const relative = (pick: (test: ShearCurveTest) => Estimate) => sharedEffects(tests.map(pick)).map((cause) => ({ ...cause, share: mean(cause.effects.map((effect, i) => effect / pick(tests[i] as ShearCurveTest).value)) }));
  const onStrength = relative((test) => test.strength);
  const onModulus = relative((test) => test.shearModulus);
  const causes = [...onStrength, ...onModulus.filter((cause) => !onStrength.some((known) => known.cause === cause.cause))];
  const shifts = causes.map(({ cause, sharedBy, degreesOfFreedom }) => ({
    cause, sharedBy, degreesOfFreedom,
    shifts: [strength * (onStrength.find((known) => known.cause === cause)?.share ?? 0), modulus * (onModulus.find((known) => known.cause === cause)?.share ?? 0)],
  }));
  return { ...shape, ...parameterEstimates(size, names, unshared, scatter.degreesOfFreedom, `scatter from run to run, ${tests.map((test) => test.run).join(", ")}`, shifts, method), verdict: "determined", sentence: `${count}; scatter from run to run from ${scatter.degreesOfFreedom} degrees of freedom over all normal stresses.` };
}
