import { expect, test } from "vitest";
import { estimateFrom } from "../../src/core/estimate.ts";
import type { Estimate } from "../../src/core/estimate.ts";
import type { Unit } from "../../src/core/units.ts";
import { specificWear } from "../../src/fitting/specificWear.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { agrees } from "../helpers/agrees.ts";
import { enduranceRun } from "./enduranceRuns.ts";

const of = <U extends Unit>(value: number, u: number, unit: U): Estimate<U> => estimateFrom(value, unit, "", [{ cause: `own ${value}`, effect: u, sharedBy: null, degreesOfFreedom: Infinity }]);
const density = of(7850, 0, "kg/m3");
const run = (id: string, measures: Readonly<Record<string, Estimate>>): RunResult => enduranceRun(id, measures);

test("volume lost in an abrasion test, as its standard works it", () => {
  // 0.350 g lost at 130 N over 4309.0 m of sliding: a wheel of slip 0.5 slides as far as it travels.
  const found = specificWear(of(0.00035 / 4308.96, 0, "kg/m"), [run("E1", { distance: of(4308.96, 0, "m"), verticalLoad: of(130, 0, "N"), slip: of(0.5, 0, "1") })], density);
  agrees(found.value * 1e9, { expected: 7.95937e-5, relative: 1e-5, source: "ASTM G65, procedure A: 0.350 g at 7.85 g/cm³ is 44.586 mm³; over 130 N and 6000 turns of 228.6 mm; from memory" });
});

test("sliding distances of the five procedures", () => {
  for (const [turns, metres] of [[6000, 4309], [2000, 1436], [100, 71.8], [1000, 718]] as const) {
    // the slip of 0.5 slides as far as it travels; a loss of the wheel's own weight over it is 1/(ρ F) of a metre's
    const travelled = Math.PI * 0.2286 * turns;
    const found = specificWear(of(0.001 / travelled, 0, "kg/m"), [run("E1", { distance: of(travelled, 0, "m"), verticalLoad: of(130, 0, "N"), slip: of(0.5, 0, "1") })], density);
    agrees(0.001 / 7850 / 130 / found.value, { expected: metres, within: metres < 100 ? 0.05 : 0.5, source: "ASTM G65, table 1: 4309, 1436, 71.8, 718 m on a wheel of 228.6 mm (from memory)" });
  }
});

test("runs of unlike slip add up by their work, and doubts arrive", () => {
  const runs = [run("E1", { distance: of(1000, 0, "m"), verticalLoad: of(100, 0, "N"), slip: of(0.2, 0, "1") }), run("E2", { distance: of(3000, 0, "m"), verticalLoad: of(100, 0, "N"), slip: of(0.5, 0, "1") })];
  const found = specificWear(of(7.85e-6, 7.85e-7, "kg/m"), runs, density);
  agrees(found.value, { expected: (1e-9 * 4000) / (100 * (250 + 3000)), relative: 1e-9, source: "worked by hand: 1e-9 m³ a metre over 4 km, 100 N over 3250 m of sliding" });
  agrees((found.standardUncertainty ?? Number.NaN) / found.value, { expected: 0.1, relative: 1e-6, source: "a tenth of the loss is a tenth of the rate" });
});

test("not determined says why", () => {
  const loss = of(1e-6, 1e-7, "kg/m");
  const slow = { distance: of(10, 0, "m"), verticalLoad: of(100, 0, "N") };
  expect(specificWear(loss, [], density).method).toContain("no endurance run");
  expect(specificWear(loss, [run("E1", slow)], null).method).toContain("wearingDensity");
  expect(specificWear(loss, [run("E1", slow)], density).method).toContain("braked");
  expect(specificWear(loss, [run("E1", { ...slow, slip: of(-0.01, 0.001, "1") })], density).method).toContain("nothing slid");
  expect(specificWear(loss, [{ ...run("E1", slow), verdict: "repeat", reasons: ["clipped"] }], density).method).toContain("rejected: clipped");
});
