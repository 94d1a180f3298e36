import { UsageError } from "../core/errors.ts";

/** Stiffness of one plate: k = k_c/b + k_φ at the common exponent. */
export interface PlateStiffness {
  /** b [m] */
  readonly widthM: number;
  /** k [N/m^(n+2)] */
  readonly stiffness: number;
}

/**
 * Splits plate stiffnesses at one common exponent into Bekker's two moduli: exactly for two widths, by the unweighted
 * straight line of k over 1/b for more.
 *
 *   k = k_c · (1/b) + k_φ        two plates: k_c = (k₁ − k₂) b₁b₂/(b₂ − b₁),  k_φ = k₁ − k_c/b₁
 *
 * A negative k_c is a result, not an error.
 *
 * @param plates   at least two different widths
 * @returns        cohesive k_c [N/m^(n+1)], frictional k_φ [N/m^(n+2)]
 * @throws         UsageError when there are fewer than two different widths, or a width is not above zero
 * @source         algebra of Bekker's form; J. Y. Wong, J. Terramechanics 17(1), 1980, 5–21, from memory
 * @checked        tests/models/plateWidthSplit.test.ts
 */
export function plateWidthSplit(plates: readonly PlateStiffness[]): { readonly cohesive: number; readonly frictional: number } {
  if (plates.some((plate) => !(plate.widthM > 0))) throw new UsageError("plateWidthSplit: expected widths above 0 m");
  const inverse = plates.map((plate) => 1 / plate.widthM);
  const meanInverse = inverse.reduce((sum, value) => sum + value, 0) / plates.length;
  const meanStiffness = plates.reduce((sum, plate) => sum + plate.stiffness, 0) / plates.length;
  let square = 0;
  let product = 0;
  plates.forEach((plate, index) => {
    const off = (inverse[index] as number) - meanInverse;
    square += off ** 2;
    product += off * (plate.stiffness - meanStiffness);
  });
  if (!(square > 1e-18 * meanInverse ** 2)) throw new UsageError(`plateWidthSplit: expected at least two different plate widths, found ${plates.length} of one width`);
  const cohesive = product / square;
  return { cohesive, frictional: meanStiffness - cohesive * meanInverse };
}
