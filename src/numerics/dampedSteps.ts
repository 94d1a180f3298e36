import { backSubstitute, householder, triangle } from "./householder.ts";

/** Steps from one place, as the tangents of the curve there tell them. */
export interface DampedSteps {
  /** takes a new place: slopes by column and residuals, both left as they are; which parameters may move; the size that scales each */
  readonly place: (jacobian: Float64Array, residuals: Float64Array, free: readonly boolean[], scales: Float64Array) => void;
  /** δ at a damping; zero for parameters that may not move. The same array each time */
  readonly step: (damping: number) => Float64Array;
  /** what the tangents promise the sum of squares to fall by for a move */
  readonly fall: (moved: readonly number[]) => number;
  /** the least damping from `first` on, in powers of four, whose step is no longer than these parameters in the scaled measure */
  readonly cautious: (parameters: readonly number[], first: number) => number;
}

/**
 * Damped least-squares steps of one fit.
 *
 *   (JᵀJ + λ D²) δ = Jᵀr   by QR of R stacked on √λ D,   J = Q R        fall = 2 δᵀJᵀr − |Jδ|²,   JᵀJ = RᵀR
 *
 * Unit of the parameters. J is turned into R once a place; each damping then costs only a small problem. All arrays are made
 * once a fit: a short fit spends longer on fresh arrays than on its sums.
 *
 * @param n      number of residuals
 * @param count  number of parameters
 * @returns      { place, step, fall, cautious }; `place` comes first
 * @source       Moré, Lecture Notes in Mathematics 630 (1978) 105 (from memory)
 * @checked      tests/numerics/curveFit.test.ts
 */
export function dampedSteps(n: number, count: number): DampedSteps {
  const [columns, right] = [new Float64Array(n * count), new Float64Array(n)];
  const [stacked, stackedRight] = [new Float64Array(2 * count * count), new Float64Array(2 * count)];
  const [tangents, damped] = [triangle(count), triangle(count)];
  const { r, turned } = tangents;
  const small = new Float64Array(count);
  const delta = new Float64Array(count);
  // numbers of the parameters that may move, the first `size` of them
  const names = new Int32Array(count);
  let size = 0;
  let scales: Float64Array = new Float64Array(count);

  const place: DampedSteps["place"] = (jacobian, residuals, free, sizes) => {
    size = 0;
    for (let j = 0; j < count; j++) {
      if (!free[j]) continue;
      for (let i = 0; i < n; i++) columns[size * n + i] = jacobian[j * n + i] as number;
      names[size++] = j;
    }
    right.set(residuals);
    scales = sizes;
    householder(columns, right, n, size, tangents);
  };

  const step: DampedSteps["step"] = (damping) => {
    stacked.fill(0);
    for (let k = 0; k < size; k++) {
      for (let i = 0; i <= k; i++) stacked[k * 2 * size + i] = r[k * size + i] as number;
      stacked[k * 2 * size + size + k] = Math.sqrt(damping) * (scales[names[k] as number] as number);
      stackedRight[k] = turned[k] as number;
      stackedRight[size + k] = 0;
    }
    householder(stacked, stackedRight, 2 * size, size, damped);
    backSubstitute(damped.r, damped.turned, size, small);
    delta.fill(0);
    for (let k = 0; k < size; k++) delta[names[k] as number] = small[k] as number;
    return delta;
  };

  const fall: DampedSteps["fall"] = (moved) => {
    let total = 0;
    for (let i = 0; i < size; i++) {
      let product = 0;
      for (let k = i; k < size; k++) product += (r[k * size + i] as number) * (moved[names[k] as number] as number);
      total += product * (2 * (turned[i] as number) - product);
    }
    return total;
  };

  const length = (vector: ArrayLike<number>): number => Math.hypot(...Array.from({ length: size }, (_, k) => (scales[names[k] as number] as number) * (vector[names[k] as number] as number)));
  const cautious: DampedSteps["cautious"] = (parameters, first) => {
    const longest = length(parameters);
    let damping = first;
    while (longest > 0 && damping < 1e6 && !(length(step(damping)) <= longest)) damping *= 4;
    return damping;
  };
  return { place, step, fall, cautious };
}
