/** Constants of a quantity round a wheel, in its own unit. */
export interface FirstHarmonic {
  readonly mean: number;
  readonly cosine: number;
  readonly sine: number;
}

/**
 * A quantity round the circumference of a wheel, as its mean and one wave a turn.
 *
 *   y(θ) = ȳ + a cos θ + b sin θ     amplitude √(a² + b²), greatest at atan2(b, a)
 *
 * What an eccentric hub, an oval rim or one soft side does to first order; waves of the spokes' number are not in it.
 *
 * @param angleRad   θ, from the wheel's mark [rad]
 * @param constants  ȳ, a, b in the quantity's unit
 * @returns          y
 * @source           definition of a Fourier series
 * @checked          tests/fitting/circumference.test.ts
 */
export function firstHarmonic(angleRad: number, { mean, cosine, sine }: FirstHarmonic): number {
  return mean + cosine * Math.cos(angleRad) + sine * Math.sin(angleRad);
}
