import { householder, inverseOfNormal, singularValues } from "./householder.ts";

/**
 * Inverse of the normal matrix of a Jacobian, from its QR with the columns scaled to length one.
 *
 *   (JᵀJ)⁻¹ = D (RᵀR)⁻¹ D,   J D = Q R,   D = diag(1/|Jⱼ|)
 *
 * Unit: product of the two parameters' units over the residual's squared. Never squares the condition number.
 *
 * @param jacobian n × count, column-major; null when there is none
 * @param n        number of rows
 * @param count    number of columns
 * @returns        { factor, conditionNumber }; the factor is NaN throughout when a column is zero, not finite or, to the
 *                 digits of differenced slopes, a combination of the others
 * @source         Golub & Van Loan, Matrix Computations, section 5.3 (from memory)
 * @checked        tests/numerics/curveFit.test.ts
 */
export function covarianceFactor(jacobian: Float64Array | null, n: number, count: number): { factor: number[][]; conditionNumber: number } {
  const nothing = { factor: Array.from({ length: count }, () => new Array<number>(count).fill(Number.NaN)), conditionNumber: Infinity };
  if (jacobian === null || !allFinite(jacobian)) return nothing;
  const lengths = columnLengths(jacobian, n, count);
  if (lengths.some((length) => !(length > 0 && length < Infinity))) return nothing;
  const scaled = jacobian.slice();
  for (let at = 0; at < scaled.length; at++) scaled[at] = (scaled[at] as number) / (lengths[Math.floor(at / n)] as number);
  const { r } = householder(scaled, new Float64Array(n), n, count);
  const singular = singularValues(r, count);
  const conditionNumber = (singular[0] as number) / (singular[count - 1] as number);
  // Differenced slopes carry about 10 digits; beyond that the last direction is rounding.
  if (!(conditionNumber < 1e12)) return { ...nothing, conditionNumber };
  const inverse = inverseOfNormal(r, count);
  return { factor: lengths.map((left, i) => lengths.map((right, j) => (inverse[i * count + j] as number) / left / right)), conditionNumber };
}

/**
 * Lengths of the columns of a matrix.
 *
 *   |Jⱼ| = √ Σᵢ Jᵢⱼ²
 *
 * @param jacobian n × count, column-major
 * @param n        number of rows
 * @param count    number of columns
 * @returns        one length per column
 * @source         definition
 * @checked        tests/numerics/curveFit.test.ts
 */
export function columnLengths(jacobian: Float64Array, n: number, count: number): number[] {
  const lengths: number[] = [];
  for (let j = 0; j < count; j++) {
    let squares = 0;
    for (let i = j * n; i < (j + 1) * n; i++) squares += (jacobian[i] as number) ** 2;
    lengths.push(Math.sqrt(squares));
  }
  return lengths;
}

/**
 * Whether every value is a finite number.
 *
 * @param values any
 * @returns      false if there is a NaN or an Infinity
 * @source       definition
 * @checked      tests/numerics/curveFit.test.ts
 */
export function allFinite(values: Float64Array): boolean {
  for (let i = 0; i < values.length; i++) if (!Number.isFinite(values[i])) return false;
  return true;
}
