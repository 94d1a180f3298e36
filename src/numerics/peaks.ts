/** A local maximum. */
export interface Peak {
  readonly index: number;
  readonly value: number;
  /** how far the signal falls on both sides, at least, before it rises above the peak */
  readonly prominence: number;
}

/**
 * Local maxima that stand out by a minimum prominence, in order of index.
 *
 *   prominence = value − max( lowest to the left, lowest to the right ), each side up to a higher sample or the end
 *
 * Unit of the samples. A flat top counts once, at its middle (the left of two). End samples are no peaks. A NaN ends the
 * signal on its side; what lies beyond is searched on its own. For minima pass the negated samples.
 *
 * @param samples the signal
 * @param options minimumProminence ≥ 0, unit of the samples
 * @returns       { index, value, prominence } of each peak
 * @throws        RangeError if the minimum prominence is not a number ≥ 0
 * @source        definition of topographic prominence, as SciPy's find_peaks uses it
 * @checked       tests/numerics/peaks.test.ts
 */
export function findPeaks(samples: ArrayLike<number>, options: { readonly minimumProminence: number }): Peak[] {
  const { minimumProminence } = options;
  if (!(minimumProminence >= 0)) throw new RangeError(`findPeaks: expected a minimum prominence of at least 0, found ${minimumProminence}`);
  const n = samples.length;
  const left = lowestBefore(samples, 0, n, 1);
  const right = lowestBefore(samples, n - 1, -1, -1);
  const peaks: Peak[] = [];
  for (let i = 1; i < n - 1; i++) {
    const value = samples[i] as number;
    if (!((samples[i - 1] as number) < value)) continue;
    let end = i;
    while (end + 1 < n && samples[end + 1] === value) end++;
    if (end + 1 < n && (samples[end + 1] as number) < value) {
      const index = (i + end) >>> 1;
      const prominence = value - Math.max(left[index] as number, right[index] as number);
      if (prominence >= minimumProminence) peaks.push({ index, value, prominence });
    }
    i = end;
  }
  return peaks;
}

/** For each sample, the lowest value on the way in from `from` since the last strictly higher sample or NaN; by a falling stack, in linear time. */
function lowestBefore(samples: ArrayLike<number>, from: number, to: number, step: 1 | -1): Float64Array {
  const lowest = new Float64Array(samples.length);
  const heights: number[] = [];
  const lows: number[] = [];
  for (let i = from; i !== to; i += step) {
    const value = samples[i] as number;
    if (Number.isNaN(value)) {
      heights.length = 0;
      lows.length = 0;
      continue;
    }
    let low = value;
    while (heights.length > 0 && (heights[heights.length - 1] as number) <= value) {
      heights.pop();
      low = Math.min(low, lows.pop() as number);
    }
    heights.push(value);
    lows.push(low);
    lowest[i] = low;
  }
  return lowest;
}
