import { expect, test } from "vitest";
import type { Fit } from "../../src/core/fit.ts";
import { deflectionAt, deflectionCurveFrom } from "../../src/processing/deflectionCurve.ts";
import { plan } from "../helpers/pressRun.ts";

function run(id: string, rate: number, greatestN: number, wheel = "W1") {
  const points = Array.from({ length: 25 }, (_, index) => ({ run: id, x: (greatestN * (index + 1)) / 25, y: (greatestN * (index + 1)) / 25 / rate, yUncertainty: 2e-5, kept: true, reason: "" }));
  const fit: Fit = { model: "", formula: "", parameters: [], covariance: [], points, residuals: [], degreesOfFreedom: 0, verdict: "determined", sentence: "", findings: [] };
  return { plan: plan("loadDeflection", { id, wheel }), fits: [fit] };
}

test("the mean of the runs up to the load that all reached", () => {
  const curve = deflectionCurveFrom("W1", [run("a", 20e3, 100), run("b", 25e3, 80), run("c", 1e3, 90, "W2")]);
  expect(curve?.runs).toEqual(["a", "b"]);
  const at = deflectionAt(curve as NonNullable<typeof curve>, 50);
  expect(at.value).toBeCloseTo((50 / 20e3 + 50 / 25e3) / 2, 9);
  // scatter of 2.5 and 2.0 mm: sd 0.354 mm, of the mean 0.25 mm, with 0.02 mm beside it
  expect(at.standardUncertainty).toBeCloseTo(Math.hypot(2.5e-4, 2e-5), 8);
});

test("beyond the loads measured there is no answer", () => {
  const curve = deflectionCurveFrom("W1", [run("a", 20e3, 100)]) as NonNullable<ReturnType<typeof deflectionCurveFrom>>;
  expect(deflectionAt(curve, 0).value).toBe(0);
  expect(deflectionAt(curve, 100).standardUncertainty).toBeCloseTo(2e-5, 12);
  for (const load of [100.1, -1, Number.NaN]) {
    expect(deflectionAt(curve, load).standardUncertainty).toBeNull();
    expect(deflectionAt(curve, load).value).toBeNaN();
  }
  expect(deflectionAt(curve, 120).method).toContain("outside");
});

test("a wheel without runs has no curve", () => {
  expect(deflectionCurveFrom("W9", [run("a", 20e3, 100)])).toBeNull();
});
