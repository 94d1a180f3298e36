/**
 * Centred moving mean over 2·half + 1 samples, shorter at the ends. Only for finding events: nothing is measured on it.
 * A missing sample makes the means around it missing.
 */
export function movingMean(samples: ArrayLike<number>, half: number): Float64Array {
  const n = samples.length;
  const out = new Float64Array(n);
  let sum = 0;
  let missing = 0;
  const take = (index: number, sign: 1 | -1): void => {
    const value = samples[index] as number;
    if (Number.isNaN(value)) missing += sign;
    else sum += sign * value;
  };
  for (let i = 0; i < Math.min(half, n); i++) take(i, 1);
  for (let i = 0; i < n; i++) {
    if (i + half < n) take(i + half, 1);
    if (i - half - 1 >= 0) take(i - half - 1, -1);
    const count = Math.min(n - 1, i + half) - Math.max(0, i - half) + 1;
    out[i] = missing > 0 ? Number.NaN : sum / count;
  }
  return out;
}
