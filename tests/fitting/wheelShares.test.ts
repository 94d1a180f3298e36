import { describe, expect, test } from "vitest";
import { wheelShares } from "../../src/fitting/wheelShares.ts";
import type { FittedModel } from "../../src/fitting/wheelSoilModel.ts";
import { plainCurvesToFit, resistiveForceToFit, stressIntegralsToFit } from "../../src/fitting/wheelSoilStart.ts";
import { wheelRows } from "../../src/fitting/whitenedFit.ts";
import { agrees } from "../helpers/agrees.ts";
import { madeWheel, madeWheelRuns } from "../helpers/madeWheelRuns.ts";

const made = madeWheelRuns({ seed: 1, loads: [60, 100], slips: [-0.1, 0.05, 0.4] });
const curve = { deflectionM: [0.005, 0.02], loadN: [60, 300] };
const runs = made.map((run, i) => (i % 2 === 0 ? run : { ...run, wheel: { ...madeWheel, id: "M2", lugs: 12, lugHeightM: 0.01, curve } }));
const rows = wheelRows(runs);
/** differences of the balances themselves, over steps a hundred times as long */
const longSteps = 1e-2;
const slipStep = 3e-3;

describe.each([
  ["rigid wheels and wider circles", stressIntegralsToFit(runs, "wider circle")],
  ["flat contact", stressIntegralsToFit(runs, "flat contact")],
  ["resistive forces", resistiveForceToFit],
  ["plain curves, whose load does not depend on a depth", plainCurvesToFit(runs)],
])("%s", (_, toFit) => {
  const p = (toFit.starts[0] as readonly number[]).map((value, j) => value + 0.05 * (toFit.beliefs[j] as { sd: number }).sd);
  const shares = wheelShares(rows, toFit);

  test("slopes at held depths are those of the balances", () => {
    const slopes = shares.slopes(p);
    expect(slopes).toHaveLength(p.length);
    p.forEach((value, j) => {
      const { sd } = toFit.beliefs[j] as { sd: number };
      const at = (to: number): readonly number[] => [...wheelShares(rows, toFit).at(p.map((other, k) => (k === j ? to : other)))];
      const [high, low] = [at(value + longSteps * sd), at(value - longSteps * sd)];
      rows.forEach((_row, i) => {
        const expected = ((high[i] as number) - (low[i] as number)) / (2 * longSteps * sd);
        if (Number.isNaN(expected)) expect(slopes[j]?.[i]).toBeNaN();
        else agrees(slopes[j]?.[i] as number, { expected, within: 3e-5 / sd + 2e-3 * Math.abs(expected), source: "central differences of the balances, solved anew" });
      });
    });
  });

  test("so are those by slip", () => {
    const bySlip = shares.bySlip(p);
    const moved = (by: number): readonly number[] => wheelShares(rows.map((row) => ({ ...row, observation: { ...row.observation, slip: { ...row.observation.slip, value: row.observation.slip.value + by } } })), toFit).at(p);
    const [high, low] = [moved(slipStep), moved(-slipStep)];
    rows.forEach((_row, i) => {
      const expected = ((high[i] as number) - (low[i] as number)) / (2 * slipStep);
      agrees(bySlip[i] as number, { expected: Number.isNaN(expected) ? 0 : expected, within: 2e-4 + 2e-3 * Math.abs(expected || 0), source: "central differences of the balances, solved anew" });
    });
  });
});

test("each balance is solved once; then one question a step, and two for the depth", () => {
  const toFit = stressIntegralsToFit(runs, "wider circle");
  const p = toFit.starts[0] as readonly number[];
  let [solved, held] = [0, 0];
  const model: FittedModel = (fitted, wheel, slip, loadN, at) => {
    if (at === undefined) solved++;
    else held++;
    return toFit.model(fitted, wheel, slip, loadN, at);
  };
  const shares = wheelShares(rows, { ...toFit, model });
  for (let again = 0; again < 2; again++) {
    shares.at(p);
    shares.slopes(p);
  }
  expect(solved).toBe(runs.length);
  expect(held).toBe((2 + 2 * p.length) * runs.length);
});

test("where there is no balance there is no share, and its slopes are not told", () => {
  const { model, ...toFit } = stressIntegralsToFit(runs, "wider circle");
  const none = wheelShares(rows, { ...toFit, model: (fitted, wheel, slip, loadN, held) => (slip > 0.3 ? { reason: "sunk" } : model(fitted, wheel, slip, loadN, held)) });
  const p = toFit.starts[0] as readonly number[];
  const [at, slopes] = [none.at(p), none.slopes(p)[0] as readonly number[]];
  rows.forEach(({ observation }, i) => expect([Number.isNaN(at[i]), Number.isNaN(slopes[i])]).toEqual([observation.slip.value > 0.3, observation.slip.value > 0.3]));
});
