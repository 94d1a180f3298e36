import { describe, expect, test } from "vitest";
import { whitening } from "../../src/numerics/whitening.ts";
import { agrees } from "../helpers/agrees.ts";

describe("two data that share half their variance, and one by itself between them", () => {
  const { whiten, colour, logDeterminant } = whitening([{ indices: [0, 2], covariance: [[4, 2], [2, 5]] }, { indices: [1], covariance: [[9]] }]);

  test("sum of squares is rᵀV⁻¹r", () => {
    const sum = whiten([1, 3, 3]).reduce((total, value) => total + value ** 2, 0);
    agrees(sum, { expected: (5 * 1 - 2 * 2 * 1 * 3 + 4 * 9) / 16 + 1, relative: 1e-14, source: "inverse of a 2 × 2 matrix by hand" });
  });

  test("determinant", () => agrees(logDeterminant, { expected: Math.log(16 * 9), relative: 1e-14, source: "4·5 − 2² = 16, times 9, by hand" }));

  test("back again", () => colour(whiten([1, 3, -2])).forEach((value, i) => expect(value).toBeCloseTo([1, 3, -2][i] as number, 14)));

  test("no number where one of a block is missing, the others as before", () => {
    expect(whiten([1, 3, Number.NaN])[2]).toBeNaN();
    expect(whiten([Number.NaN, 3, 1])[2]).toBeNaN();
    expect(whiten([1, 3, Number.NaN])[1]).toBe(1);
  });
});

test("no covariance, refused", () => expect(() => whitening([{ indices: [0, 1], covariance: [[1, 2], [2, 1]] }])).toThrow("positive definite"));
