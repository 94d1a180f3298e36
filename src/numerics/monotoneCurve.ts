/** A smooth curve through points that never turns between them. */
export interface MonotoneCurve {
  readonly value: (x: number) => number;
  readonly slope: (x: number) => number;
}

/**
 * Monotone piecewise cubic (Hermite) interpolation.
 *
 *   slope at an inner knot: weighted harmonic mean of the two secants, 0 where they differ in sign
 *   (w₁ + w₂)/d = w₁/Δ₁ + w₂/Δ₂,   w₁ = 2h₂ + h₁,   w₂ = h₂ + 2h₁;   at the ends the one-sided three-point slope, held to the shape
 *
 * Value in the unit of y, slope in that unit per unit of x. Rises where the points rise, falls where they fall, continuous with
 * its first derivative. Beyond the end knots the value stays as it is at the end and the slope is 0: nothing is carried further.
 *
 * @param x   knots, strictly rising, at least two
 * @param y   one value a knot
 * @returns   value and slope at any x
 * @throws    RangeError if there are fewer than two knots, as many values are missing, or the knots do not rise
 * @source    F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300; ends as in C. Moler, Numerical Computing with MATLAB, ch. 3; both from memory
 * @checked   tests/numerics/monotoneCurve.test.ts
 */
export function monotoneCurve(x: readonly number[], y: readonly number[]): MonotoneCurve {
  const n = x.length;
  if (n < 2 || y.length !== n) throw new RangeError(`monotoneCurve: expected at least two knots and as many values, found ${n} and ${y.length}`);
  const width = x.slice(1).map((right, i) => right - (x[i] as number));
  if (!width.every((h) => h > 0)) throw new RangeError("monotoneCurve: expected rising knots");
  const secant = width.map((h, i) => ((y[i + 1] as number) - (y[i] as number)) / h);
  const slopes = x.map((_, i) => {
    if (n === 2) return secant[0] as number;
    if (i === 0) return endSlope(width[0] as number, width[1] as number, secant[0] as number, secant[1] as number);
    if (i === n - 1) return endSlope(width[n - 2] as number, width[n - 3] as number, secant[n - 2] as number, secant[n - 3] as number);
    return innerSlope(width[i - 1] as number, width[i] as number, secant[i - 1] as number, secant[i] as number);
  });
  const read = <T>(at: number, outside: (end: number) => T, inside: (t: number, h: number, i: number) => T): T => {
    if (at < (x[0] as number)) return outside(0);
    if (at > (x[n - 1] as number)) return outside(n - 1);
    let i = 0;
    while (i < n - 2 && at > (x[i + 1] as number)) i++;
    const h = width[i] as number;
    return inside((at - (x[i] as number)) / h, h, i);
  };
  return {
    value: (at) =>
      read(at, (end) => y[end] as number, (t, h, i) => {
        const [a, b, da, db] = [y[i], y[i + 1], slopes[i], slopes[i + 1]] as [number, number, number, number];
        return a * (1 + 2 * t) * (1 - t) ** 2 + b * t * t * (3 - 2 * t) + h * t * (1 - t) * (da * (1 - t) - db * t);
      }),
    slope: (at) =>
      read(at, () => 0, (t, _, i) => {
        const [s, da, db] = [secant[i], slopes[i], slopes[i + 1]] as [number, number, number];
        return 6 * s * t * (1 - t) + da * (1 - t) * (1 - 3 * t) + db * t * (3 * t - 2);
      }),
  };
}

function innerSlope(before: number, after: number, left: number, right: number): number {
  if (left * right <= 0) return 0;
  const w1 = 2 * after + before;
  const w2 = after + 2 * before;
  return (w1 + w2) / (w1 / left + w2 / right);
}

function endSlope(near: number, far: number, first: number, second: number): number {
  const slope = ((2 * near + far) * first - near * second) / (near + far);
  if (Math.sign(slope) !== Math.sign(first)) return 0;
  return Math.sign(first) !== Math.sign(second) && Math.abs(slope) > 3 * Math.abs(first) ? 3 * first : slope;
}
