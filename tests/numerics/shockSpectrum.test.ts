import { beforeAll, describe, expect, test } from "vitest";
import { accelerationRecursion, displacementRecursion, shockSpectrum } from "../../src/numerics/shockSpectrum.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";
import { agreesAll } from "./agreesAll.ts";
import { scipy, scipySource } from "./scipyReference.ts";

const rateHz = 100_000;
const pulseS = 0.01;
/** Half-sine of size 1 that lasts 10 ms. */
const halfSine = Float64Array.from({ length: Math.round(pulseS * rateHz) + 1 }, (_, i) => Math.sin((Math.PI * i) / (pulseS * rateHz)));

describe("recursion for the absolute acceleration", () => {
  const source = "ISO 18431-4 / D. O. Smallwood, Shock and Vibration Bulletin 51 (1981), formulas worked out for 100 Hz and ζ = 0.05 (from memory)";
  test("1 kHz", () => {
    const { b0, b1, b2, a1, a2 } = accelerationRecursion(100, 0.05, 1000);
    agreesAll([b0, b1, b2, a1, a2], [0.09328992131919, 0.2445332226685, 0.03239128874349, -1.56888693469312, 0.93910136742429], 1e-13, source);
  });
  test("10 kHz", () => {
    const { b0, b1, b2, a1, a2 } = accelerationRecursion(100, 0.05, 10000);
    agreesAll([b0, b1, b2, a1, a2], [0.00379080421301, 0.00261604958905, -0.00247268316222, -1.98980234198494, 0.99373651262478], 1e-13, source);
  });
  test.each([1, 100, 4000])("gain 1 at 0 Hz, also for the displacement: %f Hz", (frequencyHz) => {
    for (const recursion of [accelerationRecursion, displacementRecursion]) {
      const { b0, b1, b2, a1, a2 } = recursion(frequencyHz, 0.05, 10000);
      // Sums of nearly cancelling coefficients: rounding over (ωT)².
      agrees((b0 + b1 + b2) / (1 + a1 + a2), { expected: 1, within: 1e-8, source: "a base that accelerates steadily carries the mass along: exact" });
    }
  });
});

describe("undamped oscillators under a half-sine", () => {
  const source = "closed form for f·D, R. W. Clough and J. Penzien, Dynamics of Structures; C. M. Harris and C. E. Crede, Shock and Vibration Handbook (from memory)";
  test.each([
    [0.75, 1.763356], [0.81, 1.768458], [1, 1.732051], [1.5, 1.5], [2, 1.268075], [2.5, 1.082532], [3, 1.169914], [10, 1.04969],
  ])("during the pulse, fD = %f", (ratio, expected) => {
    agrees(shockSpectrum(halfSine, rateHz, 0, [ratio / pulseS])[0]?.primary ?? Number.NaN, { expected, within: 1e-4, source });
  });
  test.each([
    [0.1, 0.39627], [0.25, 0.94281], [0.5, 1.5708], [0.75, 1.69706], [1, 1.33333], [1.2, 0.81582], [1.5, 0], [2, 0.53333],
  ])("after it, fD = %f", (ratio, expected) => {
    agrees(shockSpectrum(halfSine, rateHz, 0, [ratio / pulseS])[0]?.residual ?? Number.NaN, { expected, within: 2e-5, source });
  });
  test("the largest answer of all", () => {
    const points = shockSpectrum(halfSine, rateHz, 0, Array.from({ length: 201 }, (_, i) => (0.7 + i * 0.001) / pulseS));
    const top = points.reduce((best, point) => (point.maximax > best.maximax ? point : best));
    agrees(top.maximax, { expected: 1.768458, within: 1e-4, source });
    agrees(top.frequencyHz * pulseS, { expected: 0.80994, within: 1e-3, source });
  });
  test("far below, the pseudo-velocity is the velocity change; far above, the acceleration is the pulse's", () => {
    const [slow, fast] = shockSpectrum(halfSine, rateHz, 0, [0.5, 3000]);
    agrees(slow?.pseudoVelocity ?? Number.NaN, { expected: (2 / Math.PI) * pulseS, relative: 1e-4, source: "impulse of a half-sine (2/π) A D, exact for f → 0" });
    agrees(fast?.maximax ?? Number.NaN, { expected: 1, within: 0.02, source: "a stiff oscillator follows its base: exact for f → ∞" });
  });
});

describe("any shock, against SciPy", () => {
  const random = seededRandom(4);
  const shock = Array.from({ length: 160 }, (_, i) => 100 * Math.exp(-i / 40) * Math.sin(i / 3) + random.normal());
  const cases = [[2, 0.05], [60, 0.05], [60, 0], [480, 0.2], [900, 0.05]] as const;
  let answers: [number, number, number, number, number, number][];
  beforeAll(() => {
    answers = scipy(cases.map(([f, zeta]) => ["shock", [shock, 2000, f, zeta]])) as typeof answers;
  });
  test.each(cases.map((one, i) => [...one, i] as const))("%f Hz, ζ = %f: during and after, both sides, and pseudo-velocity", (f, zeta, i) => {
    const [point] = shockSpectrum(shock, 2000, zeta, [f]);
    const [primary, residual, positive, negative, pseudo, size] = answers[i] as (typeof answers)[number];
    const source = `state space solved by scipy.signal.lsim with straight input between samples, decay sampled finely; ${scipySource}`;
    agrees(point?.primary ?? Number.NaN, { expected: primary, within: 1e-9 * size, source });
    agrees(point?.residual ?? Number.NaN, { expected: residual, within: 2e-6 * size, source });
    agrees(point?.positive ?? Number.NaN, { expected: positive, within: 2e-6 * size, source });
    agrees(point?.negative ?? Number.NaN, { expected: negative, within: 2e-6 * size, source });
    agrees(point?.pseudoVelocity ?? Number.NaN, { expected: pseudo, relative: 2e-6, source });
  });
});

test("a shock turned upside down swaps up and down; an empty or broken one is refused", () => {
  const [up] = shockSpectrum(halfSine, rateHz, 0.05, [80]);
  const [down] = shockSpectrum(halfSine.map((x) => -x), rateHz, 0.05, [80]);
  for (const [name, mirrored] of [["positive", "negative"], ["negative", "positive"], ["primary", "primary"], ["residual", "residual"], ["pseudoVelocity", "pseudoVelocity"]] as const) {
    expect(down?.[name], name).toBeCloseTo(up?.[mirrored] ?? Number.NaN, 12);
  }
  expect(shockSpectrum([0, 0, 0], 100, 0.05, [10])[0]?.maximax).toBe(0);
  expect(() => shockSpectrum([1], 100, 0.05, [10])).toThrow(RangeError);
  expect(() => shockSpectrum([1, Number.NaN], 100, 0.05, [10])).toThrow(RangeError);
  expect(() => shockSpectrum([1, 2], 100, 0.05, [50])).toThrow(RangeError);
  expect(() => shockSpectrum([1, 2], 100, 1, [10])).toThrow(RangeError);
});
