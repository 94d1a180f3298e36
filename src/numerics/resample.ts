/**
 * Value of a sampled signal at given times, on the straight line between its neighbours.
 *
 *   v(t) = vᵢ + (t − tᵢ)/(tᵢ₊₁ − tᵢ) · (vᵢ₊₁ − vᵢ),   tᵢ ≤ t ≤ tᵢ₊₁
 *
 * Unit of the values. Never extrapolates: NaN before the first and after the last time, and NaN beside a missing value
 * unless t falls exactly on a sample that is there. Fastest when the wanted times rise.
 *
 * @param times  strictly rising [s]
 * @param values as many; NaN = missing
 * @param at     one time or many [s]
 * @returns      one value, or a Float64Array of as many
 * @throws       RangeError if times and values differ in length
 * @source       definition
 * @checked      tests/numerics/resample.test.ts
 */
export function interpolateAt(times: ArrayLike<number>, values: ArrayLike<number>, at: number): number;
export function interpolateAt(times: ArrayLike<number>, values: ArrayLike<number>, at: ArrayLike<number>): Float64Array;
export function interpolateAt(times: ArrayLike<number>, values: ArrayLike<number>, at: number | ArrayLike<number>): number | Float64Array {
  if (times.length !== values.length) throw new RangeError(`interpolateAt: expected times and values of one length, found ${times.length} and ${values.length}`);
  if (typeof at === "number") return valueAt(times, values, at, indexBefore(times, at, 0));
  const result = new Float64Array(at.length);
  let index = 0;
  for (let k = 0; k < at.length; k++) {
    const t = at[k] as number;
    index = indexBefore(times, t, index);
    result[k] = valueAt(times, values, t, index);
    if (index < 0) index = 0;
  }
  return result;
}

/** Last index whose time is ≤ t, or −1; looks near `hint` first. */
function indexBefore(times: ArrayLike<number>, t: number, hint: number): number {
  const n = times.length;
  if (n === 0 || !(t >= (times[0] as number))) return -1;
  let low = 0;
  let high = n;
  if (hint < n && (times[hint] as number) <= t) {
    low = hint;
    let stride = 1;
    while (low + stride < n && (times[low + stride] as number) <= t) {
      low += stride;
      stride *= 2;
    }
    high = Math.min(n, low + stride);
  }
  while (high - low > 1) {
    const middle = (low + high) >>> 1;
    if ((times[middle] as number) <= t) low = middle;
    else high = middle;
  }
  return low;
}

function valueAt(times: ArrayLike<number>, values: ArrayLike<number>, t: number, index: number): number {
  if (index < 0) return Number.NaN;
  const before = times[index] as number;
  const value = values[index] as number;
  if (t === before) return value;
  if (index + 1 >= times.length) return Number.NaN;
  const share = (t - before) / ((times[index + 1] as number) - before);
  return value + share * ((values[index + 1] as number) - value);
}

/** A signal thinned for a figure. */
export interface Thinned {
  readonly times: Float64Array;
  readonly values: Float64Array;
}

/**
 * Fewer points for a drawing that looks the same: the lowest and the highest of each bucket, in their order.
 *
 *   buckets of equal sample count; first and last sample always kept; between two kept points with missing
 *   samples (NaN) between them, one NaN stays, so that a drawn line breaks where the signal does
 *
 * Unit of the values. No peak is lost: every bucket's extremes are among the points. For the eye only, never for a measure.
 *
 * @param times         rising [s]
 * @param values        as many; NaN = missing
 * @param maximumPoints ≥ 8; not exceeded
 * @returns             { times, values }; copies of the input when it is short enough
 * @throws              RangeError if the lengths differ or maximumPoints is below 8
 * @source              common practice (min–max decimation)
 * @checked             tests/numerics/resample.test.ts
 */
export function thinForDrawing(times: ArrayLike<number>, values: ArrayLike<number>, maximumPoints: number): Thinned {
  const n = values.length;
  if (times.length !== n) throw new RangeError(`thinForDrawing: expected times and values of one length, found ${times.length} and ${n}`);
  if (!(maximumPoints >= 8)) throw new RangeError(`thinForDrawing: expected at least 8 points, found ${maximumPoints}`);
  if (n <= maximumPoints) return { times: Float64Array.from(times), values: Float64Array.from(values) };
  const kept = keptIndices(values, thinningBuckets(values, maximumPoints));
  return { times: Float64Array.from(kept, (index) => times[index] as number), values: Float64Array.from(kept, (index) => values[index] as number) };
}

/**
 * How many buckets `thinForDrawing` makes.
 *
 *   ⌊(maximumPoints − 2)/2⌋ without gaps, ⌊(maximumPoints − 4)/4⌋ with: each bucket brings 2 points and at most 2 gap marks
 *
 * @param values        NaN = missing
 * @param maximumPoints ≥ 8
 * @returns             number of buckets
 * @source              definition
 * @checked             tests/numerics/resample.test.ts
 */
export function thinningBuckets(values: ArrayLike<number>, maximumPoints: number): number {
  let hasGaps = false;
  for (let i = 0; i < values.length && !hasGaps; i++) hasGaps = Number.isNaN(values[i]);
  return Math.floor((maximumPoints - (hasGaps ? 4 : 2)) / (hasGaps ? 4 : 2));
}

function keptIndices(values: ArrayLike<number>, buckets: number): number[] {
  const n = values.length;
  const kept = [0];
  let lastNaN = -1; // latest missing sample seen up to the point being added
  let scanned = 0;
  const keep = (index: number): void => {
    const before = kept[kept.length - 1] as number;
    if (index <= before) return;
    for (; scanned < index; scanned++) if (Number.isNaN(values[scanned])) lastNaN = scanned;
    if (lastNaN > before && !Number.isNaN(values[before])) kept.push(lastNaN);
    kept.push(index);
  };
  for (let bucket = 0; bucket < buckets; bucket++) {
    const from = Math.floor((bucket * n) / buckets);
    const to = Math.floor(((bucket + 1) * n) / buckets);
    let lowest = -1;
    let highest = -1;
    for (let i = from; i < to; i++) {
      const value = values[i] as number;
      if (Number.isNaN(value)) continue;
      if (lowest < 0 || value < (values[lowest] as number)) lowest = i;
      if (highest < 0 || value > (values[highest] as number)) highest = i;
    }
    if (lowest < 0) continue;
    keep(Math.min(lowest, highest));
    keep(Math.max(lowest, highest));
  }
  keep(n - 1);
  return kept;
}
