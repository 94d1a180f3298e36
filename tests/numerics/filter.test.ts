import { describe, expect, test } from "vitest";
import { frequencyClassCoefficients, frequencyClassFilter, frequencyClassGain, frequencyClassReach, minimumRateHz, zeroPhaseLowPass } from "../../src/numerics/filter.ts";
import { butterworthSections, forwardBackward, type Section } from "../../src/numerics/sections.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";
import { agreesAll } from "./agreesAll.ts";
import { scipy, scipySource, type Request } from "./scipyReference.ts";

const random = seededRandom(4);
const rough = Array.from({ length: 400 }, (_, i) => 3 + 0.02 * i + Math.sin(i / 9) + 0.4 * random.normal());

// One run of SciPy for the whole file.
const standards = ["SAE J211", "ISO 6487"] as const;
const classes = [60, 180, 1000];
const orders = [1, 2, 3, 4, 5, 8];
const shares = [[1, 0.643594], [2, 0.802243], [3, 0.863384], [4, 0.89568]] as const;
const bothPasses = standards.flatMap((standard) => classes.map((filterClass): Request => {
  const { a0, a1, a2, b1, b2, cornerHz } = frequencyClassCoefficients(filterClass, 10000, standard);
  return ["filtfilt", [[a0, a1, a2], [1, -b1, -b2], rough, frequencyClassReach(10000, cornerHz)]];
}));
const answers = scipy([
  ...bothPasses,
  ...orders.flatMap((order): Request[] => [["sosfiltfilt", [rough, order, 40, 200]], ["sosfiltfilt", [rough, order, 4, 200]]]),
  ...shares.map(([order, share]): Request => ["butterworthGain", [order, 1, 2000, [share]]]),
]) as number[][];

describe("channel frequency class", () => {
  // Evaluated from the recursion in SAE J211-1, appendix C, in another language; 12 printed digits.
  test.each([
    [10000, 60, 0.00145236747355, 1.88934322422, -0.895152694116],
    [10000, 180, 0.0117962710998, 1.67011746327, -0.717302547667],
    [10000, 600, 0.0971846252794, 0.945574009062, -0.334312510179],
    [10000, 1000, 0.219231417219, 0.311896544996, -0.188822213872],
    [20000, 60, 0.000373000630963, 1.94463304553, -0.94612504805],
    [20000, 180, 0.00318263624927, 1.83419642188, -0.846926966875],
    [20000, 600, 0.0298060720398, 1.45572821391, -0.574952502066],
    [20000, 1000, 0.0718930970684, 1.11158617616, -0.39915856443],
  ])("%d Hz, class %d", (rateHz, filterClass, a0, b1, b2) => {
    const source = "recursion of SAE J211-1, appendix C (from memory), evaluated independently";
    const found = frequencyClassCoefficients(filterClass, rateHz, "SAE J211");
    agrees(found.a0, { expected: a0, relative: 1e-11, source });
    agrees(found.a1, { expected: 2 * a0, relative: 1e-11, source });
    agrees(found.a2, { expected: a0, relative: 1e-11, source });
    agrees(found.b1, { expected: b1, relative: 1e-11, source });
    agrees(found.b2, { expected: b2, relative: 1e-11, source });
    agrees((found.a0 + found.a1 + found.a2) / (1 - found.b1 - found.b2), { expected: 1, within: 1e-12, source: "gain 1 at 0 Hz" });
  });

  test("corner factors of both standards", () => {
    const ideal = 5 / 3 / (Math.SQRT2 - 1) ** 0.25;
    agrees(ideal, { expected: 2.077508, within: 5e-7, source: "two passes of a second-order Butterworth, −3 dB at 5/3 of the class" });
    agrees(frequencyClassCoefficients(1000, 1e5, "SAE J211").cornerHz, { expected: 1000 * ideal, within: 0.05, source: "SAE rounds the ideal factor to 2.0775" });
    agrees(frequencyClassCoefficients(60, 1e4, "ISO 6487").cornerHz, { expected: 125, within: 1e-12, source: "ISO 6487, factor 25/12 (from memory)" });
    expect(frequencyClassCoefficients(60, 1e4, "ISO 6487").a0).not.toBeCloseTo(frequencyClassCoefficients(60, 1e4, "SAE J211").a0, 6);
  });

  test.each([
    [60, 20000, -0.454, -3.0099],
    [180, 20000, -0.4526, -3.0062],
    [600, 20000, -0.437, -2.9636],
    [1000, 20000, -0.407, -2.8786],
    [1000, 10000, -0.279, -2.447],
  ])("attenuation of both passes, class %d at %d Hz", (filterClass, rateHz, atClass, atCorner) => {
    const source = "transfer function of the recursion, evaluated independently; 4 printed digits";
    const decibel = (frequencyHz: number): number => 20 * Math.log10(frequencyClassGain(frequencyHz, filterClass, rateHz, "SAE J211"));
    agrees(decibel(filterClass), { expected: atClass, within: 1e-4, source });
    agrees(decibel((5 / 3) * filterClass), { expected: atCorner, within: 1e-4, source });
  });

  test.each([60, 180, 600, 1000])("class %d stays inside the standard's corridor", (filterClass) => {
    // SAE J211-1 (from memory): ±0.5 dB at low frequency, +0.5/−1 dB at the class, +0.5/−4 dB at 5/3 of it; then a fall of 9 to 24 dB an octave down to −30 dB (60, 180) or −40 dB (600, 1000)
    const decibel = (frequencyHz: number): number => 20 * Math.log10(frequencyClassGain(frequencyHz, filterClass, 20000, "SAE J211"));
    for (let share = 0.02; share <= 1; share *= 1.1) {
      expect(decibel(share * filterClass)).toBeLessThanOrEqual(0.5);
      expect(decibel(share * filterClass)).toBeGreaterThan(share <= 0.1 ? -0.5 : -1);
    }
    for (let share = 1; share <= 5 / 3; share *= 1.05) expect(decibel(share * filterClass)).toBeGreaterThan(-4);
    const floor = filterClass <= 180 ? -30 : -40;
    const corner = (5 / 3) * filterClass;
    // slope from the corner down to where the corridor ends
    let end = corner;
    while (decibel(end) > floor) end *= 1.001;
    const slope = (decibel(corner) - decibel(end)) / Math.log2(end / corner);
    expect(slope).toBeGreaterThan(9);
    expect(slope).toBeLessThan(24);
  });

  test("the filter itself attenuates a tone by that gain, without delay", () => {
    const tone = Float64Array.from({ length: 8000 }, (_, i) => Math.sin((2 * Math.PI * 500 * i) / 20000));
    const filtered = frequencyClassFilter(tone, 20000, 600, "ISO 6487");
    const gain = frequencyClassGain(500, 600, 20000, "ISO 6487");
    for (let i = 3000; i < 5000; i++) expect(Math.abs((filtered[i] as number) - gain * (tone[i] as number))).toBeLessThan(1e-9);
  });

  test.each(standards)("agrees with SciPy's filtfilt over the same reflection, %s", (standard) => {
    classes.forEach((filterClass, i) => {
      const expected = answers[standards.indexOf(standard) * classes.length + i] as number[];
      agreesAll(frequencyClassFilter(rough, 10000, filterClass, standard), expected, 1e-9, scipySource);
    });
  });

  test("rates", () => {
    expect(minimumRateHz(1000)).toBe(10000);
    expect(frequencyClassReach(10000, 124.65)).toBe(81);
    expect(frequencyClassReach(10000, 2077.5)).toBe(9);
    expect(() => frequencyClassFilter(rough, 4000, 1000, "SAE J211")).toThrow(/half the sampling rate/);
    expect(() => frequencyClassCoefficients(-60, 10000, "SAE J211")).toThrow(RangeError);
  });
});

describe("zero-phase low-pass", () => {
  test.each(orders)("order %d agrees with SciPy's sosfiltfilt", (order) => {
    const [near, low] = answers.slice(bothPasses.length + 2 * orders.indexOf(order)) as [number[], number[]];
    agreesAll(zeroPhaseLowPass(rough, 200, 40, order), near, 1e-9, scipySource);
    agreesAll(zeroPhaseLowPass(Float64Array.from(rough), 200, 4, order), low, 1e-9, scipySource);
  });

  test("coefficients of order 2, and the gain of order 4", () => {
    const [section] = butterworthSections(2, 0.2, 2);
    const source = "Butterworth, cut-off 0.2 of half the rate; printed in filter texts";
    agrees(section?.b0 as number, { expected: 0.06745527, within: 5e-9, source });
    agrees(section?.a1 as number, { expected: -1.1429805, within: 5e-8, source });
    agrees(section?.a2 as number, { expected: 0.4128016, within: 5e-8, source });
    // the four-pole polynomial is the product of its sections
    const [first, second] = butterworthSections(2, 0.2, 4) as [Section, Section];
    agrees(first.a1 + second.a1, { expected: -2.36951301, within: 5e-9, source });
    agrees(first.a2 + second.a2 + first.a1 * second.a1, { expected: 2.31398841, within: 5e-9, source });
    agrees(first.a2 * second.a2, { expected: 0.18737949, within: 5e-9, source });
    agrees(first.b0 * second.b0, { expected: 0.00482434, within: 5e-9, source });
  });

  test.each(shares)("order %d: −3 dB of both passes at %d of the cut-off", (order, share) => {
    const gains = answers[bothPasses.length + 2 * orders.length + order - 1] as number[];
    agrees((gains[0] as number) ** 2, { expected: Math.SQRT1_2, within: 2e-6, source: `${scipySource}; analogue formula (√2−1)^(1/2n)` });
    // our own filter over a tone of that frequency
    const tone = Float64Array.from({ length: 20000 }, (_, i) => Math.cos((2 * Math.PI * share * (i - 10000)) / 500));
    agrees(zeroPhaseLowPass(tone, 500, 1, order)[10000] as number, { expected: Math.SQRT1_2, within: 3e-5, source: "analogue formula; the bilinear transform bends it by (πf/f_s)² = 4e-5" });
  });

  test("a straight line passes unchanged, at the ends to a few hundredths of its fall per sample", () => {
    const line = Array.from({ length: 400 }, (_, i) => 7 - 0.3 * i);
    for (const filtered of [zeroPhaseLowPass(line, 100, 10, 4), frequencyClassFilter(line, 10000, 1000, "SAE J211"), frequencyClassFilter(line, 10000, 180, "SAE J211")]) {
      agreesAll(filtered, line, 0.3 * 0.03, "odd reflection continues a straight line; the filter starts settled on a level, which dies out over the reflection");
      agreesAll(filtered.subarray(150, 250), line.slice(150, 250), 1e-9, "gain 1 at 0 Hz, no phase");
    }
  });

  test("reversal, shift and scale", () => {
    const forwards = zeroPhaseLowPass(rough, 200, 20, 2);
    const backwards = zeroPhaseLowPass([...rough].reverse(), 200, 20, 2).reverse();
    const middle = (row: Float64Array): number[] => Array.from(row.subarray(100, 300));
    agreesAll(middle(backwards), middle(forwards), 1e-9, "forwards then backwards equals backwards then forwards, away from the ends");
    const scaled = zeroPhaseLowPass(rough.map((value) => 1000 * value + 5), 200, 20, 2);
    agreesAll(scaled, Array.from(forwards, (value) => 1000 * value + 5), 1e-8, "linearity");
  });

  test("missing samples stay missing and poison nothing", () => {
    const holed = [...rough];
    holed[100] = Number.NaN;
    holed[101] = Number.NaN;
    holed[103] = Number.NaN; // leaves one lone sample at 102
    const filtered = zeroPhaseLowPass(holed, 200, 20, 2);
    const nans = Array.from(filtered.keys()).filter((i) => Number.isNaN(filtered[i]));
    expect(nans).toEqual([100, 101, 103]);
    expect(filtered[102]).toBeCloseTo(holed[102] as number, 12);
    agreesAll(filtered.subarray(0, 100), Array.from(zeroPhaseLowPass(rough.slice(0, 100), 200, 20, 2)), 1e-12, "each stretch is filtered on its own");
    agreesAll(filtered.subarray(104), Array.from(zeroPhaseLowPass(rough.slice(104), 200, 20, 2)), 1e-12, "each stretch is filtered on its own");
  });

  test("short and empty signals", () => {
    expect(zeroPhaseLowPass([], 200, 20, 2)).toEqual(new Float64Array(0));
    expect(zeroPhaseLowPass([4], 200, 20, 2)[0]).toBeCloseTo(4, 12);
    agreesAll(zeroPhaseLowPass([4, 4, 4], 200, 20, 2), [4, 4, 4], 1e-12, "a constant passes unchanged");
    expect(forwardBackward([], [1, 2, 3], 2)).toEqual(Float64Array.from([1, 2, 3]));
  });

  test("wrong calls", () => {
    for (const [cutoff, order] of [[100, 2], [0, 2], [-1, 2], [20, 0], [20, 1.5], [Number.NaN, 2]] as const) expect(() => zeroPhaseLowPass(rough, 200, cutoff, order)).toThrow(RangeError);
  });
});
