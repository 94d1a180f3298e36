import { solveRising } from "../numerics/solveRising.ts";

/**
 * How far in a wheel is: where the ground carries its load, or where it is held.
 *
 *   W(z) = W        held: z as given, in balance or not
 *
 * @param carried   W(z) [N], rising; last called at the depth returned
 * @param loadN     W [N], > 0
 * @param deepestM  the deepest that can be [m]
 * @param first     where to begin looking [m], and the exponent of the power law near it
 * @param heldM     z [m], > 0, to be held at; left out: the balance is looked for
 * @returns         z [m]; null where no depth carries the load, or the one it is held at is too deep
 * @throws          RangeError as `solveRising`
 * @source          `solveRising`
 * @checked         tests/models/depthOf.test.ts
 */
export function depthOf(carried: (depthM: number) => number, loadN: number, deepestM: number, first: () => { readonly guess: number; readonly exponent: number }, heldM?: number): number | null {
  if (heldM === undefined) {
    const { guess, exponent } = first();
    return solveRising(carried, loadN, { guess, exponent, upper: deepestM });
  }
  if (heldM > deepestM) return null;
  carried(heldM);
  return heldM;
}
