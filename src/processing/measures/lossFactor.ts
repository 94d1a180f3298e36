import { UsageError } from "../../core/errors.ts";

/**
 * Loss factor of a load–deflection loop: energy lost per radian of the cycle over the energy stored at its peak.
 *
 *   η = ΔW / (2π U)     U = energy stored at the peak
 *
 * For a loop driven from zero to its peak, U is taken under the line halfway between the loading and the unloading
 * branch, U = (W_loading + W_unloading)/2; other choices of U give another η, so the choice stands beside the number.
 *
 * @param loopJ     ΔW, area of the loop [J]
 * @param storedJ   U [J], > 0
 * @returns         η [1]
 * @throws          UsageError when the stored energy is not above zero
 * @source          S. S. Rao, Mechanical Vibrations, hysteretic damping; from memory
 * @checked         tests/processing/measures/lossFactor.test.ts
 */
export function lossFactor(loopJ: number, storedJ: number): number {
  if (!(storedJ > 0)) throw new UsageError(`lossFactor: expected a stored energy above zero, found ${storedJ} J`);
  return loopJ / (2 * Math.PI * storedJ);
}
