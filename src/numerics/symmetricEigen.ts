import { EigenvalueDecomposition, Matrix } from "ml-matrix";

/** A direction in which a symmetric matrix stretches without turning, and by how much. */
export interface EigenDirection {
  readonly value: number;
  /** of length one */
  readonly vector: readonly number[];
}

/**
 * Eigenvalues and directions of a symmetric matrix.
 *
 *   A v = λ v
 *
 * Unit of the matrix.
 *
 * @param matrix   n × n, symmetric; its lower half counts
 * @returns        n directions, the greatest value first; the sign of a direction is that its largest entry is above zero
 * @throws         RangeError if the matrix is not square or not finite
 * @source         definition; solved by ml-matrix
 * @checked        tests/numerics/symmetricEigen.test.ts
 */
export function symmetricEigen(matrix: readonly (readonly number[])[]): EigenDirection[] {
  const n = matrix.length;
  if (matrix.some((row) => row.length !== n || !row.every(Number.isFinite))) throw new RangeError(`symmetricEigen: expected a square matrix of finite numbers, found ${n} rows`);
  if (n === 0) return [];
  const lower = matrix.map((row, i) => row.map((_, j) => (matrix[Math.max(i, j)] as readonly number[])[Math.min(i, j)] as number));
  const { realEigenvalues, eigenvectorMatrix } = new EigenvalueDecomposition(new Matrix(lower), { assumeSymmetric: true });
  return realEigenvalues
    .map((value, k): EigenDirection => {
      const vector = eigenvectorMatrix.getColumn(k);
      const largest = vector.reduce((most, entry) => (Math.abs(entry) > Math.abs(most) ? entry : most), 0);
      return { value, vector: vector.map((entry) => (largest < 0 ? -entry : entry)) };
    })
    .sort((a, b) => b.value - a.value);
}
