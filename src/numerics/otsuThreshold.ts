/** levels the values are counted in */
const levels = 256;

/**
 * The level that parts values into two groups best: the variance between the groups is greatest.
 *
 *   σ_b²(t) = ω₀ ω₁ (μ₀ − μ₁)²
 *
 * Counted in 256 levels from the least value to the greatest; of a plateau of equally good levels its middle. In unit of
 * the values. Two groups of very unequal size, or light that changes across a picture, lead it astray.
 *
 * @param values  at least 2; NaN is left out
 * @returns       t; values above belong to the upper group; NaN where all are alike
 * @source        N. Otsu, IEEE Trans. Systems, Man, and Cybernetics 9 (1979) 62 (from memory)
 * @checked       tests/numerics/otsuThreshold.test.ts
 */
export function otsuThreshold(values: ArrayLike<number>): number {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number;
    if (Number.isNaN(value)) continue;
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  if (!(high > low)) return Number.NaN;
  const counts = new Float64Array(levels);
  const width = (high - low) / levels;
  let total = 0;
  let sum = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number;
    if (Number.isNaN(value)) continue;
    const level = Math.min(levels - 1, Math.floor((value - low) / width));
    counts[level] = (counts[level] as number) + 1;
    total++;
    sum += level;
  }
  let below = 0;
  let belowSum = 0;
  let best = -1;
  let first = 0;
  let last = 0;
  for (let level = 0; level < levels - 1; level++) {
    below += counts[level] as number;
    belowSum += level * (counts[level] as number);
    if (below === 0 || below === total) continue;
    const between = below * (total - below) * (belowSum / below - (sum - belowSum) / (total - below)) ** 2;
    if (between > best * (1 + 1e-12)) [best, first] = [between, level];
    if (between >= best * (1 - 1e-12)) last = level;
  }
  return low + width * ((first + last) / 2 + 1);
}
