import { describe, expect, test } from "vitest";
import { chiSquareCdf, chiSquareQuantile, fCdf, fQuantile, normalCdf, normalQuantile, studentTCdf, studentTQuantile } from "../../src/numerics/distributions.ts";
import { betaTerm, incompleteBeta, incompleteGamma, logGamma, poissonTerm } from "../../src/numerics/specialFunctions.ts";
import { agrees } from "../helpers/agrees.ts";
import { scipyNumbers, scipySource, type Request } from "./scipyReference.ts";

const probabilities = [1e-8, 0.001, 0.025, 0.16, 0.4, 0.6, 0.84, 0.975, 0.995, 0.9999];
const degrees = [1, 2, 2.5, 4, 7.3, 16.752, 30, 120, 1000.5];

interface Case {
  readonly topic: string;
  readonly request: Request;
  readonly actual: number;
  readonly relative: number;
  /** instead of `relative` */
  readonly within?: number;
}

const tCases = degrees.flatMap((dof) => probabilities.map((p) => [p, dof] as const));
const fPairs = degrees.flatMap((d1) => [1, 3.4, 12, 200].map((d2) => [d1, d2] as const));
const gammas = [0.3, 1, 4.2, 25, 400, 1e5].flatMap((a) => [0.5, 0.95, 1.05, 2].map((share) => [a, share * a] as const));
const betas = [0.2, 1, 6, 80].flatMap((a) => [0.5, 2, 55].flatMap((b) => [0.03, 0.4, 0.92].map((x) => [a, b, x] as const)));

const cases: Case[] = [
  ...[-37, -8.5, -3, -1.96, -0.4, -1e-9, 0, 0.7, 2.6, 5].map((z): Case => ({ topic: "normal", request: ["norm.cdf", [z]], actual: normalCdf(z), relative: 1e-12 })),
  ...[1e-300, 1e-20, ...probabilities].map((p): Case => ({ topic: "normal", request: ["norm.ppf", [p]], actual: normalQuantile(p), relative: 1e-12 })),
  ...degrees.flatMap((dof) => [-60, -5, -2.1, -0.3, 0.2, 1.4, 4, 30].map((t): Case => ({ topic: "Student t", request: ["t.cdf", [t, dof]], actual: studentTCdf(t, dof), relative: 1e-11 }))),
  // SciPy's t quantile is off by up to 2e-9 where its own cumulative shows it (dof 30, p 0.16), so that alone is a loose check;
  // SciPy's cumulative, taken at our quantile, must give the probability back.
  ...tCases.map(([p, dof]): Case => ({ topic: "Student t", request: ["t.ppf", [p, dof]], actual: studentTQuantile(p, dof), relative: 1e-8 })),
  ...tCases.map(([p, dof]): Case => ({ topic: "Student t", request: ["t.cdf", [-Math.abs(studentTQuantile(p, dof)), dof]], actual: Math.min(p, 1 - p), relative: 1e-10 })),
  ...fPairs.flatMap(([d1, d2]) => [0.01, 0.5, 1, 2.7, 40].map((f): Case => ({ topic: "F", request: ["f.cdf", [f, d1, d2]], actual: fCdf(f, d1, d2), relative: 1e-10 }))),
  ...fPairs.flatMap(([d1, d2]) => [0.01, 0.3, 0.5, 0.95, 0.999].map((p): Case => ({ topic: "F", request: ["f.ppf", [p, d1, d2]], actual: fQuantile(p, d1, d2), relative: 1e-10 }))),
  ...degrees.flatMap((dof) => [0.01, 0.9, 5, 30, 1100].map((x): Case => ({ topic: "chi-square", request: ["chi2.cdf", [x, dof]], actual: chiSquareCdf(x, dof), relative: 1e-11 }))),
  ...tCases.map(([p, dof]): Case => ({ topic: "chi-square", request: ["chi2.ppf", [p, dof]], actual: chiSquareQuantile(p, dof), relative: 1e-11 })),
  // ln Γ passes through zero at 1 and 2, so the error near there is absolute
  ...[1e-8, 0.02, 0.5, 1, 1.4, 2, 3.7, 19.9, 20.1, 171, 1e6].map((x): Case => ({ topic: "special functions", request: ["gammaln", [x]], actual: logGamma(x), relative: 5e-15, within: x > 0.9 && x < 2.1 ? 5e-15 : 5e-15 * Math.max(1, Math.abs(logGamma(x))) })),
  ...gammas.map(([a, x]): Case => ({ topic: "special functions", request: ["gammainc", [a, x]], actual: incompleteGamma(a, x).lower, relative: 1e-11 })),
  ...gammas.map(([a, x]): Case => ({ topic: "special functions", request: ["gammaincc", [a, x]], actual: incompleteGamma(a, x).upper, relative: 1e-11 })),
  ...betas.map(([a, b, x]): Case => ({ topic: "special functions", request: ["betainc", [a, b, x]], actual: incompleteBeta(a, b, x).lower, relative: 1e-11 })),
];
const answers = scipyNumbers(cases.map(({ request }) => request));

describe("against SciPy", () => {
  test.each(["normal", "Student t", "F", "chi-square", "special functions"])("%s", (topic) => {
    let compared = 0;
    cases.forEach(({ topic: own, request, actual, relative, within }, i) => {
      if (own !== topic) return;
      compared++;
      const source = `${scipySource}: ${JSON.stringify(request)}`;
      agrees(actual, { expected: answers[i] as number, ...(within === undefined ? { relative } : { within }), source });
    });
    expect(compared).toBeGreaterThan(15);
  });
});

describe("identities", () => {
  test("textbook quantiles", () => {
    const source = "tables of Student's t and of the normal distribution, e.g. JCGM 100:2008 table G.2";
    agrees(studentTQuantile(0.975, 10), { expected: 2.23, within: 0.005, source });
    agrees(studentTQuantile(0.995, 16), { expected: 2.92, within: 0.005, source });
    agrees(1 / normalQuantile(0.75), { expected: 1.482602218505602, relative: 1e-14, source: "scale of the median absolute deviation, 1/Φ⁻¹(3/4)" });
    agrees(studentTQuantile(0.975, 1), { expected: Math.tan(0.475 * Math.PI), relative: 1e-13, source: "one degree of freedom is the Cauchy distribution" });
    agrees(studentTQuantile(0.9, 2), { expected: 0.8 * Math.sqrt(2 / (1 - 0.64)), relative: 1e-13, source: "closed form for two degrees of freedom" });
    agrees(chiSquareQuantile(0.95, 2), { expected: -2 * Math.log(0.05), relative: 1e-13, source: "two degrees of freedom are exponential" });
  });

  test("infinite degrees of freedom are the limits", () => {
    // Welch–Satterthwaite gives any number: where one cause outweighs the rest, 1e20 and more
    for (const dof of [1e5, 1e7, 1e9, 1e12, 1e16, 1e20, 1e49]) {
      for (const p of [0.025, 0.16, 0.975, 0.995]) {
        const z = normalQuantile(p);
        agrees(studentTQuantile(p, dof), { expected: z + (z ** 3 + z) / (4 * dof), relative: 1e-8, source: "Abramowitz & Stegun 26.7.5, first term (from memory)" });
        agrees(studentTCdf(z, dof), { expected: p, within: 1 / dof + 1e-8, source: "the same, turned round" });
      }
    }
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
