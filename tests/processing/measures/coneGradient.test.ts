import { expect, test } from "vitest";
import type { BedRecord, ConeReading } from "../../../src/campaign/campaign.ts";
import { coneGradient, profileGradient } from "../../../src/processing/measures/coneGradient.ts";
import { agrees } from "../../helpers/agrees.ts";
import { rig } from "../../helpers/pressRun.ts";

const { tolerances } = rig();
const profile = (slopeKpaMm: number, position: string, bed = "B1"): ConeReading[] => [25, 50, 75, 100].map((mm, i) => ({ bed, position, depthM: mm / 1000, indexPa: 1000 * slopeKpaMm * mm, line: i + 2 }));
const bed = (targetGradientPaM: number | null): BedRecord => ({ id: "B1", densityKgM3: null, moisture: null, targetGradientPaM, remark: "", more: {}, line: 2 });

test("slope of the index over depth", () => {
  const readings = [95, 210, 298, 402, 510, 596].map((kpa, i) => ({ bed: "B1", position: "1", depthM: 0.025 * (i + 1), indexPa: 1000 * kpa, line: i + 2 }));
  agrees(profileGradient(readings) / 1e6, { expected: 4.01029, relative: 1e-5, source: "ordinary least squares of the six readings, worked by an independent program" });
});

test("mean over the profiles with their scatter", () => {
  const result = coneGradient(bed(4e6), [...profile(3.9, "1"), ...profile(4, "2"), ...profile(4.2, "3"), ...profile(9, "1", "B2")], tolerances);
  expect(result?.gradient.value).toBeCloseTo(1e6 * (12.1 / 3), 0);
  // sd of 3.9, 4.0, 4.2 = 0.15275; over √3
  expect(result?.gradient.standardUncertainty).toBeCloseTo(1e6 * 0.0881917, 0);
  expect(result?.gradient.degreesOfFreedom).toBeCloseTo(2, 9);
  expect(result?.findings).toEqual([]);
});

test("away from the target: look, then reject", () => {
  const severity = (slope: number, target: number | null) => coneGradient(bed(target), [...profile(slope, "1"), ...profile(slope, "2")], tolerances)?.findings.map((entry) => entry.severity);
  expect(severity(4.35, 4e6)).toEqual([]);
  expect(severity(4.5, 4e6)).toEqual(["look"]);
  expect(severity(3.1, 4e6)).toEqual(["reject"]);
  expect(severity(3.1, null)).toEqual([]);
});

test("one profile gives no uncertainty, one depth no gradient, no reading nothing", () => {
  expect(coneGradient(bed(null), profile(4, "1"), tolerances)?.gradient.standardUncertainty).toBeNull();
  const short = coneGradient(bed(null), profile(4, "1").slice(0, 1), tolerances);
  expect(short?.gradient.value).toBeNaN();
  expect(short?.findings[0]?.code).toBe("cone-profile-too-short");
  expect(coneGradient(bed(null), [], tolerances)).toBeNull();
});
