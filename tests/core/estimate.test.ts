import { describe, expect, it } from "vitest";
import { combine, estimateFrom, mergeRows, partial, undetermined } from "../../src/core/estimate.ts";
import type { BudgetRow } from "../../src/core/estimate.ts";
import { agrees } from "../helpers/agrees.ts";

const row = (cause: string, effect: number, degreesOfFreedom = Infinity, sharedBy: string | null = null): BudgetRow => ({ cause, effect, sharedBy, degreesOfFreedom });

describe("estimateFrom", () => {
  it("adds independent causes in quadrature", () => {
    expect(estimateFrom(10, "N", "sum", [row("a", 3), row("b", -4)]).standardUncertainty).toBe(5);
  });

  it("adds equal causes with their signs before squaring", () => {
    expect(estimateFrom(10, "N", "sum", [row("a", 3), row("a", 4)]).standardUncertainty).toBe(7);
    expect(estimateFrom(10, "N", "sum", [row("a", 3), row("a", -3), row("b", 2)]).standardUncertainty).toBe(2);
  });

  it("drops causes that cancel, and lists the largest first", () => {
    expect(mergeRows([row("a", 3), row("b", -5), row("a", -3)]).map((one) => one.cause)).toEqual(["b"]);
    expect(mergeRows([row("a", 1), row("b", -5)]).map((one) => one.cause)).toEqual(["b", "a"]);
  });

  it("finds the effective degrees of freedom", () => {
    // (1² + 1²)² / (1⁴/4 + 1⁴/4) = 8; stated and counted causes: (1 + 1)² / (1/5 + 0) = 20.
    agrees(estimateFrom(0, "N", "m", [row("a", 1, 4), row("b", 1, 4)]).degreesOfFreedom, { expected: 8, relative: 1e-12, source: "Welch–Satterthwaite, JCGM 100:2008 G.4.1, worked by hand" });
    agrees(estimateFrom(0, "N", "m", [row("a", 1, 5), row("b", 1)]).degreesOfFreedom, { expected: 20, relative: 1e-12, source: "Welch–Satterthwaite, JCGM 100:2008 G.4.1, worked by hand" });
    expect(estimateFrom(1, "N", "m", [row("a", 1)]).degreesOfFreedom).toBe(Infinity);
  });

  it("states no uncertainty for a value that is no number", () => {
    expect(estimateFrom(Number.NaN, "N", "m", [row("a", 1)]).standardUncertainty).toBeNull();
  });
});

describe("combine", () => {
  const pull = estimateFrom(100, "N", "pull", [row("calibration C1", 1, Infinity, "calibration C1"), row("noise of pull", 2)]);
  const load = estimateFrom(400, "N", "load", [row("calibration C1", 4, Infinity, "calibration C1"), row("noise of load", 3)]);

  it("lets a gain shared by numerator and denominator cancel in the ratio", () => {
    const ratio = combine([pull, load], (f, w) => (f as number) / (w as number), "1", "pull over load");
    expect(ratio.value).toBe(0.25);
    // ∂/∂F = 1/400, ∂/∂W = −100/400²: the shared 1 % of both vanishes, the noises add in quadrature.
    agrees(ratio.standardUncertainty as number, { expected: Math.hypot(2 / 400, (3 * 100) / 400 ** 2), relative: 1e-6, source: "JCGM 100:2008 5.1.2, derivatives worked by hand" });
    // Each part is 0.0025; what is left is the truncation of the difference quotient, (0.1 u / x)² ≈ 2e-6 of it.
    expect(Math.abs(ratio.budget.find((one) => one.cause === "calibration C1")?.effect ?? 0)).toBeLessThan(1e-8);
  });

  it("adds a shared cause linearly in a sum", () => {
    const sum = combine([pull, load], (f, w) => (f as number) + (w as number), "N", "sum");
    agrees(sum.standardUncertainty as number, { expected: Math.sqrt(5 ** 2 + 2 ** 2 + 3 ** 2), relative: 1e-6, source: "JCGM 100:2008 5.2.2, correlation +1, worked by hand" });
    expect(sum.budget[0]?.sharedBy).toBe("calibration C1");
  });

  it("passes on that an input has no uncertainty, and why", () => {
    const unknown = combine([pull, undetermined("N", "too few revolutions", 3)], (f, w) => (f as number) + (w as number), "N", "sum");
    expect(unknown.value).toBe(103);
    expect(unknown.standardUncertainty).toBeNull();
    expect(unknown.method).toContain("too few revolutions");
  });

  it("differentiates to rounding", () => {
    agrees(partial((x) => (x as number) ** 3, [2], 0, 0.01), { expected: 12, relative: 1e-6, source: "d(x³)/dx = 3x², worked by hand" });
  });
});
