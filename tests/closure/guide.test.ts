import { expect, it } from "vitest";
import { combine, estimateFrom } from "../../src/core/estimate.ts";
import type { BudgetRow, Estimate } from "../../src/core/estimate.ts";
import { studentTQuantile } from "../../src/numerics/distributions.ts";
import { lineFit } from "../../src/numerics/lineFit.ts";
import { monteCarlo } from "../../src/numerics/monteCarlo.ts";
import { mean, standardDeviation } from "../../src/numerics/statistics.ts";
import { derive } from "../../src/processing/measures/reading.ts";
import type { Reading } from "../../src/processing/measures/reading.ts";
import { agrees } from "../helpers/agrees.ts";

const row = (cause: string, effect: number, degreesOfFreedom: number): BudgetRow => ({ cause, effect, sharedBy: null, degreesOfFreedom });

it("end gauge: combined uncertainty, effective degrees of freedom, expanded uncertainty [nm]", () => {
  const rows = [row("length of the standard", 25, 18), row("repeats", 5.8, 24), row("random comparator error", 3.9, 5), row("systematic comparator error", 6.7, 8), row("difference of temperature", 16.6, 2), row("difference of expansion", 2.9, 50)];
  const { standardUncertainty, degreesOfFreedom } = estimateFrom(50_000_838, "m", "H.1", rows);
  const source = "JCGM 100:2008, H.1.3.4, H.1.6 and table H.1: u = 32, ν = 16, U99 = 93";
  agrees(standardUncertainty as number, { expected: 32, within: 0.5, source });
  expect(Math.floor(degreesOfFreedom), source).toBe(16);
  agrees(studentTQuantile(0.995, 16) * Math.round(standardUncertainty as number), { expected: 93, within: 0.6, source });
});

it("end gauge: what the first-order budget leaves out, trials of the formula bring [nm]", () => {
  // l = l_s + d − l_s (δα θ + α_s δθ), both products of quantities near zero or doubtful; l_s 50 mm
  const { standardUncertainty } = monteCarlo((random) => {
    const within = (half: number): number => half * (2 * random.uniform() - 1);
    const theta = -0.1 + 0.2 * random.normal() + 0.5 * Math.sin(2 * Math.PI * random.uniform());
    return 25 * random.normal() + 9.68 * random.normal() - 50e6 * (within(1e-6) * theta + (11.5e-6 + within(2e-6)) * within(0.05));
  }, { seed: 3, digits: 2, probability: 0.95, most: 400_000 });
  agrees(standardUncertainty, { expected: 34, within: 0.5, source: "JCGM 100:2008, H.1.7: 34 nm with the second-order terms, 32 nm without" });
});

const volts = [5.007, 4.994, 5.005, 4.99, 4.999];
const amperes = [19.663e-3, 19.639e-3, 19.64e-3, 19.685e-3, 19.678e-3];
const radians = [1.0456, 1.0438, 1.0468, 1.0428, 1.0433];
const impedance = {
  resistance: (v = 0, i = 1, phi = 0): number => (v / i) * Math.cos(phi),
  reactance: (v = 0, i = 1, phi = 0): number => (v / i) * Math.sin(phi),
  impedance: (v = 0, i = 1): number => v / i,
};
const expected = { resistance: [127.732, 0.071], reactance: [219.847, 0.295], impedance: [254.26, 0.236] } as const;
const guide = "JCGM 100:2008, H.2, tables H.2 and H.4; data as R package propagate holds them";

it("resistance and reactance from readings taken together: their correlation is in the scatter of the function [Ω]", () => {
  const readings: Reading[] = [volts, amperes, radians].map((values) => ({ unit: "1", value: mean(values), perRevolution: values, rows: [] }));
  for (const name of ["resistance", "reactance", "impedance"] as const) {
    const result = derive(readings, impedance[name], "1");
    agrees(result.value, { expected: expected[name][0], within: 0.001, source: guide });
    agrees(standardDeviation(result.perRevolution) / Math.sqrt(5), { expected: expected[name][1], within: 0.001, source: guide });
  }
});

it("the same from correlated inputs, split into causes that are not correlated [Ω]", () => {
  // Cholesky factor of the correlations of the means: r(V, I) = −0.36, r(V, φ) = 0.86, r(I, φ) = −0.65
  const u = [volts, amperes, radians].map((values) => standardDeviation(values) / Math.sqrt(5)) as [number, number, number];
  const correlation = (a: readonly number[], b: readonly number[]): number => a.reduce((sum, value, i) => sum + (value - mean(a)) * ((b[i] as number) - mean(b)), 0) / (4 * standardDeviation(a) * standardDeviation(b));
  const [vi, vp, ip] = [correlation(volts, amperes), correlation(volts, radians), correlation(amperes, radians)];
  agrees(vi, { expected: -0.36, within: 0.005, source: guide });
  agrees(vp, { expected: 0.86, within: 0.005, source: guide });
  agrees(ip, { expected: -0.65, within: 0.006, source: guide });
  const second = Math.sqrt(1 - vi ** 2);
  const third = (ip - vi * vp) / second;
  const voltage = estimateFrom(mean(volts), "V", "V", [row("a", u[0], 4)]);
  const current = estimateFrom(mean(amperes), "A", "I", [row("a", u[1] * vi, 4), row("b", u[1] * second, 4)]);
  const phase = estimateFrom(mean(radians), "rad", "φ", [row("a", u[2] * vp, 4), row("b", u[2] * third, 4), row("c", u[2] * Math.sqrt(1 - vp ** 2 - third ** 2), 4)]);
  const results = (["resistance", "reactance", "impedance"] as const).map((name) => combine([voltage, current, phase], impedance[name], "1", name));
  results.forEach(({ standardUncertainty }, i) => agrees(standardUncertainty as number, { expected: Object.values(expected)[i]?.[1] ?? NaN, within: 0.0015, source: guide }));
  // the rows of two results tell how they move together
  const together = (i: number, j: number): number => {
    const [first, second] = [results[i], results[j]] as [Estimate, Estimate];
    return first.budget.reduce((sum, one) => sum + one.effect * (second.budget.find(({ cause }) => cause === one.cause)?.effect ?? 0), 0) / ((first.standardUncertainty as number) * (second.standardUncertainty as number));
  };
  for (const [i, j, correlation] of [[0, 1, -0.588], [0, 2, -0.485], [1, 2, 0.993]] as const) agrees(together(i, j), { expected: correlation, within: 0.001, source: guide });
});

it("a thermometer's calibration line, its correlation and a correction read beyond the data [°C]", () => {
  const temperatures = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
  const corrections = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
  const { intercept, slope, covariance } = lineFit(temperatures.map((value) => value - 20), corrections);
  const [[aa, ab], [, bb]] = covariance;
  const source = "JCGM 100:2008, H.3.2 to H.3.4";
  agrees(intercept, { expected: -0.1712, within: 5e-5, source });
  agrees(Math.sqrt(aa), { expected: 0.0029, within: 5e-5, source });
  agrees(slope, { expected: 0.00218, within: 5e-6, source });
  agrees(Math.sqrt(bb), { expected: 0.00067, within: 5e-6, source });
  agrees(ab / Math.sqrt(aa * bb), { expected: -0.93, within: 0.005, source });
  agrees(intercept + 10 * slope, { expected: -0.1494, within: 5e-5, source });
  agrees(Math.sqrt(aa + 20 * ab + 100 * bb), { expected: 0.0041, within: 5e-5, source });
  const common = estimateFrom(intercept, "K", "intercept", [row("scatter about the line", Math.sqrt(aa), 9), row("common to all corrections", 0.005, Infinity)]);
  const shared = "JCGM 100:2008, H.3, with 0.005 °C common to all corrections added as the documentation of the uncertainty library GTC works it: u 0.0058, ν 145";
  agrees(common.standardUncertainty as number, { expected: 0.00576893, relative: 1e-5, source: shared });
  agrees(common.degreesOfFreedom, { expected: 145.4, within: 0.05, source: shared });
});
