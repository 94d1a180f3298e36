import { lineFit, polynomialFit } from "../../numerics/lineFit.ts";
import { normalCdf } from "../../numerics/distributions.ts";
import { mean, standardDeviation, lag1Autocorrelation, effectiveSampleSize, median } from "../../numerics/statistics.ts";

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
 *   from that sample until F > F₀ + 20 s₀ (at least 8 samples): x = x₀ + a (F − F₀) + b (F − F₀)²;  contact at x₀
 *
 * F₀ and s₀ are mean and standard deviation before contact. The displacement is fitted over the force because a force
 * that sets in along a straight line, a square root or anything between is then a line, a parabola or close to one.
 * A fifth of the way between the two samples above holds a force that sets in along z^0.5 … z^1.3. Half of its square every
 * run shares, as its surfaces seat alike; half is where the noise hides that. Random beside it is the doubt of x₀, and half
 * its difference to the line's. The motion's own start bounds x₀ from below: what would lie before it is cut off, so that
 * x₀ is the mean, and its parts shrink to the spread, of the rest. F₀'s uncertainty counts correlated samples once.
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
  const { at, random, shape } = carriedBack(force, displacement, index, clearAt, forceZero, forceNoise);
  // never before the motion itself began
  const { mean: start, share: left } = cutBelow(at, Math.hypot(random, shape), Math.min(displacement[index] as number, ...displacement.slice(0, before)));
  while (index > 0 && (displacement[index] as number) > start) index--;
  return {
    index,
    forceZero,
    forceZeroUncertainty: forceNoise / Math.sqrt(Math.max(1, effective)),
    forceNoise,
    displacement: start,
    displacementUncertainty: random * left,
    shapeUncertainty: shape * left,
  };
}

/** Mean of a normal distribution without what lies below a bound, and the share of its spread that is left. */
function cutBelow(centre: number, spread: number, bound: number): { readonly mean: number; readonly share: number } {
  const a = (bound - centre) / spread;
  // far above the bound nothing is cut; far below it, or without a spread, the bound itself is left
  if (!(spread > 0) || a > 5) return { mean: Math.max(centre, bound), share: spread > 0 ? 1 / a : 0 };
  const density = Math.exp((-a * a) / 2) / Math.sqrt(2 * Math.PI);
  const hazard = density / (1 - normalCdf(a));
  return { mean: centre + spread * hazard, share: Math.sqrt(Math.max(0, 1 + a * hazard - hazard ** 2)) };
}

/** Displacement where the force was zero, by the first rise carried back. */
function carriedBack(force: readonly number[], displacement: readonly number[], from: number, clearAt: number, zero: number, noise: number): { readonly at: number; readonly random: number; readonly shape: number } {
  let to = from;
  while (to < force.length && (to - from < fewestRising || (force[to] as number) <= zero + rising * noise)) to++;
  const above = force.slice(from, to).map((value) => value - zero);
  const along = displacement.slice(from, to);
  const parabola = polynomialFit(above, along, 2);
  const line = polynomialFit(above, along, 1);
  const at = parabola.coefficients[0] as number;
  const hidden = (displacement[clearAt] as number) - (displacement[from] as number);
  return {
    at,
    random: Math.hypot(Math.sqrt((parabola.covariance[0] as readonly number[])[0] as number), (at - (line.coefficients[0] as number)) / 2, Math.SQRT1_2 * (hidden / 5)),
    shape: Math.SQRT1_2 * (hidden / 5),
  };
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
