import { describe, expect, test } from "vitest";
import type { Rig } from "../../../src/campaign/rigSchema.ts";
import { shockSpectrum } from "../../../src/numerics/shockSpectrum.ts";
import { reduceDropRun } from "../../../src/processing/dropRun.ts";
import type { Reduced } from "../../../src/processing/preparedRun.ts";
import { agrees } from "../../helpers/agrees.ts";
import { shapedDrop } from "../shapedDrop.ts";

const declared = { dampingRatio: 0.05, fromHz: 5, toHz: 1000 };
function reduce(shockSpectrumOf: NonNullable<Rig["drop"]>["shockSpectrum"], rateHz = 50000): Reduced {
  const run = shapedDrop({ heightM: 0.1, restitution: 0.7, pulseS: 0.012, rateHz });
  const drop = run.rig.drop as NonNullable<Rig["drop"]>;
  return reduceDropRun({ ...run, rig: { ...run.rig, drop: { ...drop, shockSpectrum: shockSpectrumOf } } });
}
const estimate = (reduced: Reduced, name: string) => reduced.measures.find((one) => one.name === name)?.estimate;
const values = (reduced: Reduced, name: string): number[] => reduced.curves?.find((one) => one.name === name)?.y.values as number[];

describe("shock response of a half-sine contact", () => {
  const reduced = reduce(declared);
  const v1 = Math.sqrt(2 * 9.81 * 0.1);
  const size = ((Math.PI / 2) * 1.7 * v1) / 0.012;
  test("the spectrum is that of the pulse against free fall, made by formula", () => {
    const pulse = Float64Array.from({ length: 601 }, (_, i) => size * Math.sin((Math.PI * i) / 600) + 9.81);
    const frequencies = reduced.curves?.find((one) => one.name === "shockResponse")?.x.values as number[];
    const expected = shockSpectrum(pulse, 50000, 0.05, frequencies);
    const found = values(reduced, "shockResponse");
    const source = "shockSpectrum of the same pulse made by formula; it is held against SciPy in tests/numerics/shockSpectrum.test.ts";
    frequencies.forEach((hz, i) => {
      // Above, the filter rounds the pulse's edges.
      if (hz < 600) agrees(found[i] as number, { expected: expected[i]?.maximax as number, relative: 0.01, source });
    });
    agrees(estimate(reduced, "shockResponsePeak")?.value as number, { expected: Math.max(...expected.map((point) => point.maximax)), relative: 0.005, source });
  });
  test("slow oscillators see the velocity change only, gravity's part with it", () => {
    agrees(values(reduced, "pseudoVelocity")[0] as number, { expected: 1.7 * v1 + 9.81 * 0.012, relative: 0.08, source: "∫(a + g) dt over the contact; at 5 Hz damping and the pulse's length take some 7 %" });
  });
  test("every point has its uncertainty; the largest is one of them", () => {
    const peak = estimate(reduced, "shockResponsePeak");
    expect(peak?.standardUncertainty).toBeGreaterThan(0.0099 * (peak?.value ?? 0));
    expect(values(reduced, "shockResponse")).toContain(peak?.value);
    expect(reduced.curves?.find((one) => one.name === "shockResponse")?.yUncertainty?.every((u) => u > 0)).toBe(true);
  });
});

test("nothing declared, nothing assumed", () => {
  const reduced = reduce(undefined);
  expect(estimate(reduced, "shockResponsePeak")?.method).toContain("declares no shockSpectrum");
  expect(values(reduced, "shockResponse")).toBeUndefined();
});

test("a range beyond what class and rate show is cut, and said", () => {
  const reduced = reduce({ dampingRatio: 0.05, fromHz: 5, toHz: 5000 });
  expect(reduced.findings.map((one) => one.code)).toContain("shock-range-cut");
  const frequencies = reduced.curves?.find((one) => one.name === "shockResponse")?.x.values as number[];
  expect(frequencies.at(-1)).toBeLessThanOrEqual(1000);
  expect(estimate(reduce({ dampingRatio: 0.05, fromHz: 2000, toHz: 5000 }), "shockResponsePeak")?.method).toContain("less than two frequencies");
});
