import { describe, expect, it } from "vitest";
import type { ConeReading } from "../../../src/campaign/campaign.ts";
import { coneMeanIndex, profileIndex } from "../../../src/processing/measures/coneMeanIndex.ts";
import { agrees } from "../../helpers/agrees.ts";

const profile = (position: string, kpa: readonly (readonly [mm: number, kPa: number])[], place?: { xM: number; yM: number }): ConeReading[] => kpa.map(([mm, kPa], i) => ({ bed: "B1", position, ...(place === undefined ? {} : { place }), depthM: mm / 1000, indexPa: 1000 * kPa, line: i + 2 }));
const flat = (position: string, kPa: number, place?: { xM: number; yM: number }) => profile(position, [[25, kPa], [150, kPa]], place);
const range = [0, 0.15] as const;
const limits = { look: 0.1, reject: 0.25 };
const of = (readings: readonly ConeReading[]) => coneMeanIndex("B1", readings, range, limits);

describe("mean cone index", () => {
  it("weighs unevenly spaced readings by their depth, and only those in the range", () => {
    const readings = profile("left", [[0, 0], [50, 100], [150, 200], [300, 999]]);
    agrees(profileIndex(readings, range), { expected: (50 * 50 + 100 * 150) / 150 * 1000, within: 1e-6, source: "by hand: trapezia over 0, 50 and 150 mm" });
  });

  it("is the mean over the depth that the standard's definition asks for, the surface counting as nothing", () => {
    const readings = profile("left", [[0, 0], [25, 95], [50, 210], [75, 298], [100, 402], [125, 510], [150, 596]]);
    agrees(profileIndex(readings, range) / 1000, { expected: 302.167, within: 6e-4, source: "mean of the cone index from 0 to 150 mm by trapezia, worked by an independent program" });
  });

  it("is not given where a profile reaches less than three quarters of the range", () => {
    expect(profileIndex(profile("left", [[25, 80], [130, 400]]), range)).toBeNaN();
    expect(profileIndex(profile("left", [[25, 80], [138, 400]]), range)).not.toBeNaN();
    const { index, findings } = of([...flat("left", 200), ...flat("right", 220), ...profile("middle", [[25, 80], [75, 300]])]);
    expect(findings.map((found) => `${found.code} ${found.severity}`)).toEqual(["cone-profile-short look"]);
    expect(findings[0]?.message).toContain("middle");
    agrees(index.value, { expected: 210e3, within: 1e-6, source: "by hand: mean of the two whole profiles" });
  });

  it("has the doubt of its profiles' scatter, and none of one profile", () => {
    const { index } = of([...flat("a", 200), ...flat("b", 206), ...flat("c", 209)]);
    agrees(index.value, { expected: 205e3, within: 1e-6, source: "by hand: 615 kPa over three" });
    agrees(index.standardUncertainty ?? NaN, { expected: Math.sqrt(21 / 3) * 1e3, within: 1e-6, source: "by hand: s² = (25 + 1 + 16)/2 = 21 kPa², over 3" });
    expect(of(flat("a", 200)).index.standardUncertainty).toBeNull();
  });

  it("says that a bed is uneven, and where it is soft and firm", () => {
    const place = (xM: number) => ({ xM, yM: -0.1 });
    const uneven = of([...flat("left", 100, place(0.2)), ...flat("right", 130, place(1.8))]);
    expect(uneven.findings.map((found) => `${found.code} ${found.severity}`)).toEqual(["cone-uneven look"]);
    expect(uneven.findings[0]?.message).toContain("from 100 kPa at left (x 200 mm, y -100 mm) to 130 kPa at right (x 1800 mm, y -100 mm)");
    expect(uneven.profiles[0]?.place).toEqual({ xM: 0.2, yM: -0.1 });
    expect(of([...flat("left", 100), ...flat("right", 150)]).findings[0]?.severity).toBe("reject");
    expect(of([...flat("left", 100), ...flat("right", 110)]).findings).toEqual([]);
  });
});
