import { UsageError } from "../core/errors.ts";

/** |1 + r i/Q − r²| of a second-order part, r = f/f₀ */
const second = (ratio: number, quality: number): number => Math.hypot(1 - ratio ** 2, ratio / quality);

/**
 * Weight of a vertical vibration for a seated or standing person, W_k.
 *
 *   W_k = |H_h H_l H_t H_s|, s = 2π i f
 *   H_h = 1/[1 + √2 ω₁/s + (ω₁/s)²]             f₁ = 0.4 Hz
 *   H_l = 1/[1 + √2 s/ω₂ + (s/ω₂)²]             f₂ = 100 Hz
 *   H_t = (1 + s/ω₃)/[1 + s/(Q₄ ω₄) + (s/ω₄)²]   f₃ = f₄ = 12.5 Hz, Q₄ = 0.63
 *   H_s = [1 + s/(Q₅ ω₅) + (s/ω₅)²]/[1 + s/(Q₆ ω₆) + (s/ω₆)²] · (ω₅/ω₆)²      f₅ = 2.37 Hz, f₆ = 3.35 Hz, Q₅ = Q₆ = 0.91
 *
 * For people on a rover; found on Earth, in other gravity people sit otherwise.
 *
 * @param frequencyHz   f [Hz], > 0
 * @returns             share of the acceleration that counts [1]
 * @throws              UsageError when the frequency is not above zero
 * @source              ISO 2631-1, W_k; constants of ISO 8041 as an instrument's handbook prints them
 * @checked             tests/models/rideWeighting.test.ts
 */
export function verticalWeighting(frequencyHz: number): number {
  if (!(frequencyHz > 0)) throw new UsageError(`verticalWeighting: expected a frequency above 0 Hz, found ${frequencyHz}`);
  const highPass = 1 / second(0.4 / frequencyHz, Math.SQRT1_2);
  const lowPass = 1 / second(frequencyHz / 100, Math.SQRT1_2);
  const transition = Math.hypot(1, frequencyHz / 12.5) / second(frequencyHz / 12.5, 0.63);
  const step = (second(frequencyHz / 2.37, 0.91) / second(frequencyHz / 3.35, 0.91)) * (2.37 / 3.35) ** 2;
  return highPass * lowPass * transition * step;
}
