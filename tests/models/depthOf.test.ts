import { expect, test } from "vitest";
import { depthOf } from "../../src/models/depthOf.ts";
import { rigidWheel } from "../../src/models/rigidWheel.ts";
import { agrees } from "../helpers/agrees.ts";

const first = (): { readonly guess: number; readonly exponent: number } => ({ guess: 0.01, exponent: 1.5 });

test("looks for the balance, or stays where it is held; too deep is no place", () => {
  let last = Number.NaN;
  const carried = (depthM: number): number => 1000 * (last = depthM);
  agrees(depthOf(carried, 20, 0.1, first) as number, { expected: 0.02, relative: 1e-9, source: "20 N over 1000 N/m" });
  expect(depthOf(carried, 20, 0.1, first, 0.05)).toBe(0.05);
  expect(last).toBe(0.05);
  expect(depthOf(carried, 20, 0.1, first, 0.11)).toBeNull();
});

test("a wheel held where it is in balance carries its load there; deeper it carries more", () => {
  const soil = { stiffness: 1e6, exponent: 1, exponentBySlip: 0.1, cohesionPa: 300, frictionAngleRad: 0.6, shearModulusM: 0.01, stressAngle: 0.4, stressAngleBySlip: 0.1, rebound: 0.05 };
  const wheel = { radiusM: 0.15, widthM: 0.1 };
  const balance = rigidWheel(wheel, soil, 0.2, 60);
  if ("reason" in balance) throw new Error(balance.reason);
  const same = rigidWheel(wheel, soil, 0.2, 1, undefined, balance);
  const deeper = rigidWheel(wheel, soil, 0.2, 60, undefined, { ...balance, sinkageM: 1.1 * balance.sinkageM });
  if ("reason" in same || "reason" in deeper) throw new Error("no state");
  agrees(same.loadN, { expected: 60, relative: 1e-9, source: "the load of the balance" });
  expect(same.pullN).toBe(balance.pullN);
  expect(deeper.loadN).toBeGreaterThan(61);
});
