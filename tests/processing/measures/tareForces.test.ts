import { describe, expect, it } from "vitest";
import type { Unit } from "../../../src/core/units.ts";
import type { Reading } from "../../../src/processing/measures/reading.ts";
import { tareForces, tareTorque } from "../../../src/processing/measures/tareForces.ts";
import { agrees } from "../../helpers/agrees.ts";

const of = <U extends Unit>(value: number, unit: U, effect = 0, cause: string = unit): Reading<U> => ({ unit, value, perRevolution: [value, value], rows: [{ cause, effect, sharedBy: null, degreesOfFreedom: Infinity }] });
const deg = (degrees: number, effect = 0, cause = "tilt"): Reading<"rad"> => of((degrees * Math.PI) / 180, "rad", effect, cause);

describe("a weight of 30 N hanging free, zeroed level", () => {
  // Nose up by 30° it drags backwards with 15 N and down with 30 cos 30°; the zero took 0 and 30 off.
  const pull = of(-15, "N");
  const load = of(30 - 30 * Math.cos(Math.PI / 6), "N");
  const hanging = { weight: of(30, "N"), tilt: deg(30), zeroTilt: deg(0) };
  it("is nothing once the tare is taken off, whichever the axes", () => {
    for (const axes of ["carriage", "level"] as const) {
      const found = tareForces(pull, load, hanging, axes);
      for (const one of [found.pull.value, found.load.value, ...found.pull.perRevolution]) expect(Math.abs(one)).toBeLessThan(1e-12);
    }
  });

  it("an upright push of 100 N on it is 100 N level, and 50 N forwards along the tilted carriage", () => {
    const pushed = [of(-15 + 50, "N"), of(load.value + 100 * Math.cos(Math.PI / 6), "N")] as const;
    const level = tareForces(...pushed, hanging, "level");
    agrees(level.load.value, { expected: 100, within: 1e-9, source: "the push put in" });
    expect(Math.abs(level.pull.value)).toBeLessThan(1e-9);
    agrees(tareForces(...pushed, hanging, "carriage").pull.value, { expected: 50, within: 1e-9, source: "100 N sin 30°" });
  });
});

it("zeroed at the run's own tilt nothing changes along the carriage, and an inclinometer's offset drops out to first order", () => {
  const same = tareForces(of(5, "N"), of(60, "N"), { weight: of(30, "N", 0.5), tilt: deg(3, 0.01), zeroTilt: deg(3, 0.01) }, "carriage");
  agrees(same.pull.value, { expected: 5, within: 1e-12, source: "no change of attitude" });
  expect(Math.hypot(...same.pull.rows.map((row) => row.effect))).toBeLessThan(1e-9);
  // Turned level, the offset moves the load's share in the pull: 60 N · 0.01 rad.
  const level = tareForces(of(0, "N"), of(60, "N"), { weight: of(30, "N"), tilt: deg(0, 0.01), zeroTilt: deg(0, 0.01) }, "level");
  agrees(level.pull.rows.find((row) => row.cause === "tilt")?.effect ?? NaN, { expected: -0.6, relative: 1e-3, source: "L u(α), by hand" });
});

describe("torque of the weight", () => {
  // 20 N, 50 mm ahead of the origin and 30 mm below it.
  const forward = of(1, "N.m");
  const up = of(-0.6, "N.m");
  it("hanging free it reads nothing once taken off; the moment is worked out as r × F", () => {
    for (const [alpha, zero] of [[20, 0], [-15, 5]] as const) {
      const moment = (degrees: number): number => {
        const a = (degrees * Math.PI) / 180;
        const [x, z] = [0.05, -0.03];
        const [fx, fz] = [-20 * Math.sin(a), -20 * Math.cos(a)];
        // About the axis to the left; a torque that drives the wheel forwards is read with the opposite sign.
        return -(z * fx - x * fz);
      };
      expect(Math.abs(tareTorque(of(moment(alpha) - moment(zero), "N.m"), forward, up, deg(alpha), deg(zero)).value)).toBeLessThan(1e-12);
      expect(Math.abs(tareTorque(of(moment(alpha), "N.m"), forward, up, deg(alpha), null).value)).toBeLessThan(1e-12);
    }
  });
});
