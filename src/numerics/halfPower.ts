/** A resonance seen by the width of its peak. */
export interface HalfPower {
  readonly peakHz: number;
  /** where the magnitude has fallen to peak/√2 on either side */
  readonly lowerHz: number;
  readonly upperHz: number;
  /** (f₂ − f₁) / (2 f_peak) */
  readonly dampingRatio: number;
}

/**
 * Damping ratio from the half-power bandwidth of a resonance peak.
 *
 *   ζ ≈ (f₂ − f₁) / (2 f_peak),   |X(f₁)| = |X(f₂)| = |X(f_peak)| / √2
 *
 * [1]. The peak is the largest line, made finer by a parabola through three lines; the half-power points are straight between
 * lines in |X|². Holds for one lightly damped mode that stands clear of others; on the displacement response of a linear
 * oscillator the formula is 0.5 % high at ζ = 0.05 and 2 % at 0.1. A record that ends before the oscillation has died makes the peak wider.
 *
 * @param frequenciesHz rising [Hz]
 * @param magnitudes    |X| at these
 * @returns             the peak, its half-power points and ζ; null when the spectrum does not come down to them on both sides
 * @throws              RangeError if the lengths differ or there are fewer than 3 lines
 * @source              A. K. Chopra, Dynamics of Structures, chapter 3 (from memory)
 * @checked             tests/numerics/halfPower.test.ts
 */
export function halfPower(frequenciesHz: ArrayLike<number>, magnitudes: ArrayLike<number>): HalfPower | null {
  const n = magnitudes.length;
  if (frequenciesHz.length !== n || n < 3) throw new RangeError(`halfPower: expected at least 3 frequencies and as many magnitudes, found ${frequenciesHz.length} and ${n}`);
  const power = Array.from(magnitudes, (magnitude) => magnitude * magnitude);
  let top = 0;
  for (let i = 1; i < n; i++) if ((power[i] as number) > (power[top] as number)) top = i;
  const [left, here, right] = [power[top - 1], power[top] as number, power[top + 1]];
  if (left === undefined || right === undefined || !Number.isFinite(here)) return null;
  const bend = left - 2 * here + right;
  const shift = bend < 0 ? (0.5 * (left - right)) / bend : 0;
  const level = (here - 0.25 * (left - right) * shift) / 2;
  const peakHz = (frequenciesHz[top] as number) + shift * ((frequenciesHz[top + (shift < 0 ? 0 : 1)] as number) - (frequenciesHz[top - (shift < 0 ? 1 : 0)] as number));
  const lowerHz = fallsTo(frequenciesHz, power, top, -1, level);
  const upperHz = fallsTo(frequenciesHz, power, top, 1, level);
  if (lowerHz === null || upperHz === null) return null;
  return { peakHz, lowerHz, upperHz, dampingRatio: (upperHz - lowerHz) / (2 * peakHz) };
}

function fallsTo(frequenciesHz: ArrayLike<number>, power: readonly number[], top: number, direction: 1 | -1, level: number): number | null {
  for (let i = top; ; i += direction) {
    const here = power[i] as number;
    const next = power[i + direction];
    if (next === undefined) return null;
    if (next > level) continue;
    const share = (here - level) / (here - next);
    return (frequenciesHz[i] as number) + share * ((frequenciesHz[i + direction] as number) - (frequenciesHz[i] as number));
  }
}
