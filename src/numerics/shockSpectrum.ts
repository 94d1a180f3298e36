/** The largest answers of one oscillator to a shock. Accelerations in the unit of the shock. */
export interface ShockPoint {
  readonly frequencyHz: number;
  /** largest size of the absolute acceleration while the shock lasts */
  readonly primary: number;
  /** the same after its end */
  readonly residual: number;
  /** the larger of the two */
  readonly maximax: number;
  /** largest excursion upwards and, as a positive number, downwards, during and after */
  readonly positive: number;
  readonly negative: number;
  /** ω times the largest relative displacement, during and after [unit of the shock · s] */
  readonly pseudoVelocity: number;
}

/** Coefficients of y = b0 x + b1 x₋₁ + b2 x₋₂ − a1 y₋₁ − a2 y₋₂. */
export interface Recursion {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
}

/**
 * Absolute acceleration of a base-driven oscillator, exact for a base acceleration that runs straight between samples.
 *
 *   E = e^(−ζωT),  K = ω_d T,  ω_d = ω √(1 − ζ²),  C = E cos K,  S = E sin K,  S′ = S/K
 *   b = [1 − S′, 2 (S′ − C), E² − S′],   a = [1, −2C, E²]
 *
 * Dimensionless.
 *
 * @param frequencyHz  undamped natural frequency [Hz], above 0 and below half the rate
 * @param dampingRatio ζ, 0 ≤ ζ < 1
 * @param rateHz       sampling rate [Hz]
 * @returns            { b0, b1, b2, a1, a2 }
 * @throws             RangeError if the frequency or the damping ratio is outside its range
 * @source             ISO 18431-4; D. O. Smallwood, Shock and Vibration Bulletin 51 (1981) (both from memory)
 * @checked            tests/numerics/shockSpectrum.test.ts
 */
export function accelerationRecursion(frequencyHz: number, dampingRatio: number, rateHz: number): Recursion {
  const { omega, poles, c, e2, k } = oscillator(frequencyHz, dampingRatio, rateHz);
  const share = (Math.exp((-dampingRatio * omega) / rateHz) * Math.sin(k)) / k;
  return { b0: 1 - share, b1: 2 * (share - c), b2: e2 - share, ...poles };
}

/**
 * Relative displacement of the same oscillator times ω², exact in the same sense; over ω it is the pseudo-velocity.
 *
 *   r(t): answer of r″ + 2ζω r′ + ω² r = ω² t from rest;  with r₁ = r(T), r₂ = r(2T), r₃ = r(3T) and a as for the acceleration
 *   b = [r₁, r₂ − 2r₁ + a₁ r₁, r₃ − 2r₂ + r₁ + a₁ (r₂ − 2r₁) + a₂ r₁] / T
 *
 * r by its power series: the closed form loses all figures at low frequencies. Sign: positive where the base accelerates
 * upwards and the mass lags behind. Dimensionless.
 *
 * @param frequencyHz  undamped natural frequency [Hz], above 0 and below half the rate
 * @param dampingRatio ζ, 0 ≤ ζ < 1
 * @param rateHz       sampling rate [Hz]
 * @returns            { b0, b1, b2, a1, a2 }
 * @throws             RangeError if the frequency or the damping ratio is outside its range
 * @source             ramp invariance as in ISO 18431-4 (from memory); worked out here, held against an exact state solution
 * @checked            tests/numerics/shockSpectrum.test.ts
 */
export function displacementRecursion(frequencyHz: number, dampingRatio: number, rateHz: number): Recursion {
  const { omega, poles } = oscillator(frequencyHz, dampingRatio, rateHz);
  const { a1, a2 } = poles;
  const step = omega / rateHz;
  const [r1, r2, r3] = [1, 2, 3].map((n) => rampAnswer(n * step, dampingRatio) / step) as [number, number, number];
  return { b0: r1, b1: r2 - 2 * r1 + a1 * r1, b2: r3 - 2 * r2 + r1 + a1 * (r2 - 2 * r1) + a2 * r1, a1, a2 };
}

/** ω r(t) at ωt = θ, from Σ cₙ θⁿ with (n+2)(n+1) cₙ₊₂ + 2ζ (n+1) cₙ₊₁ + cₙ = [n = 1]. */
function rampAnswer(theta: number, ratio: number): number {
  let before = 0;
  let here = 1 / 6;
  let power = theta ** 3;
  let sum = 0;
  for (let n = 3; n < 80; n++) {
    sum += here * power;
    const next = -(2 * ratio * n * here + before) / ((n + 1) * n);
    before = here;
    here = next;
    power *= theta;
  }
  return sum;
}

function oscillator(frequencyHz: number, dampingRatio: number, rateHz: number) {
  if (!(frequencyHz > 0 && frequencyHz < rateHz / 2)) throw new RangeError(`shockSpectrum: expected a frequency between 0 and half the sampling rate of ${rateHz} Hz, found ${frequencyHz} Hz`);
  if (!(dampingRatio >= 0 && dampingRatio < 1)) throw new RangeError(`shockSpectrum: expected a damping ratio from 0 to below 1, found ${dampingRatio}`);
  const omega = 2 * Math.PI * frequencyHz;
  const damped = omega * Math.sqrt(1 - dampingRatio * dampingRatio);
  const k = damped / rateHz;
  const e = Math.exp((-dampingRatio * omega) / rateHz);
  const c = e * Math.cos(k);
  return { omega, damped, k, c, e2: e * e, poles: { a1: -2 * c, a2: e * e } };
}

/**
 * Shock response spectrum: the largest answers of single oscillators on a base that follows the shock.
 *
 *   ÿ = 2ζω (u̇ − ẏ) + ω² (u − y),  ü the shock: ramp-invariant recursions give ÿ and ω² (u − y)
 *   primary: largest sample while the shock lasts;  residual: largest value of the free decay after it, exact
 *   maximax = max(primary, residual);  pseudo-velocity = ω max |u − y|
 *
 * Unit of the shock; pseudo-velocity unit · s. The shock is zero before its first and after its last sample, straight
 * between samples. A primary maximum between two samples is missed by at most 1 − cos(π f/f_s) of itself: 4.9 % at ten
 * samples per period. Holds for what stands on the hub and does not act back on it.
 *
 * @param shock         base acceleration, equally spaced, at least 2 samples, none missing
 * @param rateHz        sampling rate [Hz]
 * @param dampingRatio  ζ; Q = 1/(2ζ)
 * @param frequenciesHz undamped natural frequencies [Hz], each below half the rate
 * @returns             one ShockPoint per frequency
 * @throws              RangeError if there are fewer than 2 samples, one is not finite, or a frequency or ζ is outside its range
 * @source              ISO 18431-4 (from memory)
 * @checked             tests/numerics/shockSpectrum.test.ts
 */
export function shockSpectrum(shock: ArrayLike<number>, rateHz: number, dampingRatio: number, frequenciesHz: ArrayLike<number>): ShockPoint[] {
  if (shock.length < 2) throw new RangeError(`shockSpectrum: expected at least two samples, found ${shock.length}`);
  for (let i = 0; i < shock.length; i++) if (!Number.isFinite(shock[i])) throw new RangeError(`shockSpectrum: expected finite samples, found ${shock[i]} at index ${i}`);
  return Array.from(frequenciesHz, (frequencyHz): ShockPoint => {
    const acceleration = extremes(shock, accelerationRecursion(frequencyHz, dampingRatio, rateHz), frequencyHz, dampingRatio, rateHz);
    const displacement = extremes(shock, displacementRecursion(frequencyHz, dampingRatio, rateHz), frequencyHz, dampingRatio, rateHz);
    const primary = Math.max(acceleration.during[0], acceleration.during[1]);
    const residual = Math.max(acceleration.after[0], acceleration.after[1]);
    return {
      frequencyHz,
      primary,
      residual,
      maximax: Math.max(primary, residual),
      positive: Math.max(acceleration.during[0], acceleration.after[0]),
      negative: Math.max(acceleration.during[1], acceleration.after[1]),
      pseudoVelocity: Math.max(...displacement.during, ...displacement.after) / (2 * Math.PI * frequencyHz),
    };
  });
}

type Excursion = readonly [up: number, down: number];

/** Largest excursions while the shock lasts and in the free decay after it. */
function extremes(shock: ArrayLike<number>, { b0, b1, b2, a1, a2 }: Recursion, frequencyHz: number, ratio: number, rateHz: number): { readonly during: Excursion; readonly after: Excursion } {
  let [up, down] = [0, 0];
  let [x1, x2, y1, y2] = [0, 0, 0, 0];
  const step = (x: number): number => {
    const y = b0 * x + b1 * x1 + b2 * x2 - a1 * y1 - a2 * y2;
    [x2, x1, y2, y1] = [x1, x, y1, y];
    return y;
  };
  for (let i = 0; i < shock.length; i++) {
    const y = step(shock[i] as number);
    if (y > up) up = y;
    else if (-y > down) down = -y;
  }
  return { during: [up, down], after: freeDecay(step(0), step(0), frequencyHz, ratio, rateHz) };
}

/** Largest excursions of e^(−ζωt)(P cos ω_d t + R sin ω_d t) from t = 0 on, from its values at 0 and T. */
function freeDecay(first: number, second: number, frequencyHz: number, ratio: number, rateHz: number): Excursion {
  const { omega, damped, k } = oscillator(frequencyHz, ratio, rateHz);
  const decay = ratio * omega;
  const sine = (second * Math.exp(decay / rateHz) - first * Math.cos(k)) / Math.sin(k);
  const at = (t: number): number => Math.exp(-decay * t) * (first * Math.cos(damped * t) + sine * Math.sin(damped * t));
  // Where the slope is zero; the next turning point lies half a period on, on the other side.
  const angle = Math.atan2(sine * damped - first * decay, first * damped + sine * decay);
  const turning = (angle < 0 ? angle + Math.PI : angle) / damped;
  const values = [first, at(turning), at(turning + Math.PI / damped)];
  return [Math.max(0, ...values), Math.max(0, ...values.map((value) => -value))];
}
