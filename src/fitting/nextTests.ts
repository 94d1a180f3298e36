import { symmetricInverse } from "../numerics/linearAlgebra.ts";
import type { Belief } from "./wheelSoilFit.ts";

/** A test that could be run next: what it would see of the parameters, and how sharply. */
export interface PossibleTest {
  /** in plain words: "plates of a second width" */
  readonly name: string;
  /** one row a number it would give: slopes by the parameters, and the standard uncertainty of the number */
  readonly rows: readonly { readonly slopes: readonly number[]; readonly uncertainty: number }[];
}

/** What a further test would do for each parameter. */
export interface ExpectedNarrowing {
  readonly name: string;
  /** standard deviation after the test over that now, one a parameter [1]; 1 = it would say nothing new */
  readonly ratios: readonly number[];
}

/**
 * What further tests would separate, before they are run.
 *
 *   C' = (C⁻¹ + Σ ggᵀ/u²)⁻¹        ratio_j = √(C'_jj / C_jj)
 *
 * @param beliefs      what was believed of each parameter, for the scale
 * @param covariance   of the parameters now
 * @param tests        the candidates
 * @returns            the ratios of each test, in its order; all 1 where the covariance cannot be inverted
 * @source             linear Bayesian design: K. Chaloner and I. Verdinelli, Statist. Sci. 10 (1995) 273, from memory
 * @checked            tests/fitting/nextTests.test.ts
 */
export function expectedNarrowing(beliefs: readonly Belief[], covariance: readonly (readonly number[])[], tests: readonly PossibleTest[]): ExpectedNarrowing[] {
  const sd = beliefs.map((belief) => belief.sd);
  const now = covariance.map((row, i) => row.map((value, j) => value / ((sd[i] as number) * (sd[j] as number))));
  const information = symmetricInverse(now);
  return tests.map(({ name, rows }) => {
    if (information === null) return { name, ratios: beliefs.map(() => 1) };
    const more = information.map((row, i) => row.map((value, j) => value + rows.reduce((sum, { slopes, uncertainty }) => sum + ((slopes[i] as number) * (sd[i] as number) * (slopes[j] as number) * (sd[j] as number)) / uncertainty ** 2, 0)));
    const after = symmetricInverse(more);
    return { name, ratios: beliefs.map((_, j) => (after === null ? 1 : Math.sqrt(((after[j] as number[])[j] as number) / ((now[j] as number[])[j] as number)))) };
  });
}
