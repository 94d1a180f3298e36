import { describe, expect, it } from "vitest";
import { rutDepth } from "../../../src/processing/measures/rutDepth.ts";
import { agrees } from "../../helpers/agrees.ts";

const doubt = { relative: 0.01, offset: 0.0002, shared: "calibration SCN-3" };
const bed = Array.from({ length: 11 }, (_, i) => ({ x: 0.1 * i, z: 0.002 * i }));

describe("rut depth", () => {
  it("is how much lower the surface is at the same place, also between the first scan's points", () => {
    const rut = [0.05, 0.25, 0.45, 0.65, 0.85].map((x) => ({ x, z: 0.02 * x - 0.015 }));
    const found = rutDepth(bed, rut, doubt, "R1");
    agrees(found.value, { expected: 0.015, within: 1e-12, source: "made rut, 15 mm below a slope" });
    agrees(found.standardUncertainty ?? NaN, { expected: Math.hypot(Math.SQRT2 * 0.0002, 0.01 * 0.015), within: 1e-9, source: "by hand: no scatter, both scans' heights, scale" });
  });

  it("counts its scatter along the lane", () => {
    const rut = [0.1, 0.3, 0.5, 0.7, 0.9].map((x, i) => ({ x, z: 0.02 * x - 0.015 + (i % 2 === 0 ? 0.001 : -0.001) }));
    const scatter = rutDepth(bed, rut, doubt, "R1").budget.find((row) => row.cause.startsWith("scatter"));
    agrees(scatter?.effect ?? NaN, { expected: 0.001 * Math.sqrt(4.8 / 4 / 5), within: 1e-9, source: "by hand: s/√5 of five alternating depths" });
  });

  it("is not determined where the scans do not meet", () => {
    const found = rutDepth(bed, [2, 3, 4, 5, 6].map((x) => ({ x, z: 0 })), doubt, "R1");
    expect(found.standardUncertainty).toBeNull();
    expect(found.method).toContain("0 places");
  });
});
