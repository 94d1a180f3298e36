import { cholesky } from "../numerics/linearAlgebra.ts";
import type { GroupedNormal } from "../numerics/groupedNormal.ts";
import type { MisfitBlock } from "./misfitBlocks.ts";
import type { Belief, WheelSoilFit } from "./wheelSoilFit.ts";

/** Where the constants lie for one misfit, were the model straight: their centre, and L of their precision L Lᵀ. */
export interface StraightBelief {
  readonly centre: readonly number[];
  readonly lower: readonly (readonly number[])[];
}

/**
 * Where the constants lie for a given misfit, were the model as straight everywhere as it is at its fit.
 *
 *   L Lᵀ = Jᵀ V⁻¹ J + diag(1/s²)      L Lᵀ (centre − p̂) = Jᵀ V⁻¹ r̂ + (m − p̂)/s²        V: by the misfit
 *
 * @param fit       a converged fit: J, r̂ and p̂
 * @param blocks    of its misfit
 * @param beliefs   m and s of each constant, on the fitted scale
 * @returns         (V of each block) → centre and L; null where rounding leaves none
 * @source          normal linear model with a normal prior; textbook
 * @checked         tests/fitting/straightBeliefs.test.ts
 */
export function straightBeliefs({ fitted, jacobian, data }: Pick<WheelSoilFit, "fitted" | "jacobian" | "data">, blocks: readonly Pick<MisfitBlock, "at">[], beliefs: readonly Belief[]): (normals: readonly GroupedNormal[]) => StraightBelief | null {
  const n = fitted.length;
  const columns = n + 1;
  const residual = (i: number): number => (data[i] as WheelSoilFit["data"][number]).measured - (data[i] as WheelSoilFit["data"][number]).predicted;
  // the residual as a last column beside the slopes
  const parts = blocks.map(({ at }) => Float64Array.from(at.flatMap((i) => [...(jacobian[i] as readonly number[]), residual(i)])));
  return (normals) => {
    const gram = new Float64Array(columns * columns);
    parts.forEach((part, b) => (normals[b] as GroupedNormal).addGram(gram, part, columns));
    const entry = (i: number, j: number): number => gram[Math.min(i, j) * columns + Math.max(i, j)] as number;
    const lower = cholesky(fitted.map((_, i) => beliefs.map(({ sd }, j) => entry(i, j) + (i === j ? 1 / sd ** 2 : 0))));
    if (lower === null) return null;
    const shift = backward(lower, forward(lower, beliefs.map(({ mean, sd }, i) => entry(i, n) + (mean - (fitted[i] as number)) / sd ** 2)));
    return { centre: fitted.map((value, i) => value + (shift[i] as number)), lower };
  };
}

/**
 * Constants carried from one misfit to another: as many standard deviations from the centre there as here.
 *
 *   x' = c' + L'⁻ᵀ Lᵀ (x − c)
 *
 * @param x      constants, on the fitted scale
 * @param from   of the misfit they were drawn with
 * @param to     of the other
 * @returns      x', and ln of what a volume is stretched by on the way
 * @source       joint moves of parameters and scales, interweaving: Y. Yu and X.-L. Meng, J. Comput. Graph. Stat. 20 (2011) 531, from memory; the way by the straight model is drawbar's
 * @checked      tests/fitting/straightBeliefs.test.ts
 */
export function carried(x: readonly number[], from: StraightBelief, to: StraightBelief): { readonly x: number[]; readonly logStretch: number } {
  const off = x.map((value, i) => value - (from.centre[i] as number));
  const standard = off.map((_, j) => from.lower.reduce((sum, row, i) => (i >= j ? sum + (row[j] as number) * (off[i] as number) : sum), 0));
  return { x: backward(to.lower, standard).map((value, i) => (to.centre[i] as number) + value), logStretch: logDiagonal(from) - logDiagonal(to) };
}

function logDiagonal({ lower }: StraightBelief): number {
  return lower.reduce((sum, row, i) => sum + Math.log(row[i] as number), 0);
}

/** L⁻¹ b */
function forward(lower: StraightBelief["lower"], b: readonly number[]): number[] {
  const out: number[] = [];
  lower.forEach((row, i) => out.push(out.reduce((rest, value, k) => rest - (row[k] as number) * value, b[i] as number) / (row[i] as number)));
  return out;
}

/** L⁻ᵀ b */
function backward(lower: StraightBelief["lower"], b: readonly number[]): number[] {
  const out = [...b];
  for (let i = out.length - 1; i >= 0; i--) {
    for (let k = i + 1; k < out.length; k++) out[i] = (out[i] as number) - ((lower[k] as readonly number[])[i] as number) * (out[k] as number);
    out[i] = (out[i] as number) / ((lower[i] as readonly number[])[i] as number);
  }
  return out;
}
