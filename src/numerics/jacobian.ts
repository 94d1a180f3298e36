/** Partial derivatives of a model by its parameters, at one x. */
export type Jacobian = (x: number, parameters: readonly number[]) => readonly number[];

const stepShare = Math.cbrt(2 ** -52);
const smallestShare = 1e-3;

/**
 * Slopes of a model by its parameters, by central differences.
 *
 *   ∂f/∂pⱼ ≈ ( f(pⱼ + h) − f(pⱼ − h) ) / 2h,   h = ∛ε · max(|pⱼ|, typicalⱼ/1000)
 *
 * Unit of y per unit of the parameter; relative error near ε^(2/3) ≈ 4e-11 for a smooth model. One-sided where the other
 * side lies beyond a bound or the model is not finite there; NaN where neither side is finite.
 *
 * @param model      f(x, p)
 * @param x          where
 * @param parameters p, finite
 * @param typical    sizes to take the step from where a parameter is far smaller, lest the step vanish in rounding; 1 where both are zero
 * @param lower      bounds of p, −Infinity for none
 * @param upper      bounds of p, Infinity for none
 * @param matrix     receives the slopes, one column of x.length values per parameter
 * @returns          nothing; the result is in `matrix`
 * @source           Dennis & Schnabel, Numerical Methods for Unconstrained Optimization, section 5.4 (from memory)
 * @checked          tests/numerics/jacobian.test.ts
 */
export function centralJacobian(
  model: (x: number, parameters: readonly number[]) => number,
  x: ArrayLike<number>,
  parameters: readonly number[],
  typical: readonly number[],
  lower: readonly number[],
  upper: readonly number[],
  matrix: Float64Array,
): void {
  const n = x.length;
  const moved = [...parameters];
  for (let j = 0; j < parameters.length; j++) {
    const value = parameters[j] as number;
    const step = stepShare * (Math.max(Math.abs(value), smallestShare * Math.abs(typical[j] as number)) || 1);
    const above = Math.min(upper[j] as number, value + step);
    const below = Math.max(lower[j] as number, value - step);
    for (let i = 0; i < n; i++) {
      const at = x[i] as number;
      moved[j] = above;
      const high = model(at, moved);
      moved[j] = below;
      const low = model(at, moved);
      matrix[j * n + i] = Number.isFinite(high) && Number.isFinite(low) ? (high - low) / (above - below) : oneSided(model(at, parameters), high, low, above - value, value - below);
    }
    moved[j] = value;
  }
}

function oneSided(middle: number, high: number, low: number, up: number, down: number): number {
  if (Number.isFinite(high)) return (high - middle) / up;
  if (Number.isFinite(low)) return (middle - low) / down;
  return Number.NaN;
}
