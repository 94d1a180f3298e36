import { describe, expect, test } from "vitest";
import { backSubstitute, householder, inverseOfNormal, singularValues } from "../../src/numerics/householder.ts";
import { cholesky, leastSquares, symmetricInverse } from "../../src/numerics/linearAlgebra.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";
import { agreesAll } from "./agreesAll.ts";
import { scipy, scipySource } from "./scipyReference.ts";

const random = seededRandom(3);
const rows = Array.from({ length: 15 }, () => [1, random.normal(), 1e6 * random.normal(), 1e-5 * random.normal()]);
const y = rows.map((row) => 3 * (row[0] as number) - 2 * (row[1] as number) + random.normal());
const columnMajor = (matrix: readonly (readonly number[])[]): Float64Array => Float64Array.from((matrix[0] as readonly number[]).flatMap((_, j) => matrix.map((row) => row[j] as number)));

describe("least squares", () => {
  test("solution and covariance factor agree with NumPy", () => {
    const weights = rows.map((_, i) => 0.2 + i);
    const weighted = rows.map((row, i) => row.map((value) => value * Math.sqrt(weights[i] as number)));
    const normal = [0, 1, 2, 3].map((a) => [0, 1, 2, 3].map((b) => weighted.reduce((total, row) => total + (row[a] as number) * (row[b] as number), 0)));
    const [plain, heavy, inverse] = scipy([["lstsq", [rows, y]], ["lstsq", [weighted, y.map((value, i) => value * Math.sqrt(weights[i] as number))]], ["inverse", [normal]]]) as [number[], number[], number[][]];
    const fit = leastSquares(rows, y);
    const weightedFit = leastSquares(rows, y, weights);
    plain.forEach((expected, j) => agrees(fit.solution[j] as number, { expected, relative: 1e-9, source: scipySource }));
    heavy.forEach((expected, j) => agrees(weightedFit.solution[j] as number, { expected, relative: 1e-9, source: scipySource }));
    inverse.forEach((row, i) => row.forEach((expected, j) => agrees((weightedFit.covarianceFactor[i] as number[])[j] as number, { expected, relative: 1e-7, source: scipySource })));
    expect(fit.rank).toBe(4);
    // residuals stand at right angles to every column
    for (let j = 0; j < 4; j++) expect(Math.abs(rows.reduce((total, row, i) => total + (row[j] as number) * (fit.residuals[i] as number), 0)) / Math.abs((rows[0] as number[])[j] as number)).toBeLessThan(1e-10);
  });

  test.each([
    ["NoInt1", Array.from({ length: 11 }, (_, i) => 60 + i), Array.from({ length: 11 }, (_, i) => 130 + i), 2.07438016528926, 0.0165289256198347],
    ["NoInt2", [4, 5, 6], [3, 4, 4], 0.727272727272727, 0.0420827318078432],
  ] as const)("certified line through the origin: %s", (name, x, values, slope, sd) => {
    const source = `NIST StRD, linear regression, ${name}`;
    const fit = leastSquares(x.map((value) => [value]), values);
    const variance = fit.residuals.reduce((total, residual) => total + residual ** 2, 0) / (x.length - 1);
    agrees(fit.solution[0] as number, { expected: slope, relative: 1e-14, source });
    agrees(Math.sqrt(variance * (fit.covarianceFactor[0]?.[0] as number)), { expected: sd, relative: 1e-13, source });
  });

  test("dependent columns are answered with the rank, not with a number", () => {
    const fit = leastSquares([[1, 2], [2, 4], [3, 6]], [1, 2, 3]);
    expect(fit.rank).toBe(1);
    expect(fit.solution).toEqual([Number.NaN, Number.NaN]);
    expect(fit.conditionNumber).toBe(Infinity);
    expect(leastSquares([[1, 0], [2, 0], [3, 0]], [1, 2, 3]).rank).toBe(1);
    expect(leastSquares([[0], [0]], [1, 2]).rank).toBe(0);
  });

  test("a weight of zero leaves the row out", () => {
    expect(leastSquares([[1], [1], [1]], [4, 6, 1000], [1, 1, 0]).solution[0]).toBeCloseTo(5, 12);
  });

  test("wrong calls", () => {
    for (const wrong of [() => leastSquares([], []), () => leastSquares([[1, 2]], [1]), () => leastSquares([[1], [1]], [1]), () => leastSquares([[1], [1]], [1, Number.NaN]), () => leastSquares([[1], [1]], [1, 1], [1, -1]), () => leastSquares([[1], [1, 2]], [1, 1])]) expect(wrong).toThrow(RangeError);
  });
});

describe("decompositions", () => {
  const wellKept = [[4, 2, 0.5], [2, 5, 1], [0.5, 1, 3]];

  test("cholesky and inverse agree with NumPy", () => {
    const [factor, inverse] = scipy([["cholesky", [wellKept]], ["inverse", [wellKept]]]) as [number[][], number[][]];
    factor.forEach((row, i) => agreesAll((cholesky(wellKept) as number[][])[i] as number[], row, 1e-14, scipySource));
    inverse.forEach((row, i) => agreesAll((symmetricInverse(wellKept) as number[][])[i] as number[], row, 1e-14, scipySource));
  });

  test("inverse of a covariance whose parameters differ by twenty powers of ten", () => {
    const source = "inverse of a 2 × 2 matrix by hand";
    const inverse = symmetricInverse([[1e10, 0.5], [0.5, 1e-10]]) as number[][];
    agrees((inverse[0] as number[])[0] as number, { expected: 1e-10 / 0.75, relative: 1e-12, source });
    agrees((inverse[0] as number[])[1] as number, { expected: -0.5 / 0.75, relative: 1e-12, source });
    agrees((inverse[1] as number[])[1] as number, { expected: 1e10 / 0.75, relative: 1e-12, source });
  });

  test("not positive definite gives null", () => {
    expect(cholesky([[1, 2], [2, 1]])).toBeNull();
    expect(symmetricInverse([[1, 1], [1, 1]])).toBeNull();
    expect(symmetricInverse([[-1]])).toBeNull();
    expect(cholesky([[Number.NaN]])).toBeNull();
    expect(() => cholesky([[1, 2]])).toThrow(RangeError);
  });

  test("singular values agree with NumPy", () => {
    const square = rows.slice(0, 4);
    const [expected] = scipy([["svd", [square]]]) as [number[]];
    const actual = singularValues(columnMajor(square), 4);
    // NumPy's are exact to the largest one only
    expected.forEach((value, i) => agrees(actual[i] as number, { expected: value, within: 1e-15 * (expected[0] as number) + 1e-9 * value, source: scipySource }));
  });

  test("the triangle reproduces the normal matrix, solves and inverts", () => {
    const a = columnMajor(rows.map((row) => row.slice(0, 2)));
    const { r, turned } = householder(Float64Array.from(a), Float64Array.from(y), 15, 2);
    const normal = [0, 1].map((p) => [0, 1].map((q) => rows.reduce((total, row) => total + (row[p] as number) * (row[q] as number), 0)));
    const source = "RᵀR = AᵀA";
    agrees((r[0] as number) ** 2, { expected: normal[0]?.[0] as number, relative: 1e-14, source });
    agrees((r[0] as number) * (r[2] as number), { expected: normal[0]?.[1] as number, within: 1e-13, source });
    agrees((r[2] as number) ** 2 + (r[3] as number) ** 2, { expected: normal[1]?.[1] as number, relative: 1e-14, source });
    expect(r[1]).toBe(0);
    const x = backSubstitute(r, turned, 2);
    agrees((r[0] as number) * (x[0] as number) + (r[2] as number) * (x[1] as number), { expected: turned[0] as number, relative: 1e-13, source: "R x = Qᵀy" });
    const inverse = inverseOfNormal(r, 2);
    agrees((inverse[0] as number) * (normal[0]?.[0] as number) + (inverse[2] as number) * (normal[1]?.[0] as number), { expected: 1, within: 1e-12, source: "A⁻¹A = 1" });
  });
});
