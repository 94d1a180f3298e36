import { lineFit } from "../numerics/lineFit.ts";
import type { Line } from "../numerics/lineFit.ts";
import { unsharedUncertainty } from "./sharedEffects.ts";
import type { ShearTest } from "./shearStrengthFit.ts";

/** The line through shear runs, and how they scatter about it. */
export interface ShearScatter {
  /** its covariance holds the scatter of the runs within their beds */
  readonly line: Line;
  readonly weights: readonly number[];
  /** standard uncertainty of all strengths together, as a share of them, where beds scatter beyond their runs; null = they do not, or no bed holds several runs */
  readonly beds: { readonly share: number; readonly degreesOfFreedom: number } | null;
}

/** least share of the greatest strength that a fitted strength counts as, so that a line through zero has weights */
const leastShare = 0.02;
const rounds = 40;

/**
 * Straight line of strength over normal stress, and its scatter from run to run and from bed to bed.
 *
 *   τᵢ = (c + σᵢ tan φ)(1 + b_bed + eᵢ) + dᵢ      sd(d) = u, what a run has for itself; sd(e) = s
 *   s from Σ (τᵢ − τ̂ᵢ)²/(uᵢ² + (s τ̂ᵢ)²) = N − 2, or 0 where u alone explains the scatter;  C = χ²/(N − 2) · (XᵀWX)⁻¹
 *   beds: one-way analysis of variance of the relative residuals, weights v = w τ̂²; where MS_beds > MS_runs
 *         share² = MS_beds/Σv, ν = beds − 1, and of the line's C only what is left beside that common share, with MS_runs
 *
 * A denser place is stronger by a share, at every stress: that is why scatter goes with the strength.
 *
 * @param tests   runs at 3 or more different normal stresses
 * @returns       the line, its weights and the beds' part
 * @source        R. C. Paule and J. Mandel, J. Res. NBS 87 (1982) 377, for s; analysis of variance of unlike groups: S. R. Searle, Linear Models; both from memory
 * @checked       tests/fitting/shearScatter.test.ts
 */
export function shearScatter(tests: readonly ShearTest[]): ShearScatter {
  const stresses = tests.map((test) => test.normalStress.value);
  const strengths = tests.map((test) => test.strength.value);
  const least = leastShare * Math.max(...strengths.map(Math.abs));
  const levels = (line: Line): number[] => stresses.map((stress) => Math.max(line.intercept + line.slope * stress, least));
  let line = lineFit(stresses, strengths);
  let weights = strengths.map(() => 1);
  for (let round = 0; round < rounds; round++) {
    const own = tests.map((test) => Math.hypot(unsharedUncertainty(test.strength), line.slope * unsharedUncertainty(test.normalStress)));
    const share = shareBeyond(strengths.map((strength, i) => strength - line.intercept - line.slope * (stresses[i] as number)), own, levels(line));
    const next = levels(line).map((level, i) => 1 / ((own[i] as number) ** 2 + (share * level) ** 2));
    if (!next.every((weight) => Number.isFinite(weight) && weight > 0)) break;
    weights = next;
    const before = line;
    line = lineFit(stresses, strengths, weights);
    if (Math.abs(line.slope - before.slope) <= 1e-12 * Math.abs(line.slope)) break;
  }
  return bedToBed(tests, line, weights, levels(line));
}

/** s ≥ 0 at which the weighted squares are as many as there are degrees of freedom; 0 where they are fewer already. */
function shareBeyond(residuals: readonly number[], own: readonly number[], levels: readonly number[]): number {
  const excess = (share: number): number => residuals.reduce((sum, residual, i) => sum + (residual === 0 ? 0 : residual ** 2 / ((own[i] as number) ** 2 + (share * (levels[i] as number)) ** 2)), 0) - (residuals.length - 2);
  if (!(excess(0) > 0)) return 0;
  let [low, high] = [0, 1];
  while (excess(high) > 0) high *= 2;
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return high;
}

function bedToBed(tests: readonly ShearTest[], line: Line, weights: readonly number[], levels: readonly number[]): ShearScatter {
  const plain: ShearScatter = { line, weights, beds: null };
  const names = [...new Set(tests.map((test) => test.bed))];
  const within = tests.length - 2 - (names.length - 1);
  if (names.includes(null) || names.length < 2 || names.length === tests.length || within < 1) return plain;
  const parts = tests.map((test, i) => {
    const level = levels[i] as number;
    return { bed: test.bed, share: (test.strength.value - line.intercept - line.slope * test.normalStress.value) / level, weight: (weights[i] as number) * level ** 2 };
  });
  const about = (some: typeof parts): { readonly weight: number; readonly mean: number } => {
    const weight = some.reduce((sum, part) => sum + part.weight, 0);
    return { weight, mean: some.reduce((sum, part) => sum + part.weight * part.share, 0) / weight };
  };
  const all = about(parts);
  const beds = names.map((name) => about(parts.filter((part) => part.bed === name)));
  const between = beds.reduce((sum, bed) => sum + bed.weight * (bed.mean - all.mean) ** 2, 0);
  const whole = parts.reduce((sum, part) => sum + part.weight * (part.share - all.mean) ** 2, 0);
  const ofRuns = (whole - between) / within;
  const ofBeds = between / (names.length - 1);
  if (!(ofBeds > ofRuns)) return plain;
  const scale = ofRuns / line.residualSd ** 2;
  const common = ofRuns / all.weight;
  const { intercept: c, slope: t } = line;
  const [[cc, ct], [, tt]] = line.covariance;
  const left = [Math.max(0, cc * scale - common * c * c), ct * scale - common * c * t, Math.max(0, tt * scale - common * t * t)] as const;
  return { line: { ...line, covariance: [[left[0], left[1]], [left[1], left[2]]], degreesOfFreedom: within }, weights, beds: { share: Math.sqrt(ofBeds / all.weight), degreesOfFreedom: names.length - 1 } };
}
