import { expect, test } from "vitest";
import { normalStress } from "../../../src/processing/measures/normalStress.ts";
import { plan, preparedRun } from "../../helpers/pressRun.ts";

const samples = Array.from({ length: 100 }, (_, i) => (i < 50 ? 0 : 100 + (i % 2 === 0 ? 1 : -1)));

test("mean force over the area while shearing, with offset and gain", () => {
  const run = preparedRun(plan("shear", { normalStressPa: 10e3 }), { normalForce: { unit: "N", samples, doubt: { noise: 0, offset: 0.5, relativeGain: 0.01, calibration: "NF" } } });
  const { estimate, findings } = normalStress(run, 0.01, 0.5, 1);
  expect(estimate.value).toBeCloseTo(10e3, 6);
  const effect = (cause: string) => estimate.budget.find((row) => row.cause === cause)?.effect;
  expect(effect("calibration NF")).toBeCloseTo(100, 6);
  expect(effect("offset of the normal force of run1")).toBeCloseTo(50, 6);
  expect(findings).toEqual([]);
});

test("a stress away from the set one is said", () => {
  const run = preparedRun(plan("shear", { normalStressPa: 5e3 }), { normalForce: { unit: "N", samples } });
  expect(normalStress(run, 0.01, 0.5, 1).findings[0]?.code).toBe("normal-stress-off");
});

test("not recorded: the sheet's value without uncertainty, or nothing", () => {
  const stated = normalStress(preparedRun(plan("shear", { normalStressPa: 5e3 }), {}), 0.01, 0, 1);
  expect(stated.estimate).toMatchObject({ value: 5e3, standardUncertainty: null });
  expect(stated.findings[0]?.severity).toBe("note");
  expect(normalStress(preparedRun(plan("shear"), {}), 0.01, 0, 1).findings[0]?.severity).toBe("reject");
});
