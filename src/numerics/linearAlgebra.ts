import { backSubstitute, householder, inverseOfNormal, singularValues } from "./householder.ts";

/** Answer of a linear least-squares problem. */
export interface LeastSquares {
  /** NaN throughout when the columns are not independent */
  readonly solution: number[];
  /** (XᵀWX)⁻¹, not yet multiplied by a variance; NaN throughout when the columns are not independent */
  readonly covarianceFactor: number[][];
  /** y − Xb, unweighted */
  readonly residuals: number[];
  /** independent columns; less than the number of columns: the data cannot tell the parameters apart */
  readonly rank: number;
  /** largest by smallest singular value of the weighted matrix, its columns scaled to length one */
  readonly conditionNumber: number;
}

/**
 * Linear least squares by Householder QR of the column-scaled, weighted matrix.
 *
 *   minimise Σ wᵢ (yᵢ − Σⱼ Xᵢⱼ bⱼ)²        covarianceFactor = (XᵀWX)⁻¹
 *
 * Solution in unit of y per unit of the column. Exact rank deficiency and columns dependent to working precision are
 * answered with NaN and the rank, never with an arbitrary solution.
 *
 * @param matrixRows X, one row per observation
 * @param y          one value per row
 * @param weights    wᵢ ≥ 0, usually 1/u²(yᵢ); all 1 when left out
 * @returns          { solution, covarianceFactor, residuals, rank, conditionNumber }
 * @throws           RangeError if the lengths differ, a weight is negative, a value is not finite, or there are fewer rows than columns
 * @source           Golub & Van Loan, Matrix Computations, section 5.3 (from memory)
 * @checked          tests/numerics/linearAlgebra.test.ts
 */
export function leastSquares(matrixRows: ArrayLike<ArrayLike<number>>, y: ArrayLike<number>, weights?: ArrayLike<number>): LeastSquares {
  const rows = matrixRows.length;
  const columns = rows === 0 ? 0 : (matrixRows[0] as ArrayLike<number>).length;
  if (y.length !== rows || (weights !== undefined && weights.length !== rows)) throw new RangeError(`leastSquares: expected ${rows} values and weights, found ${y.length} and ${weights?.length ?? rows}`);
  if (columns === 0 || rows < columns) throw new RangeError(`leastSquares: expected at least as many rows as columns, found ${rows} rows and ${columns} columns`);
  const { a, b } = weighted(matrixRows, y, weights, rows, columns);
  const scales = scaleColumns(a, rows, columns);
  const { r, turned } = householder(a, b, rows, columns);
  const singular = singularValues(r, columns);
  const limit = Math.max(rows, columns) * 2 ** -52 * (singular[0] as number);
  const rank = singular.filter((value) => value > limit).length;
  const conditionNumber = (singular[0] as number) / (singular[columns - 1] as number);
  const determined = rank === columns;
  const scaled = backSubstitute(r, turned, columns);
  const factor = inverseOfNormal(r, columns);
  const solution = scales.map((scale, j) => (determined ? (scaled[j] as number) / scale : Number.NaN));
  const covarianceFactor = scales.map((left, i) => scales.map((right, j) => (determined ? (factor[i * columns + j] as number) / left / right : Number.NaN)));
  const residuals: number[] = [];
  for (let i = 0; i < rows; i++) residuals.push((y[i] as number) - product(matrixRows[i] as ArrayLike<number>, solution));
  return { solution, covarianceFactor, residuals, rank, conditionNumber: determined ? conditionNumber : Infinity };
}

function weighted(matrixRows: ArrayLike<ArrayLike<number>>, y: ArrayLike<number>, weights: ArrayLike<number> | undefined, rows: number, columns: number): { a: Float64Array; b: Float64Array } {
  const a = new Float64Array(rows * columns);
  const b = new Float64Array(rows);
  for (let i = 0; i < rows; i++) {
    const row = matrixRows[i] as ArrayLike<number>;
    if (row.length !== columns) throw new RangeError(`leastSquares: expected ${columns} columns in row ${i}, found ${row.length}`);
    const weight = weights === undefined ? 1 : (weights[i] as number);
    if (!(weight >= 0 && weight < Infinity)) throw new RangeError(`leastSquares: expected a finite weight of at least 0, found ${weight}`);
    const root = Math.sqrt(weight);
    for (let j = 0; j < columns; j++) a[j * rows + i] = root * (row[j] as number);
    b[i] = root * (y[i] as number);
  }
  if (!a.every(Number.isFinite) || !b.every(Number.isFinite)) throw new RangeError("leastSquares: expected finite numbers, found NaN or Infinity");
  return { a, b };
}

/** Divides each column by its length; a column of zeros keeps scale 1. */
function scaleColumns(a: Float64Array, rows: number, columns: number): number[] {
  const scales: number[] = [];
  for (let j = 0; j < columns; j++) {
    const column = a.subarray(j * rows, (j + 1) * rows);
    let largest = 0;
    for (const value of column) largest = Math.max(largest, Math.abs(value));
    let squares = 0;
    for (const value of column) squares += largest === 0 ? 0 : (value / largest) ** 2;
    const scale = largest === 0 ? 1 : largest * Math.sqrt(squares);
    for (let i = 0; i < rows; i++) column[i] = (column[i] as number) / scale;
    scales.push(scale);
  }
  return scales;
}

function product(row: ArrayLike<number>, solution: readonly number[]): number {
  let total = 0;
  for (let j = 0; j < solution.length; j++) total += (row[j] as number) * (solution[j] as number);
  return total;
}

/**
 * Cholesky factor of a symmetric positive definite matrix.
 *
 *   A = L Lᵀ,   L lower triangular with positive diagonal
 *
 * Unit: root of the matrix's. Reads the lower triangle only.
 *
 * @param matrix rows of A
 * @returns      rows of L, or null when A is not positive definite to working precision
 * @throws       RangeError if the matrix is not square
 * @source       Golub & Van Loan, Matrix Computations, section 4.2 (from memory)
 * @checked      tests/numerics/linearAlgebra.test.ts
 */
export function cholesky(matrix: readonly (readonly number[])[]): number[][] | null {
  const size = matrix.length;
  if (matrix.some((row) => row.length !== size)) throw new RangeError(`cholesky: expected ${size} columns in every row`);
  const lower = matrix.map(() => new Array<number>(size).fill(0));
  for (let j = 0; j < size; j++) {
    const own = lower[j] as number[];
    let diagonal = (matrix[j] as readonly number[])[j] as number;
    for (let k = 0; k < j; k++) diagonal -= (own[k] as number) ** 2;
    if (!(diagonal > 0 && diagonal < Infinity)) return null;
    own[j] = Math.sqrt(diagonal);
    for (let i = j + 1; i < size; i++) {
      const row = lower[i] as number[];
      let value = (matrix[i] as readonly number[])[j] as number;
      for (let k = 0; k < j; k++) value -= (row[k] as number) * (own[k] as number);
      row[j] = value / (own[j] as number);
    }
  }
  return lower;
}

/**
 * Inverse of a symmetric positive definite matrix, through its Cholesky factor after scaling the diagonal to one.
 *
 *   A⁻¹ = D (D A D)⁻¹ D,   D = diag(1/√Aᵢᵢ)
 *
 * Unit: reciprocal of the matrix's. The scaling keeps parameters of very different size apart from the condition.
 *
 * @param matrix rows of A, e.g. a covariance matrix
 * @returns      rows of A⁻¹, or null when A is not positive definite to working precision
 * @throws       RangeError if the matrix is not square
 * @source       definition; scaling after van der Sluis, Numer. Math. 14 (1969) 14 (from memory)
 * @checked      tests/numerics/linearAlgebra.test.ts
 */
export function symmetricInverse(matrix: readonly (readonly number[])[]): number[][] | null {
  const size = matrix.length;
  const scales = matrix.map((row, i) => 1 / Math.sqrt(row[i] as number));
  const factor = cholesky(matrix.map((row, i) => row.map((value, j) => value * (scales[i] as number) * (scales[j] as number))));
  if (factor === null) return null;
  // L⁻¹ through R = Lᵀ: (RᵀR)⁻¹ = (LLᵀ)⁻¹
  const r = new Float64Array(size * size);
  for (let i = 0; i < size; i++) for (let j = 0; j <= i; j++) r[i * size + j] = (factor[i] as number[])[j] as number;
  const inverse = inverseOfNormal(r, size);
  return scales.map((left, i) => scales.map((right, j) => (inverse[i * size + j] as number) * left * right));
}
