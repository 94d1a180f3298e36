/** Constants of the saturating pull–slip curve, all without unit. */
export interface PullSlip {
  /** A: rise of the pull coefficient from zero slip to full slip */
  readonly rise: number;
  /** B: slip over which 63 % of the rise is reached */
  readonly slipScale: number;
  /** C: motion resistance coefficient, minus the pull coefficient at zero slip */
  readonly resistance: number;
}

/**
 * Pull coefficient of a driven wheel against slip: a saturating curve.
 *
 *   P/W = A (1 − e^(−s/B)) − C
 *
 * An empirical description, not physics: it holds between the slips it was fitted to, at one load, speed and soil
 * state. It levels off, so it cannot follow a pull that falls again at high slip. Only driven slips (0 ≤ s ≤ 1,
 * s = 1 − v/(rω)) belong to it: a braked wheel's skid is normalised by the other speed, its pull lies on another
 * branch, and its points are therefore refused, not folded in with a minus sign.
 *
 * @param slip        driven slip s [1]
 * @param constants   A, B, C
 * @returns           pull coefficient P/W [1]
 * @source            the exponential form of traction against slip, common practice; D. Gee-Clough et al., J. Terramechanics 15(2), 1978, use C_T = C_Tmax (1 − e^(−k s)); from memory
 * @checked           tests/models/pullSlip.test.ts
 */
export function pullSlip(slip: number, { rise, slipScale, resistance }: PullSlip): number {
  return rise * (1 - Math.exp(-slip / slipScale)) - resistance;
}

/**
 * Slopes of the saturating pull–slip curve by its constants, and by slip.
 *
 *   ∂/∂A = 1 − e^(−s/B)     ∂/∂B = −A s e^(−s/B)/B²     ∂/∂C = −1     ∂/∂s = A e^(−s/B)/B
 *
 * @param slip        driven slip s [1]
 * @param constants   A, B, C
 * @returns           byConstants in the order A, B, C; bySlip [all 1]
 * @source            derivatives of the formula of `pullSlip`
 * @checked           tests/models/pullSlip.test.ts
 */
export function pullSlipSlopes(slip: number, { rise, slipScale }: PullSlip): { readonly byConstants: readonly [number, number, number]; readonly bySlip: number } {
  const left = Math.exp(-slip / slipScale);
  return { byConstants: [1 - left, (-rise * slip * left) / slipScale ** 2, -1], bySlip: (rise * left) / slipScale };
}
