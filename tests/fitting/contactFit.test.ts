import { describe, expect, test } from "vitest";
import { contactDropsFrom } from "../../src/fitting/contactDrops.ts";
import { blowValues, contactFit, contactWith } from "../../src/fitting/contactFit.ts";
import { wheelBlow } from "../../src/models/wheelBlow.ts";
import { agrees } from "../helpers/agrees.ts";
import { madeContact, madeDrops, madeEstimate, madeGravity } from "../helpers/madeContact.ts";
import { runResult } from "../helpers/runResult.ts";
import { plan } from "../processing/madeDrop.ts";

const source = "the contact put in by tests/helpers/madeContact.ts";

describe("a contact is found again from its own blows", () => {
  const { fit, contact, free, misfit } = contactFit(madeDrops(1, 0), [], madeGravity);
  test("without noise", () => {
    expect(fit.verdict).toBe("determined");
    expect(free).toEqual([0, 1, 2, 3]);
    expect(misfit).toBe(0);
    // Another reference compression: the same push at the old one.
    agrees(contact.exponent, { expected: 1.4, within: 1e-5, source });
    agrees(contact.push * (0.006 / contact.referenceM) ** 1.4, { expected: 120, relative: 1e-5, source });
    agrees(contact.loss / contact.referenceMps, { expected: 0.2 / 1.2, relative: 1e-4, source });
    agrees(contact.viscous * Math.sqrt(contact.push / contact.referenceM), { expected: 0.08 * Math.sqrt(120 / 0.006), relative: 1e-4, source });
  });
  test("points are measured over fitted, with their residuals", () => {
    expect(fit.points.length).toBe(48);
    fit.residuals.forEach((residual) => expect(Math.abs(residual)).toBeLessThan(1e-4));
    expect(fit.points[0]?.run).toBe("D25-1");
  });
  test("the calibration that all drops share moves the push and does not average away", () => {
    const push = fit.parameters[0]?.estimate;
    const row = push?.budget.find((one) => one.sharedBy === "calibration A-1");
    expect(Math.abs(row?.effect ?? 0)).toBeGreaterThan(0.001 * (push?.value ?? 0));
  });
});

test("noise: exponent and push inside their intervals, one fit in twenty excepted", () => {
  let inside = 0;
  for (let seed = 1; seed <= 12; seed++) {
    const { fit } = contactFit(madeDrops(seed, 0.01), [], madeGravity);
    const exponent = fit.parameters[1]?.estimate;
    if (Math.abs((exponent?.value ?? 0) - 1.4) <= 2.02 * (exponent?.standardUncertainty ?? 0)) inside++;
  }
  // 12 of chance 0.95: fewer than 9 in one of 2000 such tests.
  expect(inside).toBeGreaterThanOrEqual(9);
});

test("a wheel with a viscous loss alone loses the other term, and the other way round", () => {
  const viscous = contactFit(madeDrops(1, 0.001, { ...madeContact, loss: 0 }), [], madeGravity);
  expect(Math.abs(viscous.contact.loss)).toBeLessThan(0.02);
  const growing = contactFit(madeDrops(3, 0, { ...madeContact, viscous: 0 }), [], madeGravity);
  expect(growing.contact.viscous).toBeLessThan(0.002);
  expect(growing.fit.verdict).toBe("determined");
});

test("a wheel that follows another law: the misfit is told, in the constants too", () => {
  const drops = madeDrops(1, 0.001).map((drop) => ({ ...drop, observed: drop.observed.map((one, i) => (i === 0 ? madeEstimate(one.value * (1 + 0.1 * drop.speed.value), one.unit, `own, ${drop.run}`, 0.001) : one)) }));
  const { fit, misfit } = contactFit(drops, [], madeGravity);
  expect(misfit).toBeGreaterThan(0.01);
  expect(fit.parameters[0]?.estimate.standardUncertainty).toBeGreaterThan(contactFit(madeDrops(1, 0.001), [], madeGravity).fit.parameters[0]?.estimate.standardUncertainty ?? 0);
  const wild = drops.map((drop, i) => ({ ...drop, observed: drop.observed.map((one) => madeEstimate(one.value * (i % 2 === 0 ? 1.4 : 0.7), one.unit, `own, ${drop.run}`, 0.001)) }));
  expect(contactFit(wild, [], madeGravity).fit).toMatchObject({ verdict: "undetermined" });
});

test("two heights are not enough", () => {
  const { fit } = contactFit(madeDrops(1, 0, madeContact, [0.05, 0.1]), [], madeGravity);
  expect(fit.verdict).toBe("undetermined");
  expect(fit.sentence).toContain("2 heights");
});

test("constants are replaced by place, quantities come in their order", () => {
  expect(contactWith(madeContact, [1, 3], [2, 0.5])).toEqual({ ...madeContact, exponent: 2, viscous: 0.5 });
  const blow = wheelBlow(madeContact, 1, madeGravity);
  expect(blowValues(madeContact, 1, madeGravity)).toEqual([blow.peakAcceleration, blow.compression, blow.duration, blow.restitution]);
});

test("drops that do not count are named with their reason", () => {
  const row = (effect: number) => [{ cause: "own", effect, sharedBy: null, degreesOfFreedom: 10 }];
  const all = { impactSpeed: { value: 1, unit: "m/s", rows: row(0.01) }, peakAcceleration: { value: 100, unit: "m/s2", rows: row(1) }, largestCompression: { value: 0.01, unit: "m", rows: row(1e-4) }, contactDuration: { value: 0.02, unit: "s", rows: row(1e-4) }, restitution: { value: 0.7, unit: "1", rows: row(0.01) } } as const;
  const { restitution: _, ...without } = all;
  const { drops, refused } = contactDropsFrom([runResult({ ...plan, id: "a" }, all), runResult({ ...plan, id: "b" }, without), runResult({ ...plan, id: "c" }, all, { verdict: "repeat", reasons: ["clipped"] })]);
  expect(drops.map((drop) => drop.run)).toEqual(["a"]);
  expect(refused.map((point) => [point.run, point.reason])).toEqual([["b", "restitution is not determined: not measured"], ["c", "rejected: clipped"]]);
});
