/** Which group each datum belongs to, counted from 0; −1 = none. One list a grouping. */
export type Grouping = readonly number[];

/** The covariance of grouped data, factored. */
export interface GroupedNormal {
  /** ln |V| */
  readonly logDet: number;
  /** rᵀ V⁻¹ r */
  readonly quad: (residuals: ArrayLike<number>) => number;
  /** out += Cᵀ V⁻¹ C of a matrix of so many columns, all row by row; its upper triangle only */
  readonly addGram: (out: Float64Array, matrix: Float64Array, columns: number) => void;
}

/**
 * The normal distribution of data that share deviations in groups, without ever writing their covariance down.
 *
 *   V = D + Σ_g σ_g² Z_g Z_gᵀ        D diagonal, Z_g: which datum is in which group
 *   V⁻¹ = D⁻¹ − D⁻¹ Z M⁻¹ Zᵀ D⁻¹,  M = G⁻¹ + Zᵀ D⁻¹ Z,  |V| = |D| |G| |M|        G: σ_g² of each group
 *
 * Work grows with the data, and with the cube of the number of groups of all groupings but the first. Who belongs with whom
 * is worked out once, for all variances.
 *
 * @param groupings   one a σ
 * @returns           of the diagonal of D and the σ_g², all above zero: ln |V|, and products with V⁻¹ [1 over the square of the data's unit]
 * @throws            when called, RangeError if a variance is not above zero
 * @source            Woodbury's identity and its determinant lemma; textbook
 * @checked           tests/numerics/groupedNormal.test.ts
 */
export function groupedNormal(groupings: readonly Grouping[]): (own: ArrayLike<number>, variances: readonly number[]) => GroupedNormal {
  const sizes = groupings.map((places) => places.reduce((most, place) => Math.max(most, place + 1), 0));
  const starts = sizes.map((_, g) => sizes.slice(0, g).reduce((sum, size) => sum + size, 0));
  const m = sizes.reduce((sum, size) => sum + size, 0);
  /** the groups of each datum, counted through all groupings */
  const none: readonly number[] = [];
  const groups = (groupings[0] ?? []).map((_, i) => groupings.flatMap((places, g) => ((places[i] as number) < 0 ? [] : [(starts[g] as number) + (places[i] as number)])));
  return (own, variances) => {
    if (!variances.every((value) => value > 0) || !allAboveZero(own)) throw new RangeError("groupedNormal: expected variances above 0");
    const n = own.length;
    const lower = new Float64Array(m * m);
    let logDet = 0;
    for (let i = 0; i < n; i++) {
      logDet += Math.log(own[i] as number);
      const mine = groups[i] ?? none;
      const weight = 1 / (own[i] as number);
      for (let a = 0; a < mine.length; a++) {
        const row = (mine[a] as number) * m;
        for (let b = 0; b < mine.length; b++) lower[row + (mine[b] as number)] = (lower[row + (mine[b] as number)] as number) + weight;
      }
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
        const mine = groups[i] ?? none;
        for (let k = 0; k < mine.length; k++) addRow(out, (mine[k] as number) * columns, weight, matrix, i * columns, columns);
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
      addGram(out, matrix, columns) {
        addSquares(out, (i) => 1 / (own[i] as number), matrix, n, columns);
        addSquares(out, () => -1, reduced(matrix, columns), m, columns);
      },
    };
  };
}

function allAboveZero(values: ArrayLike<number>): boolean {
  for (let i = 0; i < values.length; i++) if (!((values[i] as number) > 0)) return false;
  return true;
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

/** upper triangle of out += Σ weight · row rowᵀ; four rows at a time, so that what is summed up is fetched and put back a quarter as often */
function addSquares(out: Float64Array, weight: (row: number) => number, matrix: Float64Array, rows: number, columns: number): void {
  let i = 0;
  for (; i + 3 < rows; i += 4) {
    const first = i * columns;
    const second = first + columns;
    const third = second + columns;
    const fourth = third + columns;
    for (let a = 0; a < columns; a++) {
      const e = weight(i) * (matrix[first + a] as number);
      const f = weight(i + 1) * (matrix[second + a] as number);
      const g = weight(i + 2) * (matrix[third + a] as number);
      const h = weight(i + 3) * (matrix[fourth + a] as number);
      const to = a * columns;
      for (let b = a; b < columns; b++) out[to + b] = (out[to + b] as number) + e * (matrix[first + b] as number) + f * (matrix[second + b] as number) + g * (matrix[third + b] as number) + h * (matrix[fourth + b] as number);
    }
  }
  for (; i < rows; i++) {
    for (let a = 0; a < columns; a++) addRow(out, a * columns + a, weight(i) * (matrix[i * columns + a] as number), matrix, i * columns + a, columns - a);
  }
}
