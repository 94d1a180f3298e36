/** how well the target is met, as a share of it */
const tolerance = 1e-10;
const mostSteps = 80;

/**
 * Where a rising function that is nearly a power law reaches a target.
 *
 *   secant steps in ln x and ln f; halving where they leave the bracket or do not halve the miss
 *
 * Unit of x and of f as the caller's. `f` is last called at the x returned. Values of f that are not above zero count as
 * far below the target, Infinity as far above it.
 *
 * @param f         rising, called with 0 < x ≤ upper
 * @param target    > 0
 * @param options   guess for x, exponent of the power law near it, upper end of x
 * @returns         x; null when f stays below the target up to the upper end, or jumps across it
 * @throws          RangeError if target, guess, exponent or upper end is not above zero
 * @source          secant method with bisection as its guard; textbook
 * @checked         tests/numerics/solveRising.test.ts
 */
export function solveRising(f: (x: number) => number, target: number, options: { readonly guess: number; readonly exponent: number; readonly upper: number }): number | null {
  const { guess, exponent, upper } = options;
  if (!(target > 0 && guess > 0 && exponent > 0 && upper > 0)) throw new RangeError(`solveRising: expected target, guess, exponent and upper end above 0, found ${target}, ${guess}, ${exponent}, ${upper}`);
  const aim = Math.log(target);
  const end = Math.log(upper);
  let [low, high] = [-Infinity, end];
  let [before, beforeMiss] = [Number.NaN, Number.NaN];
  let reachedAbove = false;
  for (let step = 0, at = Math.min(end, Math.log(guess)); step < mostSteps; step++) {
    const x = Math.min(upper, Math.exp(at));
    const value = f(x);
    const miss = value > 0 ? Math.log(value) - aim : -Infinity;
    if (Math.abs(miss) < tolerance) return x;
    if (miss < 0) {
      if (at === end) return null;
      low = at;
    } else {
      high = at;
      reachedAbove = true;
    }
    if (high - low < 1e-14) return null;
    const slope = (miss - beforeMiss) / (at - before);
    const next = Number.isFinite(slope) && slope > 0 ? at - miss / slope : at + (Number.isFinite(miss) ? -miss / exponent : miss < 0 ? 1 : -1);
    // a curve that the secant crawls along cannot hold it: where the miss is not halved, the bracket is
    const crawls = low > -Infinity && reachedAbove && !(Math.abs(miss) < 0.5 * Math.abs(beforeMiss)) && !Number.isNaN(beforeMiss);
    [before, beforeMiss] = [at, miss];
    at = crawls || next <= low || (next >= high && reachedAbove) ? (low === -Infinity ? high - 1 : (low + high) / 2) : Math.min(next, end);
  }
  return null;
}
