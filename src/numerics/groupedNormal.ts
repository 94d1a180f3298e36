/** Which group each datum belongs to, counted from 0; −1 = none. One list a grouping. */
export type Grouping = readonly number[];

/** The covariance of grouped data, factored. */
export interface GroupedNormal {
  /** ln |V| */
  readonly logDet: number;
  /** rᵀ V⁻¹ r */
  readonly quad: (residuals: ArrayLike<number>) => number;
  /** Cᵀ V⁻¹ C of a matrix of so many columns, row by row; upper triangle filled */
  readonly gram: (matrix: Float64Array, columns: number) => Float64Array;
}

/**
 * The normal distribution of data that share deviations in groups, without ever writing their covariance down.
 *
 *   V = D + Σ_g σ_g² Z_g Z_gᵀ        D diagonal, Z_g: which datum is in which group
 *   V⁻¹ = D⁻¹ − D⁻¹ Z M⁻¹ Zᵀ D⁻¹,  M = G⁻¹ + Zᵀ D⁻¹ Z,  |V| = |D| |G| |M|        G: σ_g² of each group
 *
 * Work grows with the data, and with the cube of the number of groups of all groupings but the first.
 *
 * @param own         diagonal of D, above zero
 * @param groupings   one a σ
 * @param variances   σ_g², above zero
 * @returns           ln |V|, and products with V⁻¹ [1 over the square of the data's unit]
 * @throws            RangeError if a variance is not above zero
 * @source            Woodbury's identity and its determinant lemma; textbook
 * @checked           tests/numerics/groupedNormal.test.ts
 */
export function groupedNormal(own: ArrayLike<number>, groupings: readonly Grouping[], variances: readonly number[]): GroupedNormal {
  const n = own.length;
  if (!variances.every((value) => value > 0) || !Array.from(own).every((value) => value > 0)) throw new RangeError("groupedNormal: expected variances above 0");
  const sizes = groupings.map((places) => places.reduce((most, place) => Math.max(most, place + 1), 0));
  const starts = sizes.map((_, g) => sizes.slice(0, g).reduce((sum, size) => sum + size, 0));
  const m = sizes.reduce((sum, size) => sum + size, 0);
  /** the groups of each datum, counted through all groupings */
  const groups = Array.from({ length: n }, (_, i) => groupings.flatMap((places, g) => ((places[i] as number) < 0 ? [] : [(starts[g] as number) + (places[i] as number)])));
  const lower = new Float64Array(m * m);
  let logDet = 0;
  for (let i = 0; i < n; i++) {
    logDet += Math.log(own[i] as number);
    for (const a of groups[i] as number[]) for (const b of groups[i] as number[]) lower[a * m + b] = (lower[a * m + b] as number) + 1 / (own[i] as number);
  }
  sizes.forEach((size, g) => {
    const variance = variances[g] as number;
    logDet += size * Math.log(variance);
    for (let k = starts[g] as number; k < (starts[g] as number) + size; k++) lower[k * m + k] = (lower[k * m + k] as number) + 1 / variance;
  });
  logDet += choleskyInPlace(lower, m);
  /** L⁻¹ Zᵀ D⁻¹ C, column by column side by side */
  const reduced = (matrix: ArrayLike<number>, columns: number): Float64Array => {
    const out = new Float64Array(m * columns);
    for (let i = 0; i < n; i++) {
      const weight = 1 / (own[i] as number);
      for (const a of groups[i] as number[]) addRow(out, a * columns, weight, matrix, i * columns, columns);
    }
    for (let i = 0; i < m; i++) {
      const at = i * columns;
      // mostly zeros, as in the factor
      for (let k = 0; k < i; k++) {
        const entry = lower[i * m + k] as number;
        if (entry !== 0) addRow(out, at, -entry, out, k * columns, columns);
      }
      const pivot = lower[i * m + i] as number;
      for (let c = at; c < at + columns; c++) out[c] = (out[c] as number) / pivot;
    }
    return out;
  };
  return {
    logDet,
    quad(residuals) {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += (residuals[i] as number) ** 2 / (own[i] as number);
      const taken = reduced(residuals, 1);
      for (let i = 0; i < m; i++) sum -= (taken[i] as number) ** 2;
      return sum;
    },
    gram(matrix, columns) {
      const out = new Float64Array(columns * columns);
      for (let i = 0; i < n; i++) addSquare(out, 1 / (own[i] as number), matrix, i * columns, columns);
      const taken = reduced(matrix, columns);
      for (let i = 0; i < m; i++) addSquare(out, -1, taken, i * columns, columns);
      return out;
    },
  };
}

/** Lower factor in place of a symmetric matrix, row by row; ln of its determinant. What is zero before a row's first entry stays zero: groups of one grouping share no datum, so most of it is. */
function choleskyInPlace(lower: Float64Array, m: number): number {
  let logDet = 0;
  const first = new Int32Array(m);
  for (let i = 0; i < m; i++) {
    let begin = 0;
    while (begin < i && lower[i * m + begin] === 0) begin++;
    first[i] = begin;
    for (let j = begin; j <= i; j++) {
      let sum = lower[i * m + j] as number;
      for (let k = Math.max(begin, first[j] as number); k < j; k++) sum -= (lower[i * m + k] as number) * (lower[j * m + k] as number);
      lower[i * m + j] = i === j ? Math.sqrt(sum) : sum / (lower[j * m + j] as number);
    }
    logDet += 2 * Math.log(lower[i * m + i] as number);
  }
  return logDet;
}

/** out row += weight · row */
function addRow(out: Float64Array, to: number, weight: number, matrix: ArrayLike<number>, from: number, columns: number): void {
  for (let c = 0; c < columns; c++) out[to + c] = (out[to + c] as number) + weight * (matrix[from + c] as number);
}

/** upper triangle of out += weight · row rowᵀ */
function addSquare(out: Float64Array, weight: number, matrix: Float64Array, from: number, columns: number): void {
  for (let a = 0; a < columns; a++) {
    const entry = weight * (matrix[from + a] as number);
    if (entry === 0) continue;
    const to = a * columns;
    for (let b = a; b < columns; b++) out[to + b] = (out[to + b] as number) + entry * (matrix[from + b] as number);
  }
}
