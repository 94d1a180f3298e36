import { expect, test } from "vitest";
import { humpedShearStress } from "../../src/models/shearDisplacement.ts";
import { reduceShearRun } from "../../src/processing/shearRun.ts";
import { plan, preparedRun } from "../helpers/pressRun.ts";
import { shearLog } from "../helpers/shearLog.ts";

function reduce(log: ReturnType<typeof shearLog>, rest = {}) {
  const doubt = (calibration: string) => ({ noise: 0, offset: 0.1, relativeGain: 0.002, calibration });
  return reduceShearRun(
    preparedRun(plan("shear", { id: "s1", shearAreaM2: 0.01, normalStressPa: 10e3, ...rest }), {
      shearForce: { unit: "N", samples: log.shearForce, doubt: doubt("SF") },
      shearDisplacement: { unit: "m", samples: log.shearDisplacement, doubt: doubt("SD") },
      normalForce: { unit: "N", samples: log.normalForce, doubt: doubt("NF") },
    }, 50),
  );
}

const of = (result: ReturnType<typeof reduce>, name: string) => result.measures.find((measure) => measure.name === name)?.estimate;

test("a curve without a peak gives strength and K within their uncertainty", () => {
  let held = 0;
  for (let seed = 1; seed <= 20; seed++) {
    const result = reduce(shearLog(seed, (j) => 7000 * (1 - Math.exp(-j / 0.018))));
    for (const [name, truth] of [["shearStrength", 7000], ["shearModulus", 0.018], ["normalStress", 10e3]] as const) {
      const estimate = of(result, name);
      const off = Math.abs((estimate?.value ?? Number.NaN) - truth) / (estimate?.standardUncertainty ?? 0);
      if (off <= 2) held++;
      expect(off, name).toBeLessThan(4);
    }
    expect(of(result, "shearModulusWeighted")?.value).toBeCloseTo(0.018, 3);
    expect(result.findings).toEqual([]);
    expect(result.fits[0]?.points.length).toBe(60);
  }
  expect(held).toBeGreaterThanOrEqual(50);
});

test("a peak is found, K is fitted up to it, and the points after it are kept apart with the reason", () => {
  const result = reduce(shearLog(1, (j) => 7000 * Math.min(1 - Math.exp(-j / 0.004), 1 - 12 * (j - 0.02))));
  expect(of(result, "shearStrength")?.method).toContain("peaked");
  expect(Math.abs((of(result, "shearStrength")?.value ?? 0) / 7000 - 1)).toBeLessThan(0.02);
  expect(Math.abs((of(result, "shearModulus")?.value ?? 0) / 0.004 - 1)).toBeLessThan(0.1);
  const after = result.fits[0]?.points.filter((point) => !point.kept) ?? [];
  expect(after.length).toBeGreaterThan(20);
  expect(after[0]?.reason).toContain("after the peak");
});

test("past a peak: the stress it comes down to, with its uncertainty, and the curve with its hump", () => {
  const hump = { stressAtPeakPa: 7000, residualRatio: 0.7, displacementAtPeakM: 0.008 };
  let held = 0;
  for (let seed = 1; seed <= 20; seed++) {
    const result = reduce(shearLog(seed, (j) => humpedShearStress(j, hump)));
    const estimate = of(result, "residualShearStrength");
    const off = Math.abs((estimate?.value ?? Number.NaN) - 4900) / (estimate?.standardUncertainty ?? 0);
    if (off <= 2) held++;
    expect(off).toBeLessThan(4);
    expect(result.fits.map(({ model }) => model)).toEqual(["shear stress over displacement", "shear stress over displacement, with a hump"]);
  }
  expect(held).toBeGreaterThanOrEqual(17); // 95 % of 20, two binomial standard deviations
  const short = reduce(shearLog(1, (j) => humpedShearStress(j, { ...hump, displacementAtPeakM: 0.03 }), { travelM: 0.06 }));
  expect(of(short, "shearStrength")?.method).toContain("peaked");
  expect(of(short, "residualShearStrength")).toMatchObject({ standardUncertainty: null });
  expect(of(short, "residualShearStrength")?.method).toMatch(/only \d+ % of the fall .* Shear further/);
  expect(of(reduce(shearLog(1, (j) => 7000 * (1 - Math.exp(-j / 0.018)))), "residualShearStrength")).toBeUndefined();
  const toNothing = of(reduce(shearLog(1, (j) => 7000 * (j / 0.01) * Math.exp(1 - j / 0.01))), "residualShearStrength");
  expect(toNothing?.standardUncertainty).toBeNull();
  expect(toNothing?.method).toContain("no level within reach");
});

test("a stress that keeps rising, and a travel that is too short, are said", () => {
  const codes = (stress: (j: number) => number, travelM: number) => reduce(shearLog(2, stress, { travelM })).findings.map((entry) => entry.code);
  expect(codes((j) => 5000 * (1 - Math.exp(-j / 0.004)) + 40e3 * j, 0.06)).toContain("shear-still-rising");
  expect(codes((j) => 7000 * (1 - Math.exp(-j / 0.018)), 0.025)).toContain("shear-too-short");
});

test("what cannot be reduced is rejected with the reason", () => {
  const log = shearLog(1, (j) => 7000 * (1 - Math.exp(-j / 0.018)));
  expect(reduce(log, { shearAreaM2: null }).findings[0]?.code).toBe("shear-area-not-stated");
  expect(reduceShearRun(preparedRun(plan("shear", { shearAreaM2: 0.01 }), {})).findings[0]?.code).toBe("shear-channels-missing");
  expect(reduce(shearLog(1, (j) => 2e6 * j ** 2)).findings[0]?.code).toBe("no-shear-curve");
});
