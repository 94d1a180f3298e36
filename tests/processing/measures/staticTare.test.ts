import { describe, expect, it } from "vitest";
import { seededRandom } from "../../../src/numerics/random.ts";
import { staticTare } from "../../../src/processing/measures/staticTare.ts";
import type { StaticReading } from "../../../src/processing/measures/staticTare.ts";
import { agrees } from "../../helpers/agrees.ts";

const truth = { pull: 1.3, load: -4.2, torque: 0.25, mass: 2.6, x: 0.031, z: -0.047 };
const g = 9.81;

/** A body on a sensor, by vectors: gravity turned into the carriage's axes, moment as r × F. */
function reading(tiltDeg: number, noise: () => number = () => 0): StaticReading {
  const a = (tiltDeg * Math.PI) / 180;
  const force = [-Math.sin(a) * truth.mass * g, -Math.cos(a) * truth.mass * g] as const;
  const moment = truth.z * force[0] - truth.x * force[1];
  return { tiltRad: a, pullN: truth.pull + force[0] + 0.05 * noise(), loadN: truth.load + force[1] + 0.05 * noise(), torqueNm: truth.torque - moment + 0.002 * noise() };
}

describe("static readings", () => {
  it("three attitudes give bias, weight and centre of mass back", () => {
    const found = staticTare([-30, 0, 30].map((tilt) => reading(tilt)), 0.05, 0.002);
    const source = "made readings: the body put in";
    agrees(found.weight.value, { expected: truth.mass * g, relative: 1e-10, source });
    agrees(found.forward.value / found.weight.value, { expected: truth.x, relative: 1e-9, source });
    agrees(found.up.value / found.weight.value, { expected: truth.z, relative: 1e-9, source });
    agrees(found.bias.pullN, { expected: truth.pull, within: 1e-9, source });
    agrees(found.bias.loadN, { expected: truth.load, within: 1e-9, source });
    agrees(found.bias.torqueNm, { expected: truth.torque, within: 1e-9, source });
  });

  it("the weight's uncertainty by hand: u / √(Σ(sin − mean)² + Σ(cos − mean)²)", () => {
    const found = staticTare([-30, 0, 30].map((tilt) => reading(tilt)), 0.05, null);
    const c = Math.cos(Math.PI / 6);
    const spread = 2 * 0.5 ** 2 + 2 * (c - (2 * c + 1) / 3) ** 2 + (1 - (2 * c + 1) / 3) ** 2;
    agrees(found.weight.standardUncertainty ?? NaN, { expected: 0.05 / Math.sqrt(spread), relative: 1e-9, source: "slope common to two lines with intercepts of their own, weighted least squares by hand" });
    expect(found.forward.standardUncertainty).toBeNull();
  });

  it("over many made readings the errors are as large as stated", () => {
    const random = seededRandom(5);
    const noise = (): number => random.normal();
    const scaled = Array.from({ length: 400 }, () => {
      const found = staticTare([-20, -7, 6, 15, 25].map((tilt) => reading(tilt, noise)), 0.05, 0.002);
      return [(found.weight.value - truth.mass * g) / (found.weight.standardUncertainty ?? NaN), (found.up.value - truth.mass * g * truth.z) / (found.up.standardUncertainty ?? NaN)] as const;
    });
    for (const which of [0, 1] as const) {
      const rms = Math.sqrt(scaled.reduce((sum, pair) => sum + pair[which] ** 2, 0) / scaled.length);
      // √(1/800) = 0.035 of scatter; what is enlarged by χ² makes it smaller than 1, by 5 to 15 %.
      expect(rms).toBeGreaterThan(0.78);
      expect(rms).toBeLessThan(1.08);
    }
  });

  it("readings that scatter more than stated enlarge it; attitudes that are one leave it undetermined", () => {
    const bent = [-30, -10, 0, 10, 30].map((tilt) => reading(tilt)).map((one, i) => ({ ...one, pullN: one.pullN + (i % 2 === 0 ? 1 : -1) }));
    expect(staticTare(bent, 0.05, null).weight.standardUncertainty ?? 0).toBeGreaterThan(10 * (staticTare([-30, -10, 0, 10, 30].map((tilt) => reading(tilt)), 0.05, null).weight.standardUncertainty ?? Infinity));
    expect(staticTare([5, 5, 5].map((tilt) => reading(tilt)), 0.05, 0.002).weight.standardUncertainty).toBeNull();
  });
});
