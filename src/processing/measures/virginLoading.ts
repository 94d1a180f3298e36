/**
 * Samples of first loading: those that push the sinkage past everything before. Unloading and reloading drop out, and
 * so does all that follows the greatest sinkage.
 *
 * An unloading counts when the sinkage falls back by more than six times the noise of the displacement, judged from
 * its second differences; a smaller step back is noise and stays.
 *
 * @param sinkageM   sinkage from contact on [m]
 * @returns          indices of the samples kept, rising; and of each unloading cut out the samples from its turning point until the sinkage is back there, half-open
 * @source           common practice
 * @checked          tests/processing/measures/virginLoading.test.ts
 */
export function virginLoading(sinkageM: readonly number[]): { readonly kept: readonly number[]; readonly unloadings: readonly (readonly [from: number, to: number])[] } {
  const step = 6 * noiseOf(sinkageM);
  let turned = 0;
  for (let i = 1; i < sinkageM.length; i++) if ((sinkageM[i] as number) > (sinkageM[turned] as number)) turned = i;
  const greatest = sinkageM[turned] as number;
  let end = 0;
  while ((sinkageM[end] as number) < greatest - step) end++;
  const kept: number[] = [];
  const unloadings: [number, number][] = [];
  let top = 0;
  let i = 0;
  while (i <= end) {
    const value = sinkageM[i] as number;
    if (value >= (sinkageM[top] as number)) top = i;
    if ((sinkageM[top] as number) - value > step) {
      while (kept.length > 0 && (kept[kept.length - 1] as number) > top) kept.pop();
      while (i <= end && (sinkageM[i] as number) < (sinkageM[top] as number)) i++;
      unloadings.push([top, i]);
      continue;
    }
    kept.push(i);
    i++;
  }
  return { kept, unloadings };
}

/** Noise of single samples: median size of the second differences, 0.6745 √6 sd for white noise on a steady motion. */
function noiseOf(values: readonly number[]): number {
  if (values.length < 3) return 0;
  const second = values.slice(2).map((value, i) => Math.abs(value - 2 * (values[i + 1] as number) + (values[i] as number)));
  second.sort((a, b) => a - b);
  return (second[Math.floor(second.length / 2)] as number) / (0.6745 * Math.sqrt(6));
}
