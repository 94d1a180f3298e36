import type { Estimate } from "../core/estimate.ts";
import type { Fit, FitPoint } from "../core/fit.ts";
import { shearStrength } from "../models/mohrCoulomb.ts";
import { fQuantile } from "../numerics/distributions.ts";
import { lineFit } from "../numerics/lineFit.ts";
import { parameterEstimates } from "./parameterEstimates.ts";
import type { ParameterName } from "./parameterEstimates.ts";
import { sharedEffects } from "./sharedEffects.ts";
import { shearScatter } from "./shearScatter.ts";

/** One shear run that counts. */
export interface ShearTest {
  readonly run: string;
  /** its preparation of the soil; null = not named */
  readonly bed: string | null;
  readonly normalStress: Estimate;
  readonly strength: Estimate;
  /** as set on the run sheet [Pa]; null = not stated */
  readonly setStressPa: number | null;
}

const names: readonly ParameterName[] = [
  { name: "cohesion", symbol: "c", unit: "Pa" },
  { name: "frictionAngle", symbol: "φ", unit: "rad" },
];
const fewestStresses = 3;
/** share by which measured normal stresses may differ and still be one, where none was set */
const sameStress = 0.05;
const outlinePoints = 72;

/** The fit, and the 95 % joint region of cohesion [Pa] and friction angle [rad] as a closed outline. */
export interface ShearStrengthFit {
  readonly fit: Fit;
  readonly jointRegion: readonly (readonly [number, number])[];
}

/**
 * Cohesion and friction angle from shear runs at several normal stresses.
 *
 *   τ_max = c + σ tan φ     straight line, weights 1/(u² + (s τ)²); φ = atan(slope)
 *   joint region: (x − x̂)ᵀ C⁻¹ (x − x̂) = 2 F(0.95; 2, ν) in c and tan φ, carried over to φ
 *
 * u is what each run has for itself; s, the share by which places of the soil differ in strength, is what the scatter needs
 * beyond u (`shearScatter`): runs whose own doubt explains their scatter weigh by it, others in proportion to their
 * strength. Runs of one bed share its preparation, which then counts once per bed. Calibrations that runs share are added
 * as whole shifts, also to C; ν is the harmonic mean of those behind c and φ, calibrations included: they are part of C, and known better than the runs. A negative c is kept and said: the line bends at low stress, or a zero is off.
 *
 * @param tests     the runs that count
 * @param refused   the others with their reasons
 * @returns         the Fit (c [Pa], φ [rad]) and the outline; undetermined with fewer than 3 different normal stresses
 * @source          C. A. Coulomb 1776, O. Mohr 1900; joint region: N. R. Draper and H. Smith, Applied Regression Analysis, from memory
 * @checked         tests/fitting/shearStrengthFit.test.ts
 */
export function shearStrengthFit(tests: readonly ShearTest[], refused: readonly FitPoint[]): ShearStrengthFit {
  const stresses = tests.map((test) => test.normalStress.value);
  const strengths = tests.map((test) => test.strength.value);
  const kept = tests.map((test): FitPoint => ({ run: test.run, x: test.normalStress.value, y: test.strength.value, yUncertainty: test.strength.standardUncertainty, kept: true, reason: "" }));
  const shape = { model: "shear strength over normal stress, Mohr–Coulomb", formula: "τ_max = c + σ tan φ; c, σ, τ_max in Pa, φ in rad", points: [...kept, ...refused], findings: [] };
  const different = differentStresses(tests);
  if (different < fewestStresses) {
    const sentence = `${different} different normal ${different === 1 ? "stress" : "stresses"}; at least ${fewestStresses} are needed to see whether the strength lies on a line.`;
    return { fit: { ...shape, parameters: [], covariance: [], residuals: [], degreesOfFreedom: Math.max(0, tests.length - 2), verdict: "undetermined", sentence }, jointRegion: [] };
  }
  const { line, weights, beds } = shearScatter(tests);
  const { intercept: cohesion, slope } = line;
  const angle = Math.atan(slope);
  const onStrength = sharedEffects(tests.map((test) => test.strength));
  const onStress = sharedEffects(tests.map((test) => test.normalStress));
  const causes = [...onStrength, ...onStress.filter((cause) => !onStrength.some((known) => known.cause === cause.cause))];
  const moved = causes.map((cause) => {
    const strength = onStrength.find((known) => known.cause === cause.cause)?.effects;
    const stress = onStress.find((known) => known.cause === cause.cause)?.effects;
    const shift = lineFit(stresses, stresses.map((_, i) => (strength?.[i] ?? 0) - slope * (stress?.[i] ?? 0)), weights);
    return { ...cause, line: [shift.intercept, shift.slope] as const };
  });
  const toAngle = 1 / (1 + slope ** 2);
  const [[cc, ct], [, tt]] = line.covariance;
  const runs = tests.map((test) => test.run).join(", ");
  const bedShift = beds === null ? [] : [{ cause: `scatter from bed to bed, ${runs}`, sharedBy: "the beds of these runs", degreesOfFreedom: beds.degreesOfFreedom, line: [beds.share * cohesion, beds.share * slope] as const }];
  const { parameters, covariance } = parameterEstimates([cohesion, angle], names, [[cc, ct * toAngle], [ct * toAngle, tt * toAngle ** 2]], line.degreesOfFreedom, `scatter of the runs about the line, ${runs}`, [...bedShift, ...moved].map(({ line: [c, t], ...cause }) => ({ ...cause, shifts: [c, t * toAngle] })), `straight line through ${tests.length} runs at ${different} normal stresses`);
  const whole = [...bedShift, ...moved].reduce(([a, b, c], { line: [x, y] }) => [a + x * x, b + x * y, c + y * y] as const, [cc, ct, tt] as const);
  const behind = 2 / parameters.reduce((sum, { estimate }) => sum + 1 / estimate.degreesOfFreedom, 0);
  const negative = cohesion < 0 ? "; the cohesion is negative and kept so: the line bends at low stress, or a zero is off" : "";
  const fit: Fit = {
    ...shape, parameters, covariance,
    residuals: tests.map((_, i) => (strengths[i] as number) - shearStrength(stresses[i] as number, cohesion, angle)),
    degreesOfFreedom: line.degreesOfFreedom,
    verdict: "determined",
    sentence: `${tests.length} runs at ${different} normal stresses from ${(Math.min(...stresses) / 1000).toFixed(1)} to ${(Math.max(...stresses) / 1000).toFixed(1)} kPa${beds === null ? "" : "; beds scatter beyond their runs and count once each"}${negative}.`,
  };
  return { fit, jointRegion: outline(cohesion, slope, whole, behind) };
}

/** Ellipse in c and tan φ, carried over to φ; first point again at the end. */
function outline(cohesion: number, slope: number, [cc, ct, tt]: readonly [number, number, number], degreesOfFreedom: number): [number, number][] {
  const size = Math.sqrt(2 * fQuantile(0.95, 2, degreesOfFreedom));
  const left = Math.sqrt(cc);
  if (!(left > 0)) return [];
  const cross = ct / left;
  const rest = Math.sqrt(Math.max(0, tt - cross ** 2));
  return Array.from({ length: outlinePoints + 1 }, (_, i): [number, number] => {
    const turn = (2 * Math.PI * (i % outlinePoints)) / outlinePoints;
    return [cohesion + size * left * Math.cos(turn), Math.atan(slope + size * (cross * Math.cos(turn) + rest * Math.sin(turn)))];
  });
}

/** Set stresses where every run states one, else groups of measured stresses. */
function differentStresses(tests: readonly ShearTest[]): number {
  if (tests.every((test) => test.setStressPa !== null)) return new Set(tests.map((test) => test.setStressPa)).size;
  const rising = tests.map((test) => test.normalStress.value).sort((a, b) => a - b);
  return rising.filter((stress, i) => i === 0 || stress > (1 + sameStress) * (rising[i - 1] as number)).length;
}
