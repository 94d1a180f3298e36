/** Constants of the saturating slip curve, all without unit. */
export interface PullSlip {
  /** A: rise of the pull coefficient from zero slip to full slip */
  readonly rise: number;
  /** B: slip over which 63 % of the rise is reached */
  readonly slipScale: number;
  /** C: motion resistance coefficient, minus the pull coefficient at zero slip */
  readonly resistance: number;
  /** D: fall of the pull coefficient per slip, beside the saturation; 0 when left out */
  readonly fall?: number;
}

/**
 * Pull coefficient of a wheel against slip: a saturating curve, with a straight fall where one is given.
 *
 *   P/W = ± A (1 − e^(−|s|/B)) − C − D s        + for s ≥ 0, − for s < 0
 *
 * An empirical description, not physics: it holds between the slips it was fitted to, at one load, speed and soil
 * state. Without D it levels off and cannot follow a pull that falls again at high slip. For a driven wheel
 * s = 1 − v/(rω). For a braked one s = −(1 − rω/v), its own normalisation with a minus sign: value and slope of s go
 * on through zero without a step, and the curve is taken to saturate alike on both sides. The same form serves the gross traction ratio
 * T/(rW), whose C is minus its value at zero slip.
 *
 * @param slip        slip s [1], −1 … 1; negative = skid of a braked wheel
 * @param constants   A, B, C and, if wanted, D
 * @returns           pull coefficient P/W [1]
 * @source            the exponential form of traction against slip, common practice; D. Gee-Clough et al., J. Terramechanics 15(2), 1978, use C_T = C_Tmax (1 − e^(−k s)); from memory
 * @checked           tests/models/pullSlip.test.ts
 */
export function pullSlip(slip: number, { rise, slipScale, resistance, fall = 0 }: PullSlip): number {
  return Math.sign(slip) * rise * (1 - Math.exp(-Math.abs(slip) / slipScale)) - resistance - fall * slip;
}

/**
 * Slopes of the saturating slip curve by its constants, and by slip.
 *
 *   ∂/∂A = ± (1 − e)     ∂/∂B = ∓ A |s| e/B²     ∂/∂C = −1     ∂/∂D = −s     ∂/∂s = A e/B − D        e = e^(−|s|/B)
 *
 * @param slip        slip s [1]; negative = skid
 * @param constants   A, B, C and, if wanted, D
 * @returns           byConstants in the order A, B, C, D; bySlip [all 1]
 * @source            derivatives of the formula of `pullSlip`
 * @checked           tests/models/pullSlip.test.ts
 */
export function pullSlipSlopes(slip: number, { rise, slipScale, fall = 0 }: PullSlip): { readonly byConstants: readonly [number, number, number, number]; readonly bySlip: number } {
  const left = Math.exp(-Math.abs(slip) / slipScale);
  const side = Math.sign(slip);
  return { byConstants: [side * (1 - left), (-side * rise * Math.abs(slip) * left) / slipScale ** 2, -1, -slip], bySlip: (rise * left) / slipScale - fall };
}
