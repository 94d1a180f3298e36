import { describe, expect, test } from "vitest";
import { chiSquareCdf, chiSquareQuantile, fCdf, fQuantile, normalCdf, normalQuantile, studentTCdf, studentTQuantile } from "../../src/numerics/distributions.ts";
import { betaTerm, incompleteBeta, incompleteGamma, logGamma, poissonTerm } from "../../src/numerics/specialFunctions.ts";
import { agrees } from "../helpers/agrees.ts";
import { scipyNumbers, scipySource, type Request } from "./scipyReference.ts";

const probabilities = [1e-8, 0.001, 0.025, 0.16, 0.4, 0.6, 0.84, 0.975, 0.995, 0.9999];
const degrees = [1, 2, 2.5, 4, 7.3, 16.752, 30, 120, 1000.5];

/** Compares many calls with SciPy at a relative tolerance. */
function compare(rows: readonly { request: Request; actual: number }[], relative: number): void {
  scipyNumbers(rows.map((row) => row.request)).forEach((expected, i) => {
    agrees((rows[i] as { actual: number }).actual, { expected, relative, source: `${scipySource}: ${JSON.stringify((rows[i] as { request: Request }).request)}` });
  });
}

describe("against SciPy", () => {
  test("normal", () => {
    const rows = [-37, -8.5, -3, -1.96, -0.4, -1e-9, 0, 0.7, 2.6, 5].map((z) => ({ request: ["norm.cdf", [z]] as const, actual: normalCdf(z) }));
    compare(rows, 1e-12);
    compare([1e-300, 1e-20, ...probabilities].map((p) => ({ request: ["norm.ppf", [p]] as const, actual: normalQuantile(p) })), 1e-12);
  });

  test("Student t, cumulative", () => {
    compare(degrees.flatMap((dof) => [-60, -5, -2.1, -0.3, 0.2, 1.4, 4, 30].map((t) => ({ request: ["t.cdf", [t, dof]] as const, actual: studentTCdf(t, dof) }))), 1e-11);
  });

  test("Student t, quantile", () => {
    // SciPy's t quantile is off by up to 2e-9 where its own cumulative shows it (dof 30, p 0.16), so that alone is a loose check.
    const cases = degrees.flatMap((dof) => probabilities.map((p) => [p, dof] as const));
    compare(cases.map(([p, dof]) => ({ request: ["t.ppf", [p, dof]] as const, actual: studentTQuantile(p, dof) })), 1e-8);
    // SciPy's cumulative, taken at our quantile, must give the probability back.
    const lower = cases.map(([p, dof]) => (p < 0.5 ? studentTQuantile(p, dof) : -studentTQuantile(p, dof)));
    scipyNumbers(cases.map(([, dof], i) => ["t.cdf", [lower[i], dof]])).forEach((tail, i) => {
      const [p] = cases[i] as readonly [number, number];
      agrees(Math.min(p, 1 - p), { expected: tail, relative: 1e-10, source: `${scipySource}: t.cdf` });
    });
  });

  test("F", () => {
    const pairs = degrees.flatMap((d1) => [1, 3.4, 12, 200].map((d2) => [d1, d2] as const));
    compare(pairs.flatMap(([d1, d2]) => [0.01, 0.5, 1, 2.7, 40].map((f) => ({ request: ["f.cdf", [f, d1, d2]] as const, actual: fCdf(f, d1, d2) }))), 1e-10);
    compare(pairs.flatMap(([d1, d2]) => [0.01, 0.3, 0.5, 0.95, 0.999].map((p) => ({ request: ["f.ppf", [p, d1, d2]] as const, actual: fQuantile(p, d1, d2) }))), 1e-10);
  });

  test("chi-square", () => {
    compare(degrees.flatMap((dof) => [0.01, 0.9, 5, 30, 1100].map((x) => ({ request: ["chi2.cdf", [x, dof]] as const, actual: chiSquareCdf(x, dof) }))), 1e-11);
    compare(degrees.flatMap((dof) => probabilities.map((p) => ({ request: ["chi2.ppf", [p, dof]] as const, actual: chiSquareQuantile(p, dof) }))), 1e-11);
  });

  test("special functions", () => {
    // ln Γ passes through zero at 1 and 2, so the error there is absolute
    const points = [1e-8, 0.02, 0.5, 1, 1.4, 2, 3.7, 19.9, 20.1, 171, 1e6];
    scipyNumbers(points.map((x) => ["gammaln", [x]])).forEach((expected, i) => agrees(logGamma(points[i] as number), { expected, within: 5e-15 * Math.max(1, Math.abs(expected)), source: scipySource }));
    const gammas = [0.3, 1, 4.2, 25, 400, 1e5].flatMap((a) => [0.5, 0.95, 1.05, 2].map((share) => [a, share * a] as const));
    compare(gammas.map(([a, x]) => ({ request: ["gammainc", [a, x]] as const, actual: incompleteGamma(a, x).lower })), 1e-11);
    compare(gammas.map(([a, x]) => ({ request: ["gammaincc", [a, x]] as const, actual: incompleteGamma(a, x).upper })), 1e-11);
    const betas = [0.2, 1, 6, 80].flatMap((a) => [0.5, 2, 55].flatMap((b) => [0.03, 0.4, 0.92].map((x) => [a, b, x] as const)));
    compare(betas.map(([a, b, x]) => ({ request: ["betainc", [a, b, x]] as const, actual: incompleteBeta(a, b, x).lower })), 1e-11);
  });
});

describe("identities", () => {
  test("textbook quantiles", () => {
    const source = "tables of Student's t and of the normal distribution, e.g. JCGM 100:2008 table G.2";
    agrees(studentTQuantile(0.975, 10), { expected: 2.23, within: 0.005, source });
    agrees(studentTQuantile(0.995, 16), { expected: 2.92, within: 0.005, source });
    agrees(studentTQuantile(0.975, 1), { expected: Math.tan(0.475 * Math.PI), relative: 1e-13, source: "one degree of freedom is the Cauchy distribution" });
    agrees(studentTQuantile(0.9, 2), { expected: 0.8 * Math.sqrt(2 / (1 - 0.64)), relative: 1e-13, source: "closed form for two degrees of freedom" });
    agrees(chiSquareQuantile(0.95, 2), { expected: -2 * Math.log(0.05), relative: 1e-13, source: "two degrees of freedom are exponential" });
  });

  test("infinite degrees of freedom are the limits", () => {
    expect(studentTQuantile(0.975, Infinity)).toBe(normalQuantile(0.975));
    expect(studentTCdf(1.3, Infinity)).toBe(normalCdf(1.3));
    agrees(fQuantile(0.95, 3, Infinity), { expected: chiSquareQuantile(0.95, 3) / 3, relative: 1e-13, source: "F with infinite denominator is χ²/ν" });
    agrees(fQuantile(0.05, Infinity, 3), { expected: 1 / fQuantile(0.95, 3, Infinity), relative: 1e-12, source: "F turned over" });
    agrees(fCdf(2, Infinity, 5), { expected: fCdf(2, 1e12, 5), relative: 1e-9, source: "limit of F" });
    agrees(studentTCdf(-2, 1e9), { expected: normalCdf(-2), relative: 1e-7, source: "limit of t" });
  });

  test("quantile and cumulative undo each other", () => {
    for (const dof of [0.7, 3.3, 55, 2e5]) {
      for (const p of [1e-12, 0.03, 0.5, 0.77, 0.999]) {
        const source = "definition of the quantile";
        agrees(studentTCdf(studentTQuantile(p, dof), dof), { expected: p, relative: 1e-11, source });
        agrees(chiSquareCdf(chiSquareQuantile(p, dof), dof), { expected: p, relative: 1e-11, source });
        agrees(fCdf(fQuantile(p, dof, 9.5), dof, 9.5), { expected: p, relative: 1e-11, source });
      }
    }
  });

  test("terms", () => {
    agrees(poissonTerm(4, 2.5), { expected: (2.5 ** 4 * Math.exp(-2.5)) / 24, relative: 1e-14, source: "definition" });
    agrees(betaTerm(2, 3, 0.3, 0.7), { expected: 0.3 ** 2 * 0.7 ** 3 * 12, relative: 1e-14, source: "definition, 1/B(2, 3) = 12" });
    agrees(betaTerm(0.5, 0.5, 0.25, 0.75), { expected: Math.sqrt(0.25 * 0.75) / Math.PI, relative: 1e-14, source: "definition, B(½, ½) = π" });
    agrees(betaTerm(0.5, 30, 0.01, 0.99), { expected: Math.exp(0.5 * Math.log(0.01) + 30 * Math.log(0.99) + logGamma(30.5) - logGamma(0.5) - logGamma(30)), relative: 1e-13, source: "definition" });
  });

  test("ends and wrong calls", () => {
    expect([normalQuantile(0), normalQuantile(0.5), normalQuantile(1)]).toEqual([-Infinity, 0, Infinity]);
    expect([normalCdf(-Infinity), normalCdf(Infinity)]).toEqual([0, 1]);
    expect([studentTCdf(-Infinity, 3), studentTCdf(Infinity, 3), fCdf(Infinity, 2, 2), chiSquareCdf(Infinity, 2)]).toEqual([0, 1, 1, 1]);
    expect([fQuantile(0, 2, 3), fQuantile(1, 2, 3), chiSquareQuantile(1, 3)]).toEqual([0, Infinity, Infinity]);
    expect([normalCdf(Number.NaN), studentTCdf(Number.NaN, 4)]).toEqual([Number.NaN, Number.NaN]);
    for (const wrong of [() => studentTQuantile(1.1, 3), () => studentTQuantile(0.5, 0), () => fQuantile(0.5, 3, -1), () => chiSquareQuantile(0.5, Infinity), () => chiSquareCdf(-1, 3), () => fCdf(-1, 2, 2), () => logGamma(0), () => incompleteBeta(0, 1, 0.5), () => incompleteBeta(1, 1, 1.5), () => incompleteGamma(-1, 1), () => incompleteGamma(1, -1)]) {
      expect(wrong).toThrow(RangeError);
    }
  });
});
