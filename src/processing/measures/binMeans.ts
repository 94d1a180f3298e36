/**
 * Thins pairs to at most so many points: means over bins of equal width in x.
 *
 * Pairs that are few enough stay as they are. Bins without a pair give none.
 *
 * @param x       abscissae, any order, all finite
 * @param y       as many ordinates
 * @param most    greatest number of points, at least 1
 * @returns       points in order of x when thinned
 * @source        common practice
 * @checked       tests/processing/measures/binMeans.test.ts
 */
export function binMeans(x: readonly number[], y: readonly number[], most: number): { readonly x: number; readonly y: number }[] {
  if (x.length <= most) return x.map((value, i) => ({ x: value, y: y[i] as number }));
  let low = Infinity;
  let high = -Infinity;
  for (const value of x) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  const width = (high - low) / most;
  const bins = Array.from({ length: most }, () => ({ x: 0, y: 0, count: 0 }));
  x.forEach((value, i) => {
    const bin = bins[width > 0 ? Math.min(most - 1, Math.floor((value - low) / width)) : 0] as { x: number; y: number; count: number };
    bin.x += value;
    bin.y += y[i] as number;
    bin.count++;
  });
  return bins.filter((bin) => bin.count > 0).map((bin) => ({ x: bin.x / bin.count, y: bin.y / bin.count }));
}
