/**
 * Integral by the trapezoid rule.
 *
 *   ∫ y dx ≈ Σ (xᵢ₊₁ − xᵢ)(yᵢ + yᵢ₊₁)/2
 *
 * Unit of y times unit of x. Exact for a piecewise straight y; the error of a smooth one falls with the square of the
 * spacing. A NaN makes the result NaN.
 *
 * @param x abscissas, or their constant spacing as one number
 * @param y at least one value
 * @returns integral from the first to the last sample; 0 for one sample
 * @throws  RangeError if the lengths differ or y is empty
 * @source  definition
 * @checked tests/numerics/integrate.test.ts
 */
export function trapezoid(x: ArrayLike<number> | number, y: ArrayLike<number>): number {
  requirePairs("trapezoid", x, y);
  let total = 0;
  for (let i = 1; i < y.length; i++) total += area(x, y, i);
  return total;
}

/**
 * Running integral by the trapezoid rule.
 *
 *   Iₖ = Σᵢ₌₁ᵏ (xᵢ − xᵢ₋₁)(yᵢ₋₁ + yᵢ)/2,   I₀ = 0
 *
 * Unit of y times unit of x. A NaN makes all later values NaN: what was missed cannot be known.
 *
 * @param x abscissas, or their constant spacing as one number
 * @param y at least one value
 * @returns as many values as y, the first 0
 * @throws  RangeError if the lengths differ or y is empty
 * @source  definition
 * @checked tests/numerics/integrate.test.ts
 */
export function cumulativeTrapezoid(x: ArrayLike<number> | number, y: ArrayLike<number>): Float64Array {
  requirePairs("cumulativeTrapezoid", x, y);
  const running = new Float64Array(y.length);
  let total = 0;
  for (let i = 1; i < y.length; i++) {
    total += area(x, y, i);
    running[i] = total;
  }
  return running;
}

function area(x: ArrayLike<number> | number, y: ArrayLike<number>, i: number): number {
  const width = typeof x === "number" ? x : (x[i] as number) - (x[i - 1] as number);
  return width * 0.5 * ((y[i - 1] as number) + (y[i] as number));
}

function requirePairs(who: string, x: ArrayLike<number> | number, y: ArrayLike<number>): void {
  if (y.length === 0) throw new RangeError(`${who}: expected at least one sample, found none`);
  if (typeof x !== "number" && x.length !== y.length) throw new RangeError(`${who}: expected x and y of one length, found ${x.length} and ${y.length}`);
}
