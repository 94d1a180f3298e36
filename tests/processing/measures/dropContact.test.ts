import { describe, expect, test } from "vitest";
import type { Rig } from "../../../src/campaign/rigSchema.ts";
import { estimateFrom } from "../../../src/core/estimate.ts";
import type { Estimate } from "../../../src/core/estimate.ts";
import type { Unit } from "../../../src/core/units.ts";
import { reduceDropRun } from "../../../src/processing/dropRun.ts";
import type { Reduced } from "../../../src/processing/preparedRun.ts";
import { contactForce } from "../../../src/processing/measures/contactForce.ts";
import { contactWork, motionEnergy } from "../../../src/processing/measures/contactEnergy.ts";
import { equivalentDamping, loopDampingRatio } from "../../../src/processing/measures/loopDamping.ts";
import { agrees } from "../../helpers/agrees.ts";
import { shapedDrop } from "../shapedDrop.ts";
import type { ShapedDrop } from "../shapedDrop.ts";

const given = <U extends Unit>(value: number, unit: U, share = 0.01): Estimate<U> => estimateFrom(value, unit, "given", [{ cause: `${unit} ${value}`, effect: share * value, sharedBy: null, degreesOfFreedom: Infinity }]);

function reduce(drop: Partial<ShapedDrop>, more: Partial<NonNullable<Rig["drop"]>> = { massUncertainty: 0.02 }): Reduced {
  const run = shapedDrop(drop);
  return reduceDropRun({ ...run, rig: { ...run.rig, drop: { ...(run.rig.drop as NonNullable<Rig["drop"]>), ...more } } });
}

const value = (reduced: Reduced, name: string): Estimate => reduced.measures.find((one) => one.name === name)?.estimate ?? given(Number.NaN, "1");
const curve = (reduced: Reduced, name: string) => reduced.curves?.find((one) => one.name === name);

describe("energies, forces and damping from numbers", () => {
  test("a plunger of 28 g from 400 mm", () => {
    agrees(motionEnergy(given(0.028, "kg"), given(2.80095, "m/s"), "given").value, { expected: 0.109834, within: 2e-6, source: "ASTM D2632 plunger, E = m g h = 0.109834 J (mass and height from memory)" });
  });
  test("force doubles what the ground carries at 1 g of coordinate acceleration", () => {
    const force = contactForce(given(4.5, "kg"), given(9.81, "m/s2"), 9.81);
    agrees(force.value, { expected: 88.29, within: 1e-9, source: "F = m (a + g), worked by hand" });
    agrees(force.standardUncertainty ?? Number.NaN, { expected: Math.hypot(0.045 * 19.62, 4.5 * 0.0981), relative: 1e-6, source: "first-order propagation, worked by hand" });
  });
  test("a blow that comes back at its own height loses ½ m v₁² (1 − e²)", () => {
    const work = contactWork(given(4, "kg"), given(1.4, "m/s"), given(1.12, "m/s"), given(0, "m"), 9.81, "given");
    agrees(work.value, { expected: 0.5 * 4 * 1.4 ** 2 * (1 - 0.8 ** 2), within: 1e-12, source: "energy balance with e = 0.8" });
    agrees(work.value / motionEnergy(given(4, "kg"), given(1.4, "m/s"), "given").value, { expected: 1 - 0.8 ** 2, within: 1e-12, source: "resilience e²: ISO 4662 (definition from its summary), absorbed share 1 − e²" });
  });
  test("viscous energy per cycle: half of it gives the damper back", () => {
    const c = equivalentDamping(given(0.314159 / 2, "J"), given(0.01, "m"), given(Math.PI / 10, "s"));
    agrees(c.value, { expected: 100, within: 1e-3, source: "ΔW = π c ω X²: c = 100 N·s/m, ω = 10 rad/s, X = 0.01 m lose 0.314159 J a cycle" });
  });
  test("specific damping capacity of a damping ratio", () => {
    const stored = 2;
    const lost = 0.628319 * stored * 0.5;
    const ratio = loopDampingRatio(given(lost, "J"), given(stored + lost / 2, "J"));
    agrees(ratio.value, { expected: 0.05, within: 1e-6, source: "ψ = ΔW/U = 4π ζ: ζ = 0.05 gives 0.628319 a whole cycle (ISO 2041, from memory)" });
  });
});

describe("a half-sine contact of known speeds", () => {
  const made: Partial<ShapedDrop> = { heightM: 0.1, gravity: 9.81, restitution: 0.7, pulseS: 0.012, rateHz: 50000 };
  const reduced = reduce(made);
  const v1 = Math.sqrt(2 * 9.81 * 0.1);
  const size = ((Math.PI / 2) * 1.7 * v1) / 0.012;
  const way = (t: number): number => v1 * t - ((size * 0.012) / Math.PI) * (t - (0.012 / Math.PI) * Math.sin((Math.PI * t) / 0.012));
  const turn = (0.012 / Math.PI) * Math.acos(1 - (v1 * Math.PI) / (size * 0.012));
  const source = "a = A sin(πt/D) integrated twice by hand";
  test("compression and force", () => {
    // A noise of 0.01 m/s² and 20 µs between samples: some 0.02 mm.
    agrees(value(reduced, "largestCompression").value, { expected: way(turn), within: 4e-5, source });
    agrees(value(reduced, "compressionAtLiftOff").value, { expected: way(0.012), within: 4e-5, source });
    agrees(value(reduced, "contactDuration").value, { expected: 0.012, within: 3e-5, source });
    agrees(value(reduced, "peakForce").value, { expected: 4.5 * (size + 9.81), relative: 2e-3, source });
  });
  test("energies", () => {
    const lost = 0.5 * 4.5 * v1 ** 2 * (1 - 0.49) + 4.5 * 9.81 * way(0.012);
    agrees(value(reduced, "absorbedEnergy").value, { expected: lost, relative: 3e-3, source: "½ m v₁² (1 − e²) + m g d at lift-off" });
    const loop = curve(reduced, "forceCompression");
    const xs = loop?.x.values as number[];
    const ys = loop?.y.values as number[];
    const area = xs.reduce((sum, x, i) => (i === 0 ? 0 : sum + 0.5 * ((ys[i] as number) + (ys[i - 1] as number)) * (x - (xs[i - 1] as number))), 0);
    expect(xs.length).toBeLessThanOrEqual(200);
    // The drawn loop is thinned and its force filtered.
    agrees(area, { expected: lost, relative: 0.02, source: "the same energy as the area of the drawn loop" });
  });
  test("bounce by bounce: each leaves e² of the one before", () => {
    // Short pulses: the made flights begin and end at one height.
    const short = reduce({ ...made, pulseS: 0.001 });
    const energies = curve(short, "bounceEnergy")?.y.values as number[];
    expect(energies.length).toBe(4);
    for (let n = 1; n < 4; n++) agrees((energies[n] as number) / (energies[n - 1] as number), { expected: 0.49, within: 0.005, source: "geometric series of bounces, e = 0.7" });
    expect(curve(short, "bounceEnergy")?.yUncertainty?.every((u) => u > 0)).toBe(true);
  });
  test("other filters beside the declared one: a lower class lowers and lengthens the pulse", () => {
    const classes = curve(reduced, "peakByFilter")?.x.values as number[];
    const peaks = curve(reduced, "peakByFilter")?.y.values as number[];
    const durations = curve(reduced, "durationByFilter")?.y.values as number[];
    expect(classes).toContain(1000);
    expect(peaks[classes.indexOf(1000)]).toBe(value(reduced, "peakAcceleration").value);
    expect(durations[classes.indexOf(1000)]).toBe(value(reduced, "pulseDuration").value);
    expect(peaks[0] as number).toBeLessThan(0.9 * size);
    expect(durations[0] as number).toBeGreaterThan(0.012);
    agrees(curve(reduced, "restitutionByFilter")?.y.values[classes.indexOf(1000)] as number, { expected: 0.7, within: 0.01, source: "the drop made by formula" });
  });
});

describe("what cannot be determined says why", () => {
  test("no stated mass uncertainty: values, no uncertainty", () => {
    const force = value(reduce({}, {}), "peakForce");
    expect(force.standardUncertainty).toBeNull();
    expect(force.value).toBeGreaterThan(100);
    expect(force.method).toContain("massUncertainty");
  });
  test("cut-off peak", () => {
    const reduced = reduce({ rangeMps2: 200 });
    for (const name of ["peakForce", "largestCompression", "compressionAtLiftOff", "absorbedEnergy", "loadingStiffness", "equivalentDamping", "dampingRatioLoop", "shockResponsePeak"]) {
      expect(value(reduced, name).standardUncertainty, name).toBeNull();
      expect(value(reduced, name).value, name).toBeNaN();
    }
    expect(reduced.curves?.map((one) => one.name)).toEqual([]);
  });
  test("a wheel that stays on the ground", () => {
    const reduced = reduce({ restitution: 0, bounces: 1 });
    expect(value(reduced, "absorbedEnergy").method).toContain("did not leave the ground");
    expect(value(reduced, "contactDuration").value).toBeNaN();
    expect(value(reduced, "largestCompression").standardUncertainty).not.toBeNull();
  });
  test("a height channel that tells another compression is looked at", () => {
    // The made height stays at 0 during contacts.
    expect(reduce({ withHeight: true, pulseS: 0.02 }).findings.map((one) => one.code)).toContain("compression-differs");
  });
  test("a hub that rises above first touch before the ground lets go of it is looked at", () => {
    // e = 1.2: d at lift-off = v₁ D (1 − e)/2 < 0.
    expect(reduce({ restitution: 1.2, bounces: 1 }).findings.map((one) => one.code)).toContain("loop-not-closed");
  });
});
