import { describe, expect, test } from "vitest";
import { estimateFrom, undetermined } from "../../../src/core/estimate.ts";
import type { Estimate } from "../../../src/core/estimate.ts";
import type { Unit } from "../../../src/core/units.ts";
import { absorbedShare } from "../../../src/processing/measures/absorbedShare.ts";
import { adoptedRestitution } from "../../../src/processing/measures/adoptedRestitution.ts";
import { restitutionFromFlightTimes, restitutionFromHeights, restitutionFromVelocities } from "../../../src/processing/measures/restitution.ts";
import { agrees } from "../../helpers/agrees.ts";

function known<U extends Unit>(value: number, unit: U, relative = 0.01, cause = `${value} ${unit}`): Estimate<U> {
  return estimateFrom(value, unit, "given", [{ cause, effect: relative * value, sharedBy: null, degreesOfFreedom: Infinity }]);
}

const cross = "e = √(h₂/h₁): R. Cross, Am. J. Phys. 67 (1999) 222; heights: ITF Rules of Tennis, Appendix I, rebound of 53 to 58 in from 100 in (from memory)";

describe("restitution from heights", () => {
  test("tennis ball's rebound window", () => {
    const low = restitutionFromHeights(known(53 * 0.0254, "m"), known(100 * 0.0254, "m"));
    const high = restitutionFromHeights(known(58 * 0.0254, "m"), known(100 * 0.0254, "m"));
    agrees(low.value, { expected: 0.728011, within: 5e-7, source: cross });
    agrees(high.value, { expected: 0.761577, within: 5e-7, source: cross });
    agrees(absorbedShare(low).value, { expected: 0.47, within: 1e-9, source: cross });
    agrees(absorbedShare(high).value, { expected: 0.42, within: 1e-9, source: cross });
  });
  test("a plunger that rebounds to half its height", () => {
    agrees(restitutionFromHeights(known(0.2, "m"), known(0.4, "m")).value, { expected: 0.7071, within: 5e-5, source: "ASTM D2632-01, 3.1: resilience = rebound height / drop height = 50 % = e²" });
  });
  test("a pendulum from 90° to 60°", () => {
    const e = restitutionFromHeights(known(1 - Math.cos(Math.PI / 3), "m"), known(1 - Math.cos(Math.PI / 2), "m"));
    agrees(e.value, { expected: 0.70711, within: 5e-6, source: "ASTM D1054 / ISO 4662: resilience (1 − cos 60°)/(1 − cos 90°) = 0.5 = e²" });
    agrees(absorbedShare(e).value, { expected: 0.5, within: 1e-9, source: "ASTM D1054 / ISO 4662: resilience is energy out over energy in" });
  });
  test("guide friction is taken out by the measured accelerations", () => {
    // Speeds 1 and 0.5 m/s; friction 1 m/s² slows the fall and shortens the rise.
    const h1 = 1 / (2 * 8.81);
    const h2 = 0.25 / (2 * 10.81);
    const e = restitutionFromHeights(known(h2, "m"), known(h1, "m"), known(10.81, "m/s2"), known(8.81, "m/s2"));
    expect(e.value).toBeCloseTo(0.5, 12);
  });
  test("a height at or below touch has no root", () => {
    const e = restitutionFromHeights(known(-0.01, "m"), known(0.1, "m"));
    expect(e.standardUncertainty).toBeNull();
    expect(e.method).toContain("-0.0100");
  });
  test("an error that both heights share, in proportion, cancels", () => {
    const shared = "calibration POT-1";
    expect(restitutionFromHeights(known(0.05, "m", 0.02, shared), known(0.1, "m", 0.02, shared)).standardUncertainty).toBeCloseTo(0, 7); // differences are numerical
    agrees(restitutionFromHeights(known(0.05, "m", 0.02), known(0.1, "m", 0.02)).standardUncertainty as number, { expected: Math.SQRT1_2 * Math.SQRT2 * 0.01, relative: 1e-4, source: "JCGM 100:2008, 5.1.2 (first order, differences over a tenth of u): relative u(e) = ½√(0.02² + 0.02²)" });
  });
});

describe("restitution from flight times and velocities", () => {
  const source = "bounces as a geometric series: flightₙ = 2 eⁿ √(2h/g); exact for g = 1.62 m/s², h = 1 m, e = 0.8";
  test("successive flights on the Moon", () => {
    const t0 = Math.sqrt(2 / 1.62);
    agrees(2 * 0.8 * t0, { expected: 1.777778, within: 5e-7, source });
    agrees(restitutionFromFlightTimes(known(2 * 0.8 ** 2 * t0, "s"), known(1.777778, "s")).value, { expected: 0.8, within: 1e-6, source });
  });
  test("successive flights on Earth, and the way of all of them together", () => {
    const here = "bounces as a geometric series, g = 9.80665 m/s², h = 1 m, e = 0.8; exact";
    const t0 = Math.sqrt(2 / 9.80665);
    const flights = Array.from({ length: 60 }, (_, n) => 2 * 0.8 ** (n + 1) * t0);
    agrees(flights[0] as number, { expected: 0.722561, within: 5e-7, source: here });
    const e = restitutionFromFlightTimes(known(flights[1] as number, "s"), known(0.722561, "s")).value;
    agrees(e, { expected: 0.8, within: 1e-6, source: here });
    agrees(flights.reduce((sum, flight) => sum + flight, t0), { expected: 4.064407, within: 6e-6, source: here });
    agrees((t0 * (1 + e)) / (1 - e), { expected: 4.064407, within: 3e-5, source: here });
    agrees((1 + e ** 2) / (1 - e ** 2), { expected: 4.555556, within: 3e-5, source: "path of all flights over the first height, (1 + e²)/(1 − e²); exact" });
  });
  test("velocities: Δv = v₁(1 + e)", () => {
    const e = restitutionFromVelocities(known(2.52 - 1.4, "m/s"), known(1.4, "m/s"), "given");
    agrees(e.value, { expected: 0.8, within: 1e-12, source: "identity Δv = v₁(1 + e): v₁ = 1.4 m/s, Δv = 2.52 m/s, e = 0.8" });
  });
  test("a missing input passes its reason on, alone", () => {
    const e = restitutionFromVelocities(undetermined("m/s", "no flight"), known(1, "m/s"), "given");
    expect(e).toMatchObject({ standardUncertainty: null, method: "no flight" });
    expect(absorbedShare(e).method).toBe("no flight");
  });
});

describe("the adopted restitution", () => {
  const limits = { look: 0.03, reject: 0.08 };
  const way = (name: string, estimate: Estimate<"1">) => ({ name, estimate });
  test("is the first determined in the declared order, and says so", () => {
    const { estimate, findings } = adoptedRestitution([way("velocities", undetermined("1", "clipped")), way("flight times", known(0.7, "1")), way("heights", known(0.71, "1"))], limits);
    expect(estimate.value).toBe(0.7);
    expect(estimate.method).toContain("from flight times (declared order: velocities, flight times, heights");
    expect(findings).toEqual([]);
  });
  test.each([
    [0.72, []],
    [0.73, ["look"]],
    [0.76, ["reject"]],
  ])("ways that differ: 0.70 and %f", (other, severities) => {
    const { findings } = adoptedRestitution([way("velocities", known(0.7, "1")), way("heights", known(other, "1"))], limits);
    expect(findings.map((one) => one.severity)).toEqual(severities);
  });
  test("a difference that the doubts of the ways explain is none", () => {
    expect(adoptedRestitution([way("velocities", known(0.7, "1", 0.005)), way("flight times", known(0.76, "1", 0.05))], limits).findings).toEqual([]);
    expect(adoptedRestitution([way("velocities", known(0.7, "1", 0.005)), way("flight times", known(0.76, "1", 0.05)), way("heights", known(0.73, "1", 0.005))], limits).findings.map((one) => one.severity)).toEqual(["look"]);
  });
  test("one way alone is said to be unconfirmed; none at all gives every reason once", () => {
    expect(adoptedRestitution([way("velocities", known(0.7, "1"))], limits).findings[0]?.code).toBe("restitution-one-way");
    const none = adoptedRestitution([way("velocities", undetermined("1", "stays down")), way("flight times", undetermined("1", "stays down")), way("heights", undetermined("1", "no channel"))], limits);
    expect(none.estimate).toMatchObject({ standardUncertainty: null, method: "stays down; no channel" });
  });
});
