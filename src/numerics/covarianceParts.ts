import { symmetricInverse } from "./linearAlgebra.ts";

/** A cause of the data's scatter: a variance, and how the data bear it. */
export interface VarianceCause {
  /** θ, 0 where the residuals show nothing of it */
  readonly size: number;
  /** U: covariance of the data where θ is one */
  readonly unit: readonly (readonly number[])[];
  /** θ was estimated, cannot be below a bound and came out on it */
  readonly onBound?: boolean;
}

/** What each cause of the data's scatter brings to fitted parameters. */
export interface CovarianceParts {
  /** of the parameters, one a cause, where its θ is one */
  readonly units: readonly (readonly (readonly number[])[])[];
  /** what moving each datum by one does to the parameters, one row a parameter */
  readonly gain: readonly (readonly number[])[];
  /** covariance of the θ */
  readonly doubt: readonly (readonly number[])[];
  /** of the parameters: what weights cost that rest on estimated θ */
  readonly lost: readonly (readonly number[])[];
}

/**
 * Covariance of the parameters of a generalised least-squares fit, cause by cause, and how well each cause is known from the residuals.
 *
 *   V = V₀ + Σ θ_a U_a        C = (Jᵀ V⁻¹ J)⁻¹ = G V₀ Gᵀ + Σ θ_a G U_a Gᵀ,  G = C Jᵀ V⁻¹
 *   doubt = I⁻¹,  I_ab = ½ tr(P U_a P U_b),  P = V⁻¹ − V⁻¹ J C Jᵀ V⁻¹
 *   lost = 2 ΣΣ doubt_ab G U_a P U_b Gᵀ
 *   of a θ on its bound the doubt's root is √(½ − 1/2π) of that
 *
 * I is what the restricted likelihood knows of the θ. With one cause 2 θ²/doubt is data less parameters; where causes are
 * told apart, each has the degrees of freedom that are left to it, and the weights, being estimated, cost a little on top of C.
 * A cause of θ = 0 has a doubt too: it may be there unseen. An estimate that cannot fall below its bound scatters less there: of a
 * normal one about the bound, cut off at it, the variance is ½ − 1/2π of the whole.
 *
 * @param jacobian  J, one row a datum
 * @param causes    θ [unit of the data squared] and U; one θ at least above zero
 * @param known     V₀, scatter without doubt; left out: none
 * @returns         parts at θ = 1, gain G, doubt and loss; null where parameters or causes cannot be told apart
 * @source          expected information of the restricted likelihood: D. A. Harville, J. Am. Stat. Assoc. 72 (1977) 320; loss: M. G. Kenward and J. H. Roger, Biometrics 53 (1997) 983; both from memory
 * @checked         tests/numerics/covarianceParts.test.ts
 */
export function covarianceParts(jacobian: readonly (readonly number[])[], causes: readonly VarianceCause[], known?: readonly (readonly number[])[]): CovarianceParts | null {
  const inverse = symmetricInverse(jacobian.map((_, i) => jacobian.map((__, j) => causes.reduce((sum, { size, unit }) => sum + size * (unit[i]?.[j] as number), known?.[i]?.[j] ?? 0))));
  if (inverse === null) return null;
  const weighted = product(inverse, jacobian);
  const covariance = symmetricInverse(product(transposed(jacobian), weighted));
  if (covariance === null || !covariance.flat().every(Number.isFinite)) return null;
  const taken = product(weighted, covariance);
  const back = product(taken, transposed(weighted));
  const projected = inverse.map((row, i) => row.map((value, j) => value - (back[i]?.[j] as number)));
  const seen = causes.map(({ unit }) => product(projected, unit));
  const free = symmetricInverse(seen.map((a) => seen.map((b) => 0.5 * traceOfProduct(a, b))));
  if (free === null) return null;
  const left = causes.map(({ onBound = false }) => (onBound ? cutOff : 1));
  const doubt = free.map((row, a) => row.map((value, b) => value * (left[a] as number) * (left[b] as number)));
  const gain = transposed(taken);
  const halves = causes.map(({ unit }) => product(unit, taken));
  const lost = covariance.map((row) => row.map(() => 0));
  halves.forEach((one, a) => halves.forEach((other, b) => product(transposed(one), product(projected, other)).forEach((row, i) => row.forEach((value, j) => ((lost[i] as number[])[j] = (lost[i]?.[j] as number) + 2 * (doubt[a]?.[b] as number) * value)))));
  return { units: halves.map((half) => product(gain, half)), gain, doubt, lost };
}

const cutOff = Math.sqrt(0.5 - 1 / (2 * Math.PI));

type Matrix = readonly (readonly number[])[];

function product(a: Matrix, b: Matrix): number[][] {
  return a.map((row) => (b[0] ?? []).map((_, j) => row.reduce((sum, value, k) => sum + value * (b[k]?.[j] as number), 0)));
}

function transposed(a: Matrix): number[][] {
  return (a[0] ?? []).map((_, j) => a.map((row) => row[j] as number));
}

function traceOfProduct(a: Matrix, b: Matrix): number {
  return a.reduce((sum, row, i) => sum + row.reduce((inner, value, k) => inner + value * (b[k]?.[i] as number), 0), 0);
}
