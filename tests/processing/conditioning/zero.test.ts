import { expect, it } from "vitest";
import { driftKey, zero } from "../../../src/processing/conditioning/zero.ts";
import { meanOver } from "../../../src/processing/conditioning/slope.ts";
import { seededRandom } from "../../../src/numerics/random.ts";
import { agrees } from "../../helpers/agrees.ts";
import { record, rigWith, wheel } from "../recordings.ts";

const hanging = -(0.8 + 1.2) * 9.81;

function run(drift: number, massError = 0) {
  const random = seededRandom(5);
  // Lifted for 2 s, loaded with 60 N from 4 s to 26 s, lifted again; the amplifier drifts in a straight line.
  const force = (t: number): number => (t > 4 && t < 26 ? 60 : 0) + hanging - massError * 9.81 + (drift * t) / 30 + 0.05 * random.normal();
  return record(200, 30, { verticalLoad: { unit: "N", of: force } });
}

it("takes the lifted wheel's weight and a straight drift out", () => {
  const zeroed = zero(run(1.2), rigWith(), wheel);
  const { mean } = meanOver(zeroed.recording.time, zeroed.recording.channels[0]?.samples ?? new Float64Array(), 10, 20);
  // Noise of 0.05 N over 400-sample blocks leaves 0.003 N; 5 of those.
  agrees(mean, { expected: 60, within: 0.015, source: "made record: 60 N were put on" });
  expect(zeroed.segments.map((segment) => segment.kind)).toEqual(["preZero", "postZero"]);
  // Drift between the middles of the blocks: 28/30 of 1.2 N.
  expect(zeroed.recording.history.at(-1)?.parameters[driftKey("verticalLoad")]).toBeCloseTo(1.12, 1);
});

it("judges drift as a share of the range", () => {
  expect(zero(run(1), rigWith(), wheel).findings).toEqual([]);
  expect(zero(run(5), rigWith(), wheel).findings[0]).toMatchObject({ code: "zero-drift", severity: "look" });
  expect(zero(run(15), rigWith(), wheel).findings[0]).toMatchObject({ code: "zero-drift", severity: "reject" });
});

it("notices another wheel on the sensor", () => {
  expect(zero(run(0, 0.1), rigWith(), wheel).findings).toEqual([]);
  expect(zero(run(0, 0.5), rigWith(), wheel).findings[0]).toMatchObject({ code: "wheel-weight", severity: "look" });
});

it("names the unit in which the lifted wheel's weight was taken", () => {
  const rig = rigWith({ massBelowSensor: 18.8 });
  // 20 kg hang there; the channel's numbers are kilograms-force that rig.yaml calls newton.
  const kilograms = record(100, 30, { verticalLoad: { unit: "N", of: () => -20 } });
  expect(zero(kilograms, rig, wheel).findings.find((found) => found.code === "wheel-weight")?.message).toContain("kilogram-force and newton");
});

it("adds the weight below a sensor that was zeroed bare", () => {
  const bare = record(200, 30, { verticalLoad: { unit: "N", of: (t) => (t > 4 && t < 26 ? 60 + hanging : 0) } });
  const zeroed = zero(bare, rigWith({ zero: { state: "sensorBare", beforeS: 2, afterS: 2 } }), wheel);
  agrees(meanOver(zeroed.recording.time, zeroed.recording.channels[0]?.samples ?? new Float64Array(), 10, 20).mean, { expected: 60, within: 1e-9, source: "made record: 60 N at the contact" });
});

it("rejects a log shorter than its zero blocks", () => {
  const short = record(200, 3, { verticalLoad: { unit: "N", of: () => 0 } });
  expect(zero(short, rigWith(), wheel).findings[0]).toMatchObject({ code: "zero-missing", severity: "reject" });
});

it("the doubt of the zero grows with the drift, and the calibration's offset is gone", () => {
  const small = zero(run(0), rigWith(), wheel).recording.channels[0]?.doubt;
  const large = zero(run(5), rigWith(), wheel).recording.channels[0]?.doubt;
  expect(small?.offset).toBeLessThan(0.02);
  expect(large?.offset).toBeLessThan(0.02);
  agrees(large?.drift ?? 0, { expected: ((5 * 28) / 30 / 5) / Math.sqrt(3), relative: 0.05, source: "a fifth of the drift as half-width of a rectangular distribution (JCGM 100, 4.3.7)" });
  // without a drift the blocks differ by their noise alone
  expect(small?.drift ?? 0).toBeLessThan(0.01);
});

it("the bound on a bent drift is what an exponential one leaves in the mean over the middle two thirds of the run", () => {
  // 5 N in all between the middles of the blocks, at 1 s and 29 s; half of that time is its time constant
  const settled = (t: number): number => (5 * (1 - Math.exp((-2 * (t - 1)) / 28))) / (1 - Math.exp(-2));
  const force = (t: number): number => (t > 4 && t < 26 ? 60 : 0) + hanging + settled(t);
  const { recording } = zero(record(200, 30, { verticalLoad: { unit: "N", of: force } }), rigWith(), wheel);
  const channel = recording.channels[0];
  const left = meanOver(recording.time, channel?.samples ?? new Float64Array(), 1 + 28 / 6, 29 - 28 / 6).mean - 60;
  agrees(left, { expected: 0.199 * 5, within: 0.02, source: "[x + e^(−2x)/2]/(1 − e⁻²) − x²/2 over 1/6 … 5/6, integrated by hand" });
  agrees((channel?.doubt?.drift ?? 0) * Math.sqrt(3), { expected: left, relative: 0.02, source: "half-width of a rectangle that just holds it (JCGM 100:2008, 4.3.7)" });
});
