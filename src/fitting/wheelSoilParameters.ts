import type { Unit } from "../core/units.ts";
import type { WheelSoil } from "../models/wheelSoil.ts";

/** One constant of the soil under a wheel, as it is fitted: free of scale, with what is believed of it before any run. */
export interface SoilParameter {
  readonly name: string;
  readonly symbol: string;
  readonly unit: Unit;
  /** belief before the data: mean and standard deviation on the fitted scale, and why */
  readonly prior: { readonly mean: number; readonly sd: number; readonly reason: string };
  readonly lower: number;
  readonly upper: number;
  /** from the fitted scale to the unit */
  readonly toUnit: (fitted: number) => number;
}

/** sinkage at which the pressure is a parameter: amid those of rover wheels, so that it and n are nearly uncorrelated [m] */
const referenceM = 0.01;
const same = (value: number): number => value;
const degree = Math.PI / 180;

/**
 * The constants fitted to wheel runs, in the order of the parameter vector.
 *
 *   ln p₁₀ [kPa], n, χ, c [kPa], φ [°], ln K [mm], c₁, c₂, n₁, √λ (the angle of exit goes with it), κ, √μ (the wider circle goes with it)
 *   p₁₀: pressure at 10 mm at the width b₀      χ = k_c/(b₀ k_φ)      κ: share of the lugs' height in the shearing radius; the rest pushes wedges of soil
 *   μ: flattening on soil over that on a plate, flexible wheels as a wider circle
 *
 * @source    priors: ranges of published soils and rover wheels, wide enough to let data speak; common practice
 * @checked   tests/fitting/wheelSoilParameters.test.ts
 */
export const soilParameters: readonly SoilParameter[] = [
  { name: "pressureAt10mm", symbol: "p₁₀", unit: "Pa", prior: { mean: Math.log(20), sd: 1.5, reason: "from loose dust to firm sand" }, lower: Math.log(0.1), upper: Math.log(5000), toUnit: (fitted) => 1000 * Math.exp(fitted) },
  { name: "sinkageExponent", symbol: "n", unit: "1", prior: { mean: 1, sd: 0.3, reason: "dry granular soils lie near 1" }, lower: 0.2, upper: 2, toUnit: same },
  { name: "widthShare", symbol: "χ", unit: "1", prior: { mean: 0, sd: 0.2, reason: "little cohesion: the width hardly matters" }, lower: -0.6, upper: 5, toUnit: same },
  { name: "cohesion", symbol: "c", unit: "Pa", prior: { mean: 0.5, sd: 1, reason: "dry simulants: 0 to 2 kPa" }, lower: 0, upper: 20, toUnit: (fitted) => 1000 * fitted },
  { name: "frictionAngle", symbol: "φ", unit: "rad", prior: { mean: 33, sd: 7, reason: "loose to dense granular soil" }, lower: 5, upper: 60, toUnit: (fitted) => fitted * degree },
  { name: "shearModulus", symbol: "K", unit: "m", prior: { mean: Math.log(15), sd: 0.8, reason: "5 to 40 mm" }, lower: Math.log(0.3), upper: Math.log(300), toUnit: (fitted) => Math.exp(fitted) / 1000 },
  { name: "stressAngle", symbol: "c₁", unit: "1", prior: { mean: 0.35, sd: 0.15, reason: "0.18 in loose, 0.43 in compact sand" }, lower: 0, upper: 0.9, toUnit: same },
  { name: "stressAngleBySlip", symbol: "c₂", unit: "1", prior: { mean: 0.2, sd: 0.15, reason: "0.15 to 0.32 in published sets" }, lower: -0.5, upper: 1, toUnit: same },
  { name: "exponentBySlip", symbol: "n₁", unit: "1", prior: { mean: 0.2, sd: 0.3, reason: "from no slip sinkage to a strong one" }, lower: -0.2, upper: 2, toUnit: same },
  { name: "rebound", symbol: "λ", unit: "1", prior: { mean: 0.2, sd: 0.15, reason: "loose soil springs back by a tenth of the rut or less" }, lower: 0, upper: 0.95, toUnit: (fitted) => fitted ** 2 },
  { name: "lugShare", symbol: "κ", unit: "1", prior: { mean: 0.5, sd: 0.3, reason: "between rim and tips" }, lower: 0, upper: 1, toUnit: same },
  { name: "flattening", symbol: "μ", unit: "1", prior: { mean: 0.6, sd: 0.3, reason: "a flexible wheel flattens less on soft ground than on a plate" }, lower: 0, upper: 1, toUnit: (fitted) => fitted ** 2 },
];

/**
 * The soil under a wheel of one width from a parameter vector.
 *
 *   k = p₁₀ z₁₀⁻ⁿ (1 + χ b₀/b)/(1 + χ)
 *
 * @param fitted            values on the fitted scale, in the order of `soilParameters`
 * @param widthM            b [m]
 * @param referenceWidthM   b₀ [m]
 * @returns                 the constants at that width
 * @source                  algebra of Bekker's form
 * @checked                 tests/fitting/wheelSoilParameters.test.ts
 */
export function toWheelSoil(fitted: readonly number[], widthM: number, referenceWidthM: number): WheelSoil {
  const [logPressure = 0, exponent = 0, share = 0, cohesion = 0, friction = 0, logModulus = 0, stressAngle = 0, stressAngleBySlip = 0, exponentBySlip = 0, reboundRoot = 0] = fitted;
  return {
    stiffness: (1000 * Math.exp(logPressure) * referenceM ** -exponent * (1 + (share * referenceWidthM) / widthM)) / (1 + share),
    exponent,
    exponentBySlip,
    cohesionPa: 1000 * cohesion,
    frictionAngleRad: friction * degree,
    shearModulusM: Math.exp(logModulus) / 1000,
    stressAngle,
    stressAngleBySlip,
    rebound: reboundRoot ** 2,
  };
}

/**
 * What of a wheel's shape is fitted: share of the lugs' height in the shearing radius, and share of its flattening.
 *
 * @param fitted   values on the fitted scale
 * @returns        κ and μ [1]
 * @source         as `soilParameters`
 * @checked        tests/fitting/wheelSoilParameters.test.ts
 */
export function shapeOf(fitted: readonly number[]): { readonly lugShare: number; readonly flattening: number } {
  return { lugShare: fitted[10] as number, flattening: (fitted[11] as number) ** 2 };
}
