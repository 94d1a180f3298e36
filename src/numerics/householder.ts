/** The R of A = QR and the right-hand side turned by Qᵀ; columns stored one after another. */
export interface Triangle {
  /** upper triangle, column-major, columns × columns */
  readonly r: Float64Array;
  /** first `columns` entries of Qᵀy */
  readonly turned: Float64Array;
}

/**
 * QR decomposition of a tall matrix by Householder reflections, applied to a right-hand side at once.
 *
 *   A = Q R,   turned = Qᵀ y
 *
 * Overwrites both arguments. Backward stable: no squaring of the condition number as with normal equations.
 *
 * @param a       rows × columns, column-major; overwritten
 * @param y       right-hand side of `rows` values; overwritten
 * @param rows    number of rows; fewer rows than columns leaves zeros on the diagonal
 * @param columns number of columns
 * @param into    receives the answer: arrays of at least columns² and `columns` values; new ones when left out
 * @returns       { r, turned }
 * @source        Golub & Van Loan, Matrix Computations, algorithm 5.2.1 (from memory)
 * @checked       tests/numerics/linearAlgebra.test.ts
 */
export function householder(a: Float64Array, y: Float64Array, rows: number, columns: number, into: Triangle = triangle(columns)): Triangle {
  const { r, turned } = into;
  r.fill(0);
  const steps = Math.min(rows, columns);
  for (let k = 0; k < steps; k++) {
    const column = k * rows;
    let largest = 0;
    for (let i = k; i < rows; i++) largest = Math.max(largest, Math.abs(a[column + i] as number));
    if (largest === 0) continue;
    let squares = 0;
    for (let i = k; i < rows; i++) squares += ((a[column + i] as number) / largest) ** 2;
    const head = a[column + k] as number;
    const alpha = head > 0 ? -largest * Math.sqrt(squares) : largest * Math.sqrt(squares);
    // v = a − αe₁ stored in place; vᵀv/2 = α(α − head)
    a[column + k] = head - alpha;
    const half = alpha * (alpha - head);
    for (let j = k + 1; j < columns; j++) reflect(a, j * rows, a, column, k, rows, half);
    reflect(y, 0, a, column, k, rows, half);
    r[k * columns + k] = alpha;
  }
  for (let j = 1; j < columns; j++) for (let i = 0; i < Math.min(j, rows); i++) r[j * columns + i] = a[j * rows + i] as number;
  for (let j = 0; j < columns; j++) turned[j] = y[j] as number;
  return into;
}

/**
 * Room for the answer of `householder`.
 *
 * @param columns number of columns
 * @returns       arrays of zeros
 * @source        definition
 * @checked       tests/numerics/linearAlgebra.test.ts
 */
export function triangle(columns: number): Triangle {
  return { r: new Float64Array(columns * columns), turned: new Float64Array(columns) };
}

function reflect(target: Float64Array, at: number, a: Float64Array, column: number, from: number, rows: number, half: number): void {
  let dot = 0;
  for (let i = from; i < rows; i++) dot += (a[column + i] as number) * (target[at + i] as number);
  const factor = dot / half;
  if (factor === 0) return;
  for (let i = from; i < rows; i++) target[at + i] = (target[at + i] as number) - factor * (a[column + i] as number);
}

/**
 * Solves a triangular system from the last row up.
 *
 *   R x = b
 *
 * Unit of b per unit of R. A zero on the diagonal gives Infinity or NaN.
 *
 * @param r    upper triangle, column-major
 * @param b    at least `size` values; not changed
 * @param size number of rows and columns
 * @param x    receives the answer, b itself allowed; a new array when left out
 * @returns    x
 * @source     definition
 * @checked    tests/numerics/linearAlgebra.test.ts
 */
export function backSubstitute(r: Float64Array, b: Float64Array, size: number, x = new Float64Array(size)): Float64Array {
  for (let i = size - 1; i >= 0; i--) {
    let value = b[i] as number;
    for (let j = i + 1; j < size; j++) value -= (r[j * size + i] as number) * (x[j] as number);
    x[i] = value / (r[i * size + i] as number);
  }
  return x;
}

/**
 * Inverse of the normal matrix from its triangle, without forming the matrix.
 *
 *   (RᵀR)⁻¹ = R⁻¹ R⁻ᵀ
 *
 * Unit: reciprocal of R's, squared. Symmetric by construction.
 *
 * @param r    upper triangle, column-major
 * @param size number of rows and columns
 * @returns    column-major, size × size
 * @source     definition
 * @checked    tests/numerics/linearAlgebra.test.ts
 */
export function inverseOfNormal(r: Float64Array, size: number): Float64Array {
  const inverse = new Float64Array(size * size);
  for (let j = 0; j < size; j++) {
    const unit = new Float64Array(size);
    unit[j] = 1;
    inverse.set(backSubstitute(r, unit, size), j * size);
  }
  const product = new Float64Array(size * size);
  for (let i = 0; i < size; i++) {
    for (let j = i; j < size; j++) {
      let total = 0;
      for (let k = j; k < size; k++) total += (inverse[k * size + i] as number) * (inverse[k * size + j] as number);
      product[i * size + j] = total;
      product[j * size + i] = total;
    }
  }
  return product;
}

/**
 * Singular values of a small square matrix, largest first, by one-sided Jacobi rotations.
 *
 *   A = U Σ Vᵀ
 *
 * Unit of the matrix. High relative accuracy also for the small ones; meant for up to some tens of columns.
 *
 * @param matrix column-major, size × size; not changed
 * @param size   number of rows and columns
 * @returns      σ₁ ≥ σ₂ ≥ … ≥ 0
 * @source       Hestenes, J. SIAM 6 (1958) 51 (from memory)
 * @checked      tests/numerics/linearAlgebra.test.ts
 */
export function singularValues(matrix: Float64Array, size: number): number[] {
  const a = matrix.slice();
  for (let sweep = 0; sweep < 60; sweep++) {
    let turned = false;
    for (let p = 0; p < size - 1; p++) for (let q = p + 1; q < size; q++) turned = rotate(a, p * size, q * size, size) || turned;
    if (!turned) break;
  }
  const values: number[] = [];
  for (let j = 0; j < size; j++) {
    let squares = 0;
    for (let i = j * size; i < (j + 1) * size; i++) squares += (a[i] as number) ** 2;
    values.push(Math.sqrt(squares));
  }
  return values.sort((x, y) => y - x);
}

function rotate(a: Float64Array, p: number, q: number, size: number): boolean {
  let pp = 0;
  let qq = 0;
  let pq = 0;
  for (let i = 0; i < size; i++) {
    const x = a[p + i] as number;
    const y = a[q + i] as number;
    pp += x * x;
    qq += y * y;
    pq += x * y;
  }
  if (!(Math.abs(pq) > 1e-15 * Math.sqrt(pp * qq))) return false;
  const zeta = (qq - pp) / (2 * pq);
  const tangent = (zeta < 0 ? -1 : 1) / (Math.abs(zeta) + Math.hypot(1, zeta));
  const cosine = 1 / Math.hypot(1, tangent);
  const sine = cosine * tangent;
  for (let i = 0; i < size; i++) {
    const x = a[p + i] as number;
    const y = a[q + i] as number;
    a[p + i] = cosine * x - sine * y;
    a[q + i] = sine * x + cosine * y;
  }
  return true;
}
