import { expect, test } from "vitest";
import { estimateFrom, undetermined } from "../../src/core/estimate.ts";
import { judgedInspections } from "../../src/fitting/inspectionFindings.ts";
import { inspection } from "./inspections.ts";

const at = (distanceM: number, kg: number | null, u: number | null = null, failed = false) => ({
  record: inspection(distanceM, { failed, line: 7 }),
  mass: kg === null ? undetermined("kg", "") : u === null ? undetermined("kg", "", kg) : estimateFrom(kg, "kg", "", [{ cause: "weighing", effect: u, sharedBy: null, degreesOfFreedom: Infinity }]),
});
const codes = (...rows: readonly ReturnType<typeof at>[]) => judgedInspections(rows).findings.map((one) => one.code);

test("a wheel that gets lighter with the distance is as it should be", () => {
  expect(codes(at(0, 1.6), at(1000, 1.59), at(1000, 1.59), at(3000, 1.57))).toEqual([]);
  expect(codes()).toEqual([]);
});

test("a distance that goes backwards is left out, and the next is held against the last one that counts", () => {
  const { judged, findings } = judgedInspections([at(0, 1.6), at(3000, 1.57), at(1000, 1.59), at(2999, 1.5), at(4000, 1.55)]);
  expect(findings.map((one) => [one.code, one.limit])).toEqual([["distance-backwards", 3000], ["distance-backwards", 3000]]);
  expect(judged.map((one) => one.refused === null)).toEqual([true, true, false, false, true]);
});

test("a mass that grows beyond its doubt", () => {
  expect(codes(at(0, 1.6), at(1000, 1.6001))).toEqual(["mass-grew"]);
  expect(codes(at(0, 1.6, 0.001), at(1000, 1.6028, 0.001))).toEqual([]);
  expect(codes(at(0, 1.6, 0.001), at(1000, 1.6029, 0.001))).toEqual(["mass-grew"]);
  expect(codes(at(0, 1.6), at(1000, null), at(2000, 1.61))).toEqual(["mass-grew"]);
});

test("a wheel does not come back from failure", () => {
  expect(codes(at(0, null), at(1000, null, null, true), at(2000, null))).toEqual(["sound-after-failure"]);
  const { judged, findings } = judgedInspections([at(0, null), at(1000, null, null, true), at(2000, null, null, true)]);
  expect([findings, judged[2]?.refused]).toEqual([[], "the wheel had failed before"]);
});
