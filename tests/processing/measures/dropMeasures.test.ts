import { describe, expect, test } from "vitest";
import type { Estimate } from "../../../src/core/estimate.ts";
import type { PreparedRun, Reduced } from "../../../src/processing/preparedRun.ts";
import { reduceDropRun } from "../../../src/processing/dropRun.ts";
import { agrees } from "../../helpers/agrees.ts";
import { shapedDrop } from "../shapedDrop.ts";
import type { ShapedDrop } from "../shapedDrop.ts";

function value(reduced: Reduced, name: string): Estimate {
  const measure = reduced.measures.find((candidate) => candidate.name === name);
  if (measure === undefined) throw new Error(`no measure ${name}`);
  return measure.estimate;
}

const codes = (reduced: Reduced): string[] => reduced.findings.map((one) => one.code);
const reduce = (drop: Partial<ShapedDrop>): Reduced => reduceDropRun(shapedDrop(drop));
const gn = 9.80665;

describe("speeds and restitution of shaped drops", () => {
  test("Δv = v₁(1 + e) is the integral over the contact", () => {
    const source = "identity Δv = v₁ (1 + e): v₁ = 1.4 m/s, e = 0.8 give 2.52 m/s";
    const reduced = reduce({ heightM: 1.4 ** 2 / 2 / 9.81, gravity: 9.81, restitution: 0.8, pulseS: 0.01 });
    // One sampling interval of free fall, 50 kHz, is 0.0002 m/s.
    agrees(value(reduced, "impactSpeed").value, { expected: 1.4, within: 5e-4, source });
    agrees(value(reduced, "velocityChange").value, { expected: 2.52, within: 5e-4, source });
    agrees(value(reduced, "reboundSpeed").value, { expected: 1.12, within: 5e-4, source });
    agrees(value(reduced, "restitutionFromVelocities").value, { expected: 0.8, within: 5e-4, source });
  });
  test("a bounce on the Moon", () => {
    const source = "bounces as a geometric series with g = 1.62 m/s², h = 1 m, e = 0.8: v₀ 1.8 m/s, first flight 1.777778 s; exact";
    const reduced = reduce({ heightM: 1, gravity: 1.62, restitution: 0.8, pulseS: 0.002, rateHz: 20000 });
    const [flight] = reduced.segments.filter((segment) => segment.kind === "flight");
    agrees(value(reduced, "impactSpeed").value, { expected: 1.8, within: 5e-4, source });
    agrees((flight?.toS ?? 0) - (flight?.fromS ?? 0), { expected: 1.777778, within: 2e-4, source });
    // each flight is 0.8 of the one before, so that all bounces together last t₀ (1 + e)/(1 − e) = 10 s
    const flights = reduced.segments.filter((segment) => segment.kind === "flight").map(({ fromS, toS }) => toS - fromS);
    expect(flights.length).toBeGreaterThan(1);
    const whole = Math.sqrt(2 / 1.62) + flights.reduce((sum, one) => sum + one, 0) + ((flights.at(-1) ?? 0) * 0.8) / (1 - 0.8);
    agrees(whole, { expected: 10, within: 2e-3, source: "g = 1.62 m/s², h = 1 m, e = 0.8: T = t₀ (1 + e)/(1 − e) = 10 s exactly" });
    // The hub leaves 0.3 mm below its touch in these pulses: 2·10⁻⁴ of the rebound speed.
    agrees(value(reduced, "restitutionFromFlightTimes").value, { expected: 0.8, within: 5e-4, source });
    agrees(value(reduced, "restitutionSecondImpact").value, { expected: 0.8, within: 5e-4, source });
  });
  test("a plunger from 400 mm", () => {
    const source = "v = √(2 g h), 400 mm and standard gravity: 2.80095 m/s (drop of ASTM D2632, height from memory)";
    const reduced = reduce({ heightM: 0.4, gravity: gn, restitution: Math.SQRT1_2, pulseS: 0.005 });
    agrees(value(reduced, "impactSpeedLimit").value, { expected: 2.80095, within: 5e-6, source });
    agrees(value(reduced, "impactSpeed").value, { expected: 2.80095, within: 5e-4, source });
    agrees(value(reduced, "absorbedShare").value, { expected: 0.5, within: 1e-3, source: "ASTM D2632-01, 3.1: rebound to half the height is a resilience of 50 %" });
  });
  test("the height channel gives the same speeds and restitution, and its own zero is watched", () => {
    const drop: Partial<ShapedDrop> = { heightM: 0.1, gravity: 9.81, restitution: 0.7, pulseS: 0.001, withHeight: true };
    const reduced = reduce(drop);
    const source = "the drop made by formula: v₁ = √(2 g h), e = 0.7";
    agrees(value(reduced, "impactSpeedFromHeight").value, { expected: Math.sqrt(2 * 9.81 * 0.1), within: 5e-4, source });
    agrees(value(reduced, "reboundSpeedFromHeight").value, { expected: 0.7 * Math.sqrt(2 * 9.81 * 0.1), within: 5e-4, source });
    agrees(value(reduced, "restitutionFromHeights").value, { expected: 0.7, within: 5e-4, source });
    agrees(value(reduced, "impulseRatio").value, { expected: 1, within: 1e-3, source });
    expect(codes(reduced)).not.toContain("touch-height");
    expect(codes(reduce({ ...drop, heightOffsetM: 0.002 }))).toContain("touch-height");
  });
});

describe("the pulse", () => {
  const source = "half-sine pulse: D at 10 % of the peak = D₀ (1 − 2 asin(0.1)/π) = 0.936231 D₀; exact";
  test("duration at 10 % and peak of a half-sine", () => {
    const v1 = (2 / Math.PI) * 50 * gn * 0.011 / 1.5;
    const reduced = reduce({ heightM: v1 ** 2 / 2 / gn, gravity: gn, restitution: 0.5, pulseS: 0.011, rateHz: 100000 });
    // Class 1000 rounds the corners of an 11 ms pulse over about 0.1 ms.
    agrees(value(reduced, "pulseDuration").value, { expected: 0.936231 * 0.011, relative: 2e-3, source });
    agrees(value(reduced, "peakAcceleration").value, { expected: 50 * gn, relative: 1e-3, source: "half-sine of 50 gn and 11 ms put in; class 1000 passes it" });
    agrees(value(reduced, "velocityChange").value, { expected: 3.4, within: 0.05, source: "IEC 60068-2-27, table of severities: half-sine 50 gn, 11 ms, velocity change 3.4 m/s (from memory)" });
    agrees(value(reduced, "velocityChange").value, { expected: 3.4337, within: 5e-4, source: "Δv = (2/π) A D of a half-sine; exact" });
  });
  test("the declared filter lowers a short pulse, and the method names it", () => {
    const drop: Partial<ShapedDrop> = { heightM: 0.1, gravity: 9.81, restitution: 0.6, pulseS: 0.002, rateHz: 50000 };
    const wide = value(reduceDropRun(shapedDrop(drop)), "peakAcceleration");
    const narrow = value(reduceDropRun(shapedDrop({ ...drop, filterClass: 60 })), "peakAcceleration");
    expect(narrow.value).toBeLessThan(0.8 * wide.value);
    expect(narrow.method).toContain("class 60 (SAE J211)");
  });
  test("too low a rate is said; at less than the filter can bear there is no peak", () => {
    const low = reduce({ rateHz: 8000 });
    expect(codes(low)).toContain("rate-too-low");
    expect(value(low, "peakAcceleration").standardUncertainty).not.toBeNull();
    const lower = reduce({ rateHz: 4000 });
    expect(value(lower, "peakAcceleration")).toMatchObject({ standardUncertainty: null });
    expect(codes(reduce({ rateHz: 10000 }))).not.toContain("rate-too-low");
  });
});

describe("what the data cannot say", () => {
  test("a peak at the end of the range takes peak, change and rebound with it, not the impact speed", () => {
    const clipped = reduce({ rangeMps2: 150, heightM: 0.1 });
    expect(clipped.findings.find((one) => one.code === "impact-clipped")?.severity).toBe("reject");
    for (const name of ["peakAcceleration", "pulseDuration", "velocityChange", "reboundSpeed", "restitutionFromVelocities", "restitutionFromFlightTimes", "impulseRatio"]) expect(value(clipped, name).standardUncertainty, name).toBeNull();
    expect(value(clipped, "impactSpeed").standardUncertainty).not.toBeNull();
    expect(value(clipped, "reboundSpeed").method).toContain("cut off");
  });
  test("a wheel that stays down has no restitution, and says why", () => {
    const dead = reduce({ restitution: 0, bounces: 1 });
    expect(value(dead, "restitution").standardUncertainty).toBeNull();
    expect(value(dead, "restitution").method).toContain("did not leave the ground");
  });
  test("missing samples in the contact are not bridged", () => {
    const run = shapedDrop({ heightM: 0.1 });
    const samples = (run.recordings[0]?.channels[0]?.samples ?? []) as Float64Array;
    const peak = samples.indexOf(Math.max(...samples));
    samples[peak] = Number.NaN;
    const reduced = reduceDropRun(run);
    expect(codes(reduced)).toContain("missing-in-drop");
    for (const name of ["velocityChange", "peakAcceleration", "restitutionFromVelocities"]) expect(value(reduced, name).standardUncertainty, name).toBeNull();
    expect(value(reduced, "impactSpeed").standardUncertainty).not.toBeNull();
  });
  test("sign the wrong way round: no release", () => {
    const run = shapedDrop({});
    const samples = run.recordings[0]?.channels[0]?.samples as Float64Array;
    for (let i = 0; i < samples.length; i++) samples[i] = samples[i] as number > 0 ? -0.1 : -(samples[i] as number);
    const reduced = reduceDropRun(run);
    expect(reduced.findings.map((one) => [one.code, one.severity])).toContainEqual(["no-release", "reject"]);
    expect(reduced.measures.every((one) => one.estimate.standardUncertainty === null)).toBe(true);
  });
  test("a log that starts just before the fall has no zero", () => {
    expect(codes(reduce({ restS: 0.1 }))).toContain("rest-too-short");
  });
  test("no acceleration, no description, no touch", () => {
    const run = shapedDrop({});
    expect(codes(reduceDropRun({ ...run, recordings: [] }))).toEqual(["no-acceleration"]);
    const { drop: _, ...rig } = run.rig;
    expect(codes(reduceDropRun({ ...run, rig: rig as PreparedRun["rig"] }))).toEqual(["no-drop-description"]);
    expect(codes(reduce({ bounces: 0 }))).toContain("no-contact");
  });
});

describe("checks between the ways", () => {
  test("a wrong gain shows in the impulse check and above free fall", () => {
    const reduced = reduce({ gain: 1.15, heightM: 0.2, restitution: 0.6 });
    expect(reduced.findings.find((one) => one.code === "impulse-disagrees")?.severity).toBe("reject");
    expect(codes(reduced)).toContain("faster-than-fall");
    expect(reduce({ gain: 1.07, heightM: 0.2, restitution: 0.6 }).findings.find((one) => one.code === "impulse-disagrees")?.severity).toBe("look");
    expect(codes(reduce({ heightM: 0.2, restitution: 0.6 }))).not.toContain("impulse-disagrees");
  });
  test("a gain that all share leaves restitution alone", () => {
    const right = value(reduce({ heightM: 0.2, restitution: 0.6 }), "restitution");
    const wrong = value(reduce({ gain: 1.15, heightM: 0.2, restitution: 0.6 }), "restitution");
    expect(wrong.value).toBeCloseTo(right.value, 4);
    // Of 1 % in both speeds nothing is left but the rounding of differences.
    expect(Math.abs(right.budget.find((row) => row.cause === "calibration ACC-1")?.effect ?? 0)).toBeLessThan(1e-7);
  });
  test("a zero that moved at the impact is found", () => {
    expect(codes(reduce({ shiftMps2: 0.5 }))).toContain("zero-shift");
    expect(codes(reduce({}))).not.toContain("zero-shift");
  });
  test("something that strikes the falling hub is not taken for the ground", () => {
    const struck = reduce({ heightM: 0.2, knock: true, restitution: 0.6 });
    expect(struck.findings.find((one) => one.code === "struck-in-fall")?.severity).toBe("reject");
    expect(value(struck, "restitutionFromVelocities").value).toBeCloseTo(0.6, 2);
  });
  test("a set height without a stated uncertainty gives none", () => {
    const run = shapedDrop({});
    const { heightUncertainty: _, ...drop } = run.rig.drop as NonNullable<PreparedRun["rig"]["drop"]>;
    const reduced = reduceDropRun({ ...run, rig: { ...run.rig, drop } });
    expect(value(reduced, "impactSpeedLimit").value).toBeCloseTo(Math.sqrt(2 * 9.81 * 0.1), 9);
    for (const name of ["impactSpeedLimit", "impulseRatio"]) expect(value(reduced, name), name).toMatchObject({ standardUncertainty: null });
    expect(value(reduced, "impulseRatio").method).toContain("heightUncertainty");
  });
  test("without a stated range or uncertainty this is said", () => {
    const run = shapedDrop({ rangeMps2: null });
    const bare = { ...run, recordings: run.recordings.map((recording) => ({ ...recording, channels: recording.channels.map((one) => ({ ...one, doubt: null })) })) };
    expect(codes(reduceDropRun(bare))).toEqual(expect.arrayContaining(["range-not-stated", "no-stated-uncertainty"]));
  });
});
