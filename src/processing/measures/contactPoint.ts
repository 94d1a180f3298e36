import { lineFit } from "../../numerics/lineFit.ts";
import { mean, standardDeviation, lag1Autocorrelation, effectiveSampleSize, median } from "../../numerics/statistics.ts";
import { movingMean } from "../conditioning/movingMean.ts";
import { forceOnset } from "./forceOnset.ts";
import type { ForceOnset } from "./forceOnset.ts";

/** Where a press met the specimen, and what the force sensor read before. */
export interface ContactPoint {
  /** last sample before contact */
  readonly index: number;
  /** mean force before contact and its standard uncertainty [N] */
  readonly forceZero: number;
  readonly forceZeroUncertainty: number;
  /** standard deviation of single force samples before contact [N] */
  readonly forceNoise: number;
  readonly displacement: number;
  /** random, this run alone */
  readonly displacementUncertainty: number;
  /** from the shape of the first contact, alike in all runs */
  readonly shapeUncertainty: number;
}

/** fewest samples that show what the sensor reads without contact */
const fewestBefore = 10;
/** standard deviations above the zero that count as clear of the noise */
const clear = 4;
/** samples in a row that must be clear, so that no single spike is a contact */
const inARow = 5;
/** how far the first rise is followed, in standard deviations and at least in samples */
const rising = 20;
const fewestRising = 8;

/**
 * The contact of a press with soil or a wheel: where the force, carried back from where it is clear of its noise, was zero.
 *
 *   clear at the first of 5 samples in a row with F > F₀ + 4 s₀; last sample before it with F ≤ F₀
 *   around it until F > F₀ + 20 s₀ (at least 8 samples): where F − F₀ sets in, by `forceOnset`
 *
 * F₀ and s₀ are mean and standard deviation before contact; F₀'s uncertainty counts correlated samples once. The motion's own
 * start bounds the contact from below.
 *
 * @param force          force samples, pressing positive [N]
 * @param displacement   displacement at the same samples, pressing positive [m]
 * @returns              null when the log holds no stretch before contact (fewer than 10 samples, or a force that climbs from the first sample on) or ends within 8 samples of contact
 * @source               common practice
 * @checked              tests/processing/measures/contactPoint.test.ts
 */
export function contactPoint(force: readonly number[], displacement: readonly number[]): ContactPoint | null {
  const early = firstAbove(force, share(force, 0.05));
  if (early < 2 * fewestBefore) return null;
  let before = Math.max(fewestBefore, Math.floor(early / 4));
  let clearAt = -1;
  for (let pass = 0; pass < 3; pass++) {
    const zero = mean(force.slice(0, before));
    const noise = Math.max(standardDeviation(force.slice(0, before)), 1e-9 * Math.abs(share(force, 1)));
    clearAt = firstAbove(force, zero + clear * noise);
    if (clearAt < fewestBefore) return null;
    before = Math.max(fewestBefore, Math.floor(0.8 * clearAt));
  }
  const zeroBlock = force.slice(0, before);
  if (climbs(zeroBlock, early, share(force, 0.05) - share(force, 0))) return null;
  const forceZero = mean(zeroBlock);
  const forceNoise = standardDeviation(zeroBlock);
  const effective = forceNoise > 0 ? effectiveSampleSize(before, lag1Autocorrelation(zeroBlock)) : before;
  let index = clearAt;
  while (index > 0 && (force[index] as number) > forceZero) index--;
  if (force.length - index < fewestRising) return null;
  const touch = touchBetween(force, displacement, index, clearAt, forceZero, { sd: forceNoise, together: before / effective }, displacement.slice(0, before).reduce((least, value) => Math.min(least, value), displacement[index] as number));
  index = clearAt;
  while (index > 0 && (displacement[index] as number) > touch.at) index--;
  return {
    index,
    forceZero,
    forceZeroUncertainty: forceNoise / Math.sqrt(Math.max(1, effective)),
    forceNoise,
    displacement: touch.at,
    displacementUncertainty: touch.random,
    shapeUncertainty: touch.shape,
  };
}

/**
 * The first touch, sought from where the force is clear of its noise backwards by as much as it then still rises, and never
 * before the motion itself began. A displacement noisier than its steps is steadied first, over the samples in which it
 * moves by twice its noise on either side; the noise that is left moves the touch as a whole.
 */
function touchBetween(force: readonly number[], displacement: readonly number[], index: number, clearAt: number, zero: number, noise: { readonly sd: number; readonly together: number }, start: number): ForceOnset {
  let to = index;
  while (to < force.length && (to - index < fewestRising || (force[to] as number) <= zero + rising * noise.sd)) to++;
  const own = roughness(displacement.slice(0, to));
  const step = lineFit(Array.from({ length: to - index }, (_, i) => i), displacement.slice(index, to)).slope;
  const half = step > 0 ? Math.min(Math.floor((2 * own) / step), index, force.length - to) : 0;
  const steady = movingMean(displacement, half);
  const high = steady[clearAt] as number;
  const reach = Math.max((steady[to - 1] as number) - high, fewestRising * Math.abs(step), Number.EPSILON);
  const low = Math.min(high - reach / fewestRising, Math.max(start, high - reach));
  let from = index;
  while (from > 0 && (steady[from] as number) > low) from--;
  from = Math.max(0, from - fewestRising);
  const touch = forceOnset(force.slice(from, to).map((value) => value - zero), [...steady.slice(from, to)], noise, [low, high]);
  return half === 0 ? touch : { ...touch, random: Math.hypot(touch.random, own / Math.sqrt(2 * half + 1)) };
}

/** Standard deviation of single values about a smooth course, from their second differences. */
function roughness(x: readonly number[]): number {
  const bends = x.slice(2).map((value, i) => ((x[i] as number) - 2 * (x[i + 1] as number) + value) ** 2);
  return Math.sqrt(mean(bends) / 6);
}

/** range of a force, in its noise, up to which it is noise alone: the extremes of 10⁵ normal samples lie 9 apart */
const flat = 12;

/**
 * Whether a force never rises clear of its noise, so that nothing was touched.
 *
 *   greatest − least ≤ 12 s,   s by second differences, which a course does not move
 *
 * @param force   force samples [N]; at least 3
 * @returns       true where the log holds no contact
 * @source        common practice
 * @checked       tests/processing/measures/contactPoint.test.ts
 */
export function staysFlat(force: readonly number[]): boolean {
  const [least, greatest] = force.reduce(([low, high], value) => [Math.min(low, value), Math.max(high, value)], [Infinity, -Infinity]);
  return (greatest as number) - (least as number) <= flat * roughness(force);
}

/** The force at a share of its whole rise above the first samples. */
function share(force: readonly number[], part: number): number {
  const low = median(force.slice(0, fewestBefore));
  const high = force.reduce((most, value) => Math.max(most, value), -Infinity);
  return low + part * (high - low);
}

/** First index from which `inARow` samples in a row stand above the level; −1 if none. */
function firstAbove(force: readonly number[], level: number): number {
  let above = 0;
  for (let i = 0; i < force.length; i++) {
    above = (force[i] as number) > level ? above + 1 : 0;
    if (above === inARow) return i - inARow + 1;
  }
  return -1;
}

/**
 * Whether a block climbs as a press in contact does: its straight line is clearly no accident and, carried on to where
 * 5 % of the force is reached, explains a good part of that rise. Then the block is no rest before contact.
 */
function climbs(block: readonly number[], until: number, riseN: number): boolean {
  const { slope, covariance } = lineFit(block.map((_, i) => i), block);
  return slope > 3 * Math.sqrt(covariance[1][1]) && slope * until > 0.3 * riseN;
}
