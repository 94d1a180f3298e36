import { expect, test } from "vitest";
import { settlingPerCycle } from "../../../src/processing/measures/settlingPerCycle.ts";
import type { LoadCycle } from "../../../src/processing/measures/loadCycles.ts";
import type { PressCurve } from "../../../src/processing/measures/pressCurve.ts";

/** Straight loadings to 100 N of 20 kN/m, each beginning further down. */
function cycles(offsetsM: readonly number[]): { curve: PressCurve; all: LoadCycle[] } {
  const curve = { timesS: [] as number[], force: [] as number[], displacement: [] as number[] };
  const all = offsetsM.map((offset): LoadCycle => {
    const valley = curve.force.length;
    for (let i = 0; i <= 200; i++) {
      curve.timesS.push(curve.timesS.length);
      curve.force.push(i / 2);
      curve.displacement.push(offset + i / 2 / 20e3);
    }
    return { valley, peak: curve.force.length - 1, end: null };
  });
  return { curve, all };
}

test("total counts every cycle, per cycle only those that are used", () => {
  const { curve, all } = cycles([0, 1e-3, 1.1e-3, 1.2e-3]);
  const found = settlingPerCycle(curve, all, all.slice(1), 60);
  expect(found.total).toBeCloseTo(1.2e-3, 9);
  expect(found.perCycle).toBeCloseTo(1e-4, 9);
  expect(found.totalError).toBeLessThan(1e-9);
});

test("two used cycles give their difference; one gives none; a load that was not reached gives none", () => {
  const { curve, all } = cycles([0, 2e-4]);
  expect(settlingPerCycle(curve, all, all, 60).perCycle).toBeCloseTo(2e-4, 9);
  expect(settlingPerCycle(curve, all, all.slice(1), 60).perCycle).toBeNaN();
  expect(settlingPerCycle(curve, all.slice(0, 1), all.slice(0, 1), 60).total).toBeNaN();
  expect(settlingPerCycle(curve, all, all, 150).total).toBeNaN();
});
