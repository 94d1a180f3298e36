import type { Random } from "./random.ts";
import { mean, quantile, standardDeviation } from "./statistics.ts";

const defaultReplicates = 2000;

/** How to resample. */
export interface BootstrapOptions {
  readonly random: Random;
  readonly replicates?: number;
  /** samples kept together, for a record whose neighbours are correlated */
  readonly blockLength?: number;
}

/** What resampling says about a statistic. */
export interface Bootstrap {
  /** of the data themselves */
  readonly estimate: number;
  /** of each resample for which the statistic exists */
  readonly replicates: Float64Array;
  /** resamples for which the statistic was not finite */
  readonly failed: number;
  readonly standardUncertainty: number;
  /** mean of the replicates minus the estimate */
  readonly bias: number;
  /** percentile interval of a coverage between 0 and 1 */
  interval(coverage: number): readonly [number, number];
}

/**
 * Bootstrap of any statistic: the spread of its values over samples drawn with replacement from the data.
 *
 *   u = sd of the replicates        interval = their (1 ∓ coverage)/2 quantiles
 *
 * Unit of the statistic. Observations (or blocks) count as independent. Intervals come out too short for few data: below
 * about 20 observations use Student's t. Same seed, same answer.
 *
 * @param count     number of observations, ≥ 2
 * @param statistic value for a choice of observation numbers 0 … count − 1, with repeats; paired data stay paired
 * @param options   { random, replicates = 2000, blockLength = 1 }; blocks wrap round the end
 * @returns         { estimate, replicates, failed, standardUncertainty, bias, interval(coverage) }; NaN if fewer than 2 replicates exist
 * @throws          RangeError if count < 2, replicates < 2, the block is not from 1 to count, or a coverage is not between 0 and 1
 * @source          Efron & Tibshirani, An Introduction to the Bootstrap, chapters 6 and 13; circular blocks: Politis & Romano (1992) (from memory)
 * @checked         tests/numerics/bootstrap.test.ts
 */
export function bootstrap(count: number, statistic: (indices: Int32Array) => number, options: BootstrapOptions): Bootstrap {
  const { random, replicates: wanted = defaultReplicates, blockLength = 1 } = options;
  if (!Number.isInteger(count) || count < 2) throw new RangeError(`bootstrap: expected at least 2 observations, found ${count}`);
  if (!Number.isInteger(wanted) || wanted < 2) throw new RangeError(`bootstrap: expected at least 2 replicates, found ${wanted}`);
  if (!Number.isInteger(blockLength) || blockLength < 1 || blockLength > count) throw new RangeError(`bootstrap: expected a block length from 1 to ${count}, found ${blockLength}`);
  const indices = Int32Array.from({ length: count }, (_, i) => i);
  const estimate = statistic(indices);
  const values: number[] = [];
  for (let replicate = 0; replicate < wanted; replicate++) {
    for (let at = 0; at < count; at += blockLength) {
      const start = random.integer(count);
      for (let k = 0; k < blockLength && at + k < count; k++) indices[at + k] = (start + k) % count;
    }
    const value = statistic(indices);
    if (Number.isFinite(value)) values.push(value);
  }
  const replicates = Float64Array.from(values);
  const enough = replicates.length >= 2;
  return {
    estimate,
    replicates,
    failed: wanted - replicates.length,
    standardUncertainty: enough ? standardDeviation(replicates) : Number.NaN,
    bias: enough ? mean(replicates) - estimate : Number.NaN,
    interval(coverage) {
      if (!(coverage > 0 && coverage < 1)) throw new RangeError(`interval: expected a coverage between 0 and 1, found ${coverage}`);
      return enough ? [quantile(replicates, (1 - coverage) / 2), quantile(replicates, (1 + coverage) / 2)] : [Number.NaN, Number.NaN];
    },
  };
}
