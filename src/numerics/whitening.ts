import { cholesky } from "./linearAlgebra.ts";

/** Data that vary together: which they are, and their covariance. */
export interface CovarianceBlock {
  readonly indices: readonly number[];
  /** symmetric, positive definite, in the order of `indices` */
  readonly covariance: readonly (readonly number[])[];
}

/** Turns correlated data into independent ones of variance one, and back. */
export interface Whitening {
  readonly whiten: (values: ArrayLike<number>) => number[];
  readonly colour: (values: ArrayLike<number>) => number[];
  /** ln |V| */
  readonly logDeterminant: number;
}

/**
 * Generalised least squares as ordinary least squares: data, predictions and slopes are whitened and then count alike.
 *
 *   V = L Lᵀ        whitened = L⁻¹ y        coloured = L w        (y − f)ᵀ V⁻¹ (y − f) = |L⁻¹ y − L⁻¹ f|²
 *
 * Unit of V: that of the data squared. Whitened data are pure numbers.
 *
 * @param blocks   each datum in one block
 * @returns        { whiten, colour, logDeterminant }; NaN in one datum makes its whole block NaN
 * @throws         RangeError if a block's covariance is not positive definite
 * @source         A. C. Aitken's generalised least squares; textbook
 * @checked        tests/numerics/whitening.test.ts
 */
export function whitening(blocks: readonly CovarianceBlock[]): Whitening {
  const factored = blocks.map(({ indices, covariance }) => {
    const lower = cholesky(covariance);
    if (lower === null) throw new RangeError("whitening: expected positive definite covariances");
    return { indices, lower };
  });
  return {
    whiten(values) {
      const out = new Array<number>(values.length).fill(Number.NaN);
      for (const { indices, lower } of factored) {
        indices.forEach((index, i) => {
          const row = lower[i] as readonly number[];
          let rest = values[index] as number;
          for (let k = 0; k < i; k++) rest -= (row[k] as number) * (out[indices[k] as number] as number);
          out[index] = rest / (row[i] as number);
        });
      }
      return out;
    },
    colour(values) {
      const out = new Array<number>(values.length).fill(Number.NaN);
      for (const { indices, lower } of factored) {
        indices.forEach((index, i) => {
          const row = lower[i] as readonly number[];
          let sum = 0;
          for (let k = 0; k <= i; k++) sum += (row[k] as number) * (values[indices[k] as number] as number);
          out[index] = sum;
        });
      }
      return out;
    },
    logDeterminant: 2 * factored.reduce((sum, { lower }) => sum + lower.reduce((inner, row, i) => inner + Math.log(row[i] as number), 0), 0),
  };
}
