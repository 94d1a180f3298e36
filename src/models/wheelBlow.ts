/** A wheel in contact with ground that does not yield, per mass of what falls. */
export interface WheelContact {
  /** A: push per mass at the reference compression, slowly pressed [m/s²] */
  readonly push: number;
  /** p: exponent of the compression [1] */
  readonly exponent: number;
  /** β: share by which the push grows at the reference speed, and shrinks on the way back [1] */
  readonly loss: number;
  /** ζ: viscous part, as damping ratio about the stiffness A/d₀ [1] */
  readonly viscous: number;
  /** d₀ [m] and v₀ [m/s] */
  readonly referenceM: number;
  readonly referenceMps: number;
}

/** What one blow does. */
export interface Blow {
  /** largest coordinate acceleration of the hub [m/s²] */
  readonly peakAcceleration: number;
  /** largest compression [m] */
  readonly compression: number;
  /** from first touch to lift-off [s] */
  readonly duration: number;
  /** speed at lift-off over speed at touch [1] */
  readonly restitution: number;
}

/** Integration steps in the time a blow takes. */
const steps = 60;
/** A wheel still pushed after this many times the expected duration stays on the ground. */
const patience = 20;

/**
 * Push of the ground per mass of what falls: a power of the compression that grows with the speed of compression, and a
 * viscous part.
 *
 *   F/m = A (d/d₀)^p (1 + β ḋ/v₀) + 2ζ √(A/d₀) ḋ,   never below zero
 *
 * [m/s²]. With ζ = 0 the contact of Hunt and Crossley, whose loss vanishes with the speed; with β = 0 and p = 1 a spring and a
 * damper side by side, whose restitution does not depend on the speed. Holds for blows straight down on hard ground, one
 * contact without ringing of the wheel's own parts, and nothing that yields for good.
 *
 * @param compressionM d [m], ≥ 0
 * @param rateMps      ḋ [m/s], positive while the compression grows
 * @param contact      the constants
 * @returns            F/m [m/s²]
 * @source             K. H. Hunt and F. R. E. Crossley, J. Applied Mechanics 42 (1975) 440 (from memory); viscous part: spring and damper side by side
 * @checked            tests/models/wheelBlow.test.ts
 */
export function contactPush(compressionM: number, rateMps: number, contact: WheelContact): number {
  return compressionM < 0 ? 0 : Math.max(0, rawPush(compressionM, rateMps, contact));
}

function rawPush(compressionM: number, rateMps: number, { push, exponent, loss, viscous, referenceM, referenceMps }: WheelContact): number {
  // Odd below zero, so that the end of a blow without damping is a change of sign.
  return push * Math.sign(compressionM) * Math.abs(compressionM / referenceM) ** exponent * (1 + (loss * rateMps) / referenceMps) + 2 * viscous * Math.sqrt(push / referenceM) * rateMps;
}

/**
 * One blow of the wheel, from first touch to lift-off.
 *
 *   d̈ = g − F/m,   d(0) = 0,  ḋ(0) = v₁;   ends where F comes down to zero on the way back
 *
 * Classical fourth-order Runge–Kutta in steps of a sixtieth of the expected duration 3 d_e/v₁, d_e from ½ v₁² = A d₀
 * (d_e/d₀)^(p+1)/(p+1). Peaks by a parabola through three steps. Errors below 10⁻⁴ of each quantity for 1 ≤ p ≤ 3.
 *
 * @param contact  the constants
 * @param speedMps v₁ [m/s], above 0
 * @param gravity  g [m/s²]
 * @returns        the Blow; duration and restitution NaN when the wheel does not leave the ground, all NaN when the constants make no blow
 * @source         Newton's second law; W. Kutta, Z. Math. Phys. 46 (1901) 435 (from memory)
 * @checked        tests/models/wheelBlow.test.ts
 */
export function wheelBlow(contact: WheelContact, speedMps: number, gravity: number): Blow {
  const { push, exponent, referenceM } = contact;
  const expected = referenceM * ((0.5 * speedMps ** 2 * (exponent + 1)) / (push * referenceM)) ** (1 / (exponent + 1));
  const step = (3 * expected) / speedMps / steps;
  const none: Blow = { peakAcceleration: Number.NaN, compression: Number.NaN, duration: Number.NaN, restitution: Number.NaN };
  if (!(step > 0 && Number.isFinite(step))) return none;
  let d = 0;
  let v = speedMps;
  let f = contactPush(0, v, contact);
  let before = f;
  let largest = f;
  let compression = Number.NaN;
  for (let i = 0; i < patience * steps; i++) {
    const a1 = gravity - f;
    const v2 = v + 0.5 * step * a1;
    const a2 = gravity - contactPush(d + 0.5 * step * v, v2, contact);
    const v3 = v + 0.5 * step * a2;
    const a3 = gravity - contactPush(d + 0.5 * step * v2, v3, contact);
    const v4 = v + step * a3;
    const a4 = gravity - contactPush(d + step * v3, v4, contact);
    const nextD = d + (step / 6) * (v + 2 * v2 + 2 * v3 + v4);
    const nextV = v + (step / 6) * (a1 + 2 * a2 + 2 * a3 + a4);
    const raw = rawPush(nextD, nextV, contact);
    if (v > 0 && nextV <= 0) {
      const share = zeroOf((s) => between(v, a1 * step, nextV, (gravity - Math.max(0, raw)) * step, s));
      compression = between(d, v * step, nextD, nextV * step, share);
    }
    if (f >= before && f >= raw) largest = Math.max(largest, vertex(before, f, raw));
    if (nextV < 0 && raw <= 0) {
      const share = zeroOf((s) => rawPush(between(d, v * step, nextD, nextV * step, s), between(v, a1 * step, nextV, (gravity - Math.max(0, raw)) * step, s), contact));
      const leaving = between(v, a1 * step, nextV, (gravity - Math.max(0, raw)) * step, share);
      return { peakAcceleration: largest - gravity, compression, duration: (i + share) * step, restitution: -leaving / speedMps };
    }
    before = f;
    d = nextD;
    v = nextV;
    f = Math.max(0, raw);
    largest = Math.max(largest, f);
  }
  return { ...none, peakAcceleration: largest - gravity, compression };
}

/** Cubic through two values with their slopes, at a share of the step. */
function between(from: number, fromSlope: number, to: number, toSlope: number, share: number): number {
  const left = 1 - share;
  return left * left * ((1 + 2 * share) * from + share * fromSlope) + share * share * ((1 + 2 * left) * to - left * toSlope);
}

/** Where a function that is positive at 0 and not at 1 changes its sign. */
function zeroOf(f: (share: number) => number): number {
  let low = 0;
  let high = 1;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (f(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Top of the parabola through three equally spaced values, the middle one the largest. */
function vertex(left: number, middle: number, right: number): number {
  const bend = left - 2 * middle + right;
  return bend < 0 ? middle - (left - right) ** 2 / (8 * bend) : middle;
}
