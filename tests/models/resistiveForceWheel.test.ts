import { describe, expect, test } from "vitest";
import { granularStress, resistiveForces, resistiveForceWheel } from "../../src/models/resistiveForceWheel.ts";
import { agrees } from "../helpers/agrees.ts";

const wheel = { radiusM: 0.1, widthM: 0.1 };

describe("stress on a small plate", () => {
  test("flat and pushed straight down it is the unit", () => {
    agrees(granularStress(0, Math.PI / 2).up, { expected: 1, within: 1e-12, source: "normalisation of the generic coefficients, C. Li et al. 2013" });
    agrees(granularStress(0, Math.PI / 2).back, { expected: 0, within: 0.1, source: "by symmetry a flat plate pushed down feels no side force; the short series leaves 0.09" });
  });

  test("soil resists: against the motion, upward going down, downward going up", () => {
    expect(granularStress(Math.PI / 2, 0).back).toBeGreaterThan(0.2);
    expect(granularStress(0, -Math.PI / 2).up).toBeLessThan(0);
    // a plate that rises ahead is lifted, one that dips ahead is not
    expect(granularStress(Math.PI / 4, 0).up).toBeGreaterThan(5 * granularStress(-Math.PI / 4, 0).up);
  });
});

describe("on a wheel", () => {
  test("load grows with the soil's stress and with z^1.5 while the rut is shallow", () => {
    const at = (stress: number, z: number): number => resistiveForces(wheel, stress, 0.2, z).loadN;
    agrees(at(2e6, 0.01) / at(1e6, 0.01), { expected: 2, relative: 1e-12, source: "the law is linear in ζ" });
    agrees(Math.log(at(1e6, 2e-7) / at(1e6, 1e-7)) / Math.LN2, { expected: 1.5, within: 0.01, source: "a flat plate of the contact's length at shallow depth, by hand" });
  });

  test("torque is the moment of the forces, pull rises with slip, a braked wheel holds back", () => {
    const pulls = [-0.5, -0.1, 0.05, 0.2, 0.5].map((slip) => {
      const found = resistiveForceWheel(wheel, 1e6, slip, 40);
      if ("reason" in found) throw new Error(found.reason);
      expect(found.loadN).toBe(40);
      return found.pullN;
    });
    for (let i = 1; i < pulls.length; i++) expect(pulls[i]).toBeGreaterThan(pulls[i - 1] as number);
    expect(pulls[0]).toBeLessThan(0);
  });

  test("midpoint sum over the rim written here", () => {
    const z = 0.02;
    const slip = 0.3;
    const count = 200_000;
    const entry = Math.acos(1 - z / 0.1);
    let [load, pull] = [0, 0];
    for (let i = 0; i < count; i++) {
      const theta = (entry * (i + 0.5)) / count;
      const [vx, vz] = [1 - slip - Math.cos(theta), Math.sin(theta)];
      const { up, back } = granularStress(Math.sign(vx) * theta, Math.atan2(vz, Math.abs(vx)));
      const size = (1e6 * (0.1 * Math.cos(theta) - 0.08) * 0.1 * 0.1 * entry) / count;
      load += up * size;
      pull -= Math.sign(vx) * back * size;
    }
    const found = resistiveForces(wheel, 1e6, slip, z);
    agrees(found.loadN, { expected: load, relative: 2e-3, source: "midpoint sum written here; the rim's motion turns at one angle, which costs the quadrature digits" });
    agrees(found.pullN, { expected: pull, within: 2e-3 * load, source: "midpoint sum written here" });
  });

  test("too weak a soil is said", () => expect(resistiveForceWheel(wheel, 1, 0.2, 40)).toHaveProperty("reason"));
});

test("wrong calls", () => {
  expect(() => resistiveForces(wheel, 1e6, 1, 0.01)).toThrow(/slip/);
  expect(() => resistiveForces(wheel, 0, 0, 0.01)).toThrow(/stress/);
  expect(() => resistiveForceWheel(wheel, 1e6, 0, 0)).toThrow(/load/);
});
