import { describe, expect, test } from "vitest";
import { estimateFrom, undetermined } from "../../src/core/estimate.ts";
import { wearTrend } from "../../src/fitting/wearTrend.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import type { WearTrend } from "../../src/processing/enduranceResult.ts";
import { agrees } from "../helpers/agrees.ts";

const trend = (distances: readonly number[], y: readonly number[], missionM: number | null, u: number | null = null): WearTrend =>
  wearTrend(
    distances.map((distanceM, i) => ({ at: `${distanceM} m`, distanceM, refused: null, estimate: u === null ? undetermined("1", "not stated", y[i]) : estimateFrom(y[i] as number, "1", "", [{ cause: `own ${i}`, effect: u, sharedBy: null, degreesOfFreedom: Infinity }]) })),
    "pullCoefficient", "Pull coefficient", "1", missionM,
  );

describe("thermometer calibration of JCGM 100:2008, H.3, its temperatures above 20 °C read as distances", () => {
  const distances = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511].map((t) => t - 20);
  const y = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];

  test("the line at 30 °C with confidence and prediction interval, and that it is extrapolated", () => {
    const found = trend(distances, y, 10);
    expect(found.form).toBe("line");
    agrees(found.atMission.value, { expected: -0.1494, within: 5e-5, source: "JCGM 100:2008, H.3.4" });
    agrees(found.atMission.standardUncertainty ?? Number.NaN, { expected: 0.0041, within: 5e-5, source: "JCGM 100:2008, H.3.4" });
    expect(found.atMission.degreesOfFreedom).toBeCloseTo(9, 9);
    const source = "the same data, t(0.975; 9) times the standard error, worked with SciPy 1.10";
    agrees(((found.predictionBand?.high.at(-1) as number) - (found.predictionBand?.low.at(-1) as number)) / 2, { expected: 0.0122577, within: 5e-8, source });
    agrees(((found.band?.high.at(-1) as number) - (found.band?.low.at(-1) as number)) / 2, { expected: 0.0093622, within: 5e-8, source });
    expect(found.prediction?.high).toBeCloseTo(found.predictionBand?.high.at(-1) as number, 12);
    expect(found.fit.findings[0]).toMatchObject({ code: "mission-extrapolated", severity: "look" });
    agrees(found.fit.parameters[0]?.estimate.value ?? Number.NaN, { expected: -0.1712, within: 5e-5, source: "JCGM 100:2008, H.3.3: intercept" });
    agrees((found.fit.parameters[1]?.estimate.value ?? Number.NaN) / 6.511, { expected: 0.00218, within: 5e-6, source: "JCGM 100:2008, H.3.3: slope" });
  });

  test("an uncertainty stated too small does not narrow what the scatter says", () => {
    const [alone, stated] = [trend(distances, y, 10), trend(distances, y, 10, 1e-4)];
    agrees(stated.atMission.standardUncertainty ?? Number.NaN, { expected: alone.atMission.standardUncertainty ?? Number.NaN, relative: 1e-9, source: "equal weights leave the line as it is" });
    agrees(stated.prediction?.high ?? Number.NaN, { expected: alone.prediction?.high ?? Number.NaN, relative: 1e-9, source: "equal weights leave the line as it is" });
  });
});

test("a stated uncertainty counts whole where the points scatter less, even on an exact line", () => {
  const found = trend([0, 1, 2], [3, 2, 1], 2, 0.1);
  const source = "by hand: ends of three points, u² = 0.1² (1/3 + 1/2)";
  agrees(found.atMission.standardUncertainty ?? Number.NaN, { expected: 0.1 * Math.sqrt(5 / 6), relative: 1e-9, source });
  expect(found.fit.findings).toEqual([]);
});

describe("form", () => {
  const distances = [0, 1, 3, 10, 30, 100].map((km) => km * 1000);
  const logarithm = (x: number): number => 0.3 - 0.02 * Math.log1p(x / 1000);

  test("a logarithm is taken where it foretells clearly better, and its interval holds the truth", () => {
    const random = seededRandom(4);
    const found = trend(distances, distances.map((x) => logarithm(x) + 0.001 * (random.uniform() - 0.5)), 120_000);
    expect(found.form).toBe("logarithm");
    expect(found.choice).toContain("foretells clearly better");
    expect(found.fit.findings).toMatchObject([{ code: "mission-extrapolated", severity: "note" }]);
    expect(found.prediction?.low).toBeLessThan(logarithm(120_000));
    expect(found.prediction?.high).toBeGreaterThan(logarithm(120_000));
  });

  test("a straight line stays one", () => {
    const random = seededRandom(5);
    const found = trend(distances, distances.map((x) => 0.3 - 1e-6 * x + 0.001 * (random.uniform() - 0.5)), 90_000);
    expect([found.form, found.fit.findings]).toEqual(["line", []]);
    expect(found.fit.sentence).toContain("a fall of pull coefficient is clear");
  });

  test("forms that fit alike and part ways are a finding", () => {
    const short = [0, 5, 10, 15, 20, 25, 30].map((km) => km * 1000);
    const found = trend(short, short.map((x) => 1 - 0.05 * (x / 30_000 + Math.log1p(x / 5000) / Math.log(7))), 300_000);
    expect(found.fit.findings.map((one) => one.code)).toContain("trend-form-open");
  });
});

test("what is not there", () => {
  expect(trend([0, 1, 1], [1, 2, 3], 5)).toMatchObject({ fit: { verdict: "undetermined" }, band: null, prediction: null, atMission: { standardUncertainty: null } });
  const open = trend([0, 1, 2], [1, 2, 3.1], null);
  expect(open.fit.verdict).toBe("determined");
  expect(open.atMission.method).toContain("missionDistance");
  expect(open.prediction).toBeNull();
  const refused = wearTrend([{ at: "a", distanceM: 0, estimate: undetermined("1", "lost"), refused: null }], "mass", "Mass", "kg", null);
  expect(refused.fit.points[0]).toMatchObject({ kept: false, reason: "not determined: lost" });
});
