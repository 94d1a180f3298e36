import { symmetricEigen } from "../numerics/symmetricEigen.ts";
import type { Belief } from "./wheelSoilFit.ts";

/** determined: the data carry the number. partly: data and belief together. undetermined: it is the belief's, whatever the data. */
export type Share = "determined" | "partly" | "undetermined";

/** How well one parameter is known, and by whom. */
export interface ParameterShare {
  readonly symbol: string;
  /** standard deviation after the data over that of the belief before them [1]; 1 = the data said nothing */
  readonly narrowing: number;
  readonly share: Share;
  /** parameters it moves together with, |r| > 0.9, with r */
  readonly partners: readonly { readonly symbol: string; readonly correlation: number }[];
  /** in plain words */
  readonly sentence: string;
}

/** A combination of parameters, in units of their beliefs. */
export interface Combination {
  /** what the data narrowed the combination to, over what was believed [1] */
  readonly narrowing: number;
  /** weights of the parameters, those below 0.2 left out, the largest first */
  readonly weights: readonly { readonly symbol: string; readonly weight: number }[];
}

/** What data determine of all parameters together. */
export interface Identifiability {
  readonly parameters: readonly ParameterShare[];
  /** every direction of the parameter space, the best determined first */
  readonly combinations: readonly Combination[];
  /** how many directions the data narrow at least threefold */
  readonly determinedDirections: number;
  /** in plain words */
  readonly sentence: string;
}

/** below it the data carry the number; above the second they hardly touch it */
const carries = 0.33;
const touches = 0.8;
const together = 0.9;
const small = 0.2;

/**
 * What the data determine, alone or only in combination, and what is belief.
 *
 *   narrowing = √C_jj / s_j        combinations: eigenvectors of S⁻¹ C S⁻¹, S = diag(s)
 *
 * In units of the beliefs every parameter is of one size, so that a direction with a small eigenvalue is one that data
 * determine, and a large entry in it a parameter that takes part.
 *
 * @param symbols      of the parameters
 * @param beliefs      what was believed of each before, in order
 * @param covariance   after the data
 * @returns            a verdict and a sentence for each parameter, the combinations, and how many are determined
 * @source             singular values of a scaled Jacobian: R. C. Aster et al., Parameter Estimation and Inverse Problems, from memory; the limits 0.33 and 0.8 are drawbar's
 * @checked            tests/fitting/identifiability.test.ts
 */
export function identifiability(symbols: readonly string[], beliefs: readonly Belief[], covariance: readonly (readonly number[])[]): Identifiability {
  const scaled = covariance.map((row, i) => row.map((value, j) => value / ((beliefs[i] as Belief).sd * (beliefs[j] as Belief).sd)));
  const parameters = symbols.map((symbol, i): ParameterShare => {
    const own = (scaled[i] as number[])[i] as number;
    const narrowing = Math.sqrt(own);
    const partners = symbols.flatMap((other, j) => {
      const correlation = ((scaled[i] as number[])[j] as number) / Math.sqrt(own * ((scaled[j] as number[])[j] as number));
      return j !== i && Math.abs(correlation) > together ? [{ symbol: other, correlation }] : [];
    });
    const share: Share = narrowing < carries ? "determined" : narrowing < touches ? "partly" : "undetermined";
    return { symbol, narrowing, share, partners, sentence: sentenceOf(symbol, narrowing, share, partners) };
  });
  const combinations = symmetricEigen(scaled)
    .map(({ value, vector }): Combination => ({
      narrowing: Math.sqrt(Math.max(0, value)),
      weights: vector.map((weight, j) => ({ symbol: symbols[j] as string, weight })).filter(({ weight }) => Math.abs(weight) >= small).sort((a, b) => Math.abs(b.weight) - Math.abs(a.weight)),
    }))
    .reverse();
  const determinedDirections = combinations.filter(({ narrowing }) => narrowing < carries).length;
  const alone = parameters.filter(({ share }) => share === "determined").map(({ symbol }) => symbol);
  const sentence = `The data determine ${determinedDirections} of ${symbols.length} independent combinations${alone.length === 0 ? ", but no parameter alone" : `; alone: ${alone.join(", ")}`}.`;
  return { parameters, combinations, determinedDirections, sentence };
}

function sentenceOf(symbol: string, narrowing: number, share: Share, partners: ParameterShare["partners"]): string {
  const bound = partners.length === 0 ? "" : ` It moves together with ${partners.map(({ symbol: other, correlation }) => `${other} (${correlation.toFixed(2)})`).join(", ")}${share === "determined" ? ": use them together." : ": only their combination is determined."}`;
  if (share === "determined") return `The data determine ${symbol}: they narrow what was believed to ${(100 * narrowing).toFixed(0)} %.${bound}`;
  if (share === "partly") return `${symbol} rests on data and belief: the data narrow it to ${(100 * narrowing).toFixed(0)} % of what was believed.${bound}`;
  return `${symbol} is not determined by these data: it stays within what was believed before.${bound}`;
}
