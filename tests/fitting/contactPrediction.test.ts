import { expect, test } from "vitest";
import { contactFit } from "../../src/fitting/contactFit.ts";
import { leaveOneHeightOut, predictedBlow } from "../../src/fitting/contactPrediction.ts";
import { wheelBlow } from "../../src/models/wheelBlow.ts";
import { agrees } from "../helpers/agrees.ts";
import { madeContact, madeDrops, madeEstimate, madeGravity } from "../helpers/madeContact.ts";

const source = "the contact put in by tests/helpers/madeContact.ts, blown at the speed asked for";

test.each([[1.2, madeGravity], [2.4, madeGravity], [Math.sqrt(2 * 1.62 * 0.2), 1.62]])("a drop that was not made: %f m/s under %f m/s²", (speed, gravity) => {
  const fitted = contactFit(madeDrops(1, 0), [], madeGravity);
  const [acceleration, compression, duration, restitution] = predictedBlow(fitted, speed, gravity, "asked");
  const truth = wheelBlow(madeContact, speed, gravity);
  agrees(acceleration?.value ?? Number.NaN, { expected: truth.peakAcceleration, relative: 1e-3, source });
  agrees(compression?.value ?? Number.NaN, { expected: truth.compression, relative: 1e-3, source });
  agrees(duration?.value ?? Number.NaN, { expected: truth.duration, relative: 1e-3, source });
  agrees(restitution?.value ?? Number.NaN, { expected: truth.restitution, relative: 1e-3, source });
  expect([acceleration?.unit, compression?.unit, duration?.unit, restitution?.unit]).toEqual(["m/s2", "m", "s", "1"]);
});

test("the misfit of the model stands in the budget of a prediction", () => {
  const fitted = contactFit(madeDrops(1, 0.005), [], madeGravity);
  const [bare] = predictedBlow({ ...fitted, misfit: 0 }, 1, madeGravity, "asked");
  const [wide] = predictedBlow(fitted, 1, madeGravity, "asked", [0.05, 0.05, 0.05, 0.05]);
  agrees(wide?.standardUncertainty ?? Number.NaN, { expected: Math.hypot(bare?.standardUncertainty ?? 0, 0.05 * (bare?.value ?? 0)), relative: 1e-6, source: "independent causes add in quadrature" });
});

test("every height is left out once; the model's own drops come back inside", () => {
  const held = leaveOneHeightOut(madeDrops(2, 0.005), madeGravity);
  expect(held.length).toBe(48);
  expect(new Set(held.map((one) => one.heightM)).size).toBe(4);
  // 48 of chance 0.95, correlated by height: a dozen outside would be a broken interval.
  expect(held.filter((one) => one.inside).length).toBeGreaterThanOrEqual(40);
});

test("one height of another law is seen when it is left out", () => {
  const drops = madeDrops(2, 0.002).map((drop) => (drop.heightM === 0.2 ? { ...drop, observed: drop.observed.map((one, i) => (i === 0 ? madeEstimate(1.3 * one.value, one.unit, `own, ${drop.run}`, 0.002) : one)) } : drop));
  const held = leaveOneHeightOut(drops, madeGravity).filter((one) => one.heightM === 0.2 && one.quantity === "peak acceleration");
  expect(held.length).toBe(3);
  for (const one of held) {
    agrees(one.error, { expected: 0.3, within: 0.03, source: "the peak made 30 % larger by this test" });
    expect(one.inside).toBe(false);
  }
});

test("three heights leave too few to leave one out", () => {
  expect(leaveOneHeightOut(madeDrops(1, 0, madeContact, [0.05, 0.1, 0.2]), madeGravity)).toEqual([]);
});
