import { UsageError } from "../core/errors.ts";
import type { TyreOnSoil } from "./mobilityNumber.ts";

/** What an empirical formula says of a driven tyre, all as a share of the load [1]. */
export interface TyreTraction {
  readonly grossTraction: number;
  readonly motionResistance: number;
  readonly netTraction: number;
  /** (net/gross)(1 − s) */
  readonly efficiency: number;
}

/** A tyre as Brixius's number needs it. */
export interface BrixiusTyre extends Omit<TyreOnSoil, "deflectionRatio"> {
  readonly deflectionM: number;
  readonly sectionHeightM: number;
}

/**
 * Brixius's mobility number of a bias-ply tyre.
 *
 *   B_n = (CI b d / W) (1 + 5 δ/h) / (1 + 3 b/d)
 *
 * For pneumatic tyres on farm soil; rigid rover wheels lie outside the data behind it.
 *
 * @param tyre   cone index [Pa], width b, diameter d, deflection δ and section height h [m], load W [N]
 * @returns      B_n [1]
 * @throws       UsageError when an input is not above zero
 * @source       W. W. Brixius, ASAE paper 87-1622, 1987; ASABE D497; both from memory
 * @checked      tests/models/tyreTraction.test.ts
 */
export function brixiusNumber(tyre: BrixiusTyre): number {
  for (const [name, value] of Object.entries(tyre)) if (!(value > 0)) throw new UsageError(`brixiusNumber: expected ${name} above zero, found ${value}`);
  const { coneIndexPa, widthM, diameterM, loadN, deflectionM, sectionHeightM } = tyre;
  return (((coneIndexPa * widthM * diameterM) / loadN) * (1 + (5 * deflectionM) / sectionHeightM)) / (1 + (3 * widthM) / diameterM);
}

/**
 * Traction of a bias-ply tyre after Brixius.
 *
 *   GTR = 0.88 (1 − e^(−0.1 B_n)) (1 − e^(−7.5 s)) + 0.04      MRR = 1/B_n + 0.04 + 0.5 s/√B_n
 *
 * @param number   B_n [1], above zero
 * @param slip     driven slip [1], 0 … 1
 * @returns        gross traction, motion resistance, net traction and efficiency [1]
 * @throws         UsageError when B_n is not above zero or the slip not from 0 to 1
 * @source         W. W. Brixius, ASAE paper 87-1622, 1987; ASABE D497; both from memory
 * @checked        tests/models/tyreTraction.test.ts
 */
export function brixiusTraction(number: number, slip: number): TyreTraction {
  requireSound("brixiusTraction", number, slip);
  const grossTraction = 0.88 * (1 - Math.exp(-0.1 * number)) * (1 - Math.exp(-7.5 * slip)) + 0.04;
  return balance(grossTraction, 1 / number + 0.04 + (0.5 * slip) / Math.sqrt(number), slip);
}

/**
 * Traction of a tyre after Wismer and Luth.
 *
 *   GT/W = 0.75 (1 − e^(−0.3 C_n s))      TF/W = 1.2/C_n + 0.04      C_n = CI b d / W
 *
 * @param number   C_n [1], above zero
 * @param slip     driven slip [1], 0 … 1
 * @returns        gross traction, motion resistance, net traction and efficiency [1]; the efficiency is NaN at no slip, where nothing drives
 * @throws         UsageError when C_n is not above zero or the slip not from 0 to 1
 * @source         R. D. Wismer and H. J. Luth, J. Terramechanics 10(2), 1973; from memory
 * @checked        tests/models/tyreTraction.test.ts
 */
export function wismerLuthTraction(number: number, slip: number): TyreTraction {
  requireSound("wismerLuthTraction", number, slip);
  return balance(0.75 * (1 - Math.exp(-0.3 * number * slip)), 1.2 / number + 0.04, slip);
}

function balance(grossTraction: number, motionResistance: number, slip: number): TyreTraction {
  const netTraction = grossTraction - motionResistance;
  return { grossTraction, motionResistance, netTraction, efficiency: grossTraction === 0 ? Number.NaN : (netTraction / grossTraction) * (1 - slip) };
}

function requireSound(name: string, number: number, slip: number): void {
  if (!(number > 0)) throw new UsageError(`${name}: expected a mobility number above zero, found ${number}`);
  if (!(slip >= 0 && slip <= 1)) throw new UsageError(`${name}: expected a slip from 0 to 1, found ${slip}`);
}
