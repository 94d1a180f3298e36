import { lineFit } from "../../numerics/lineFit.ts";
import { mean, standardDeviation, lag1Autocorrelation, effectiveSampleSize, median } from "../../numerics/statistics.ts";

/** Where a press met the specimen, and what the force sensor read before. */
export interface ContactPoint {
  /** last sample that still reads no more than the mean before contact */
  readonly index: number;
  /** mean force before contact and its standard uncertainty [N] */
  readonly forceZero: number;
  readonly forceZeroUncertainty: number;
  /** standard deviation of single force samples before contact [N] */
  readonly forceNoise: number;
  readonly displacement: number;
  readonly displacementUncertainty: number;
}

/** fewest samples that show what the sensor reads without contact */
const fewestBefore = 10;
/** standard deviations above the zero that count as clear of the noise */
const clear = 4;
/** samples in a row that must be clear, so that no single spike is a contact */
const inARow = 5;

/**
 * The contact of a press with soil or a wheel: where the force leaves the noise it had before.
 *
 *   clear at the first of 5 samples in a row with F > F₀ + 4 s₀;  contact at the last sample before it with F ≤ F₀
 *
 * F₀ and s₀ are mean and standard deviation before contact. The true contact lies between the two samples; the
 * half-width of a rectangle as wide as twice that stretch gives its standard uncertainty, stretch/√3, on the
 * cautious side. F₀'s uncertainty counts correlated samples once.
 *
 * @param force          force samples, pressing positive [N]
 * @param displacement   displacement at the same samples, pressing positive [m]
 * @returns              null when the log holds no stretch before contact (fewer than 10 samples, or a force that climbs from the first sample on)
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
  const stretch = Math.abs((displacement[clearAt] as number) - (displacement[index] as number));
  return {
    index,
    forceZero,
    forceZeroUncertainty: forceNoise / Math.sqrt(Math.max(1, effective)),
    forceNoise,
    displacement: displacement[index] as number,
    displacementUncertainty: stretch / Math.sqrt(3),
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
