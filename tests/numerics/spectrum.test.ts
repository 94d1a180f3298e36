import { describe, expect, test } from "vitest";
import { discreteFourier, inverseTransform, paddedTransform, powerOfTwo, realSpectrum, welchDensity, welchPower } from "../../src/numerics/spectrum.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agrees } from "../helpers/agrees.ts";
import { agreesAll } from "./agreesAll.ts";
import { scipy, scipySource, type Request } from "./scipyReference.ts";

const random = seededRandom(14);
const noise = Array.from({ length: 3000 }, () => random.normal() + 2);

// One run of SciPy for the whole file.
const lengths = [1, 2, 3, 7, 8, 97, 256, 1000, 1024, 3000];
const welchCases = [
  [256, 0.5, "hann", "mean"],
  [250, 0.5, "hann", "nothing"],
  [101, 0.25, "rectangular", "mean"],
  [333, 0, "hann", "mean"],
] as const;
const answers = scipy([
  ...lengths.map((length): Request => ["rfft", [noise.slice(0, length)]]),
  ...welchCases.flatMap(([segmentLength, overlap, window, remove]) =>
    ["density", "spectrum"].map((scaling): Request => ["welch", [noise, 40, segmentLength, Math.floor(overlap * segmentLength), window === "hann" ? "hann" : "boxcar", remove === "mean" ? "constant" : false, scaling]])),
]);

describe("discrete Fourier transform", () => {
  test.each(lengths)("length %d agrees with NumPy", (length) => {
    const samples = noise.slice(0, length);
    const [real, imaginary] = answers[lengths.indexOf(length)] as [number[], number[]];
    const spectrum = realSpectrum(Float64Array.from(samples), 50);
    agreesAll(spectrum.real, real, 1e-9, scipySource);
    agreesAll(spectrum.imaginary, imaginary, 1e-9, scipySource);
    agrees(spectrum.frequenciesHz[real.length - 1] as number, { expected: (50 * (real.length - 1)) / length, within: 1e-12, source: "k f_s / n" });
  });

  test("there and back", () => {
    const back = inverseTransform(paddedTransform(noise.slice(0, 100), 128));
    agreesAll(back.filter((_, i) => i % 2 === 0), [...noise.slice(0, 100), ...new Array<number>(28).fill(0)], 1e-12, "inverse transform");
    expect([1, 2, 3, 1024, 1025].map(powerOfTwo)).toEqual([2, 2, 4, 1024, 2048]);
  });

  test("empty is a wrong call, a missing sample spoils every line", () => {
    expect(() => discreteFourier([])).toThrow(RangeError);
    expect(() => realSpectrum([1, 2], 0)).toThrow(RangeError);
    expect(realSpectrum([1, Number.NaN, 2, 3], 1).real.every(Number.isNaN)).toBe(true);
  });
});

describe("Welch", () => {
  const twoPulses = Array.from({ length: 16 }, (_, i) => (i % 8 === 0 ? 1 : 0));

  test("printed values", () => {
    const source = "values in SciPy's own test of welch (signal, test_spectral.py)";
    agreesAll(welchDensity(twoPulses, 1, { segmentLength: 8 }).power, [0.08333333, 0.15277778, 0.22222222, 0.22222222, 0.11111111], 5e-9, source);
    agreesAll(welchPower(twoPulses, 1, { segmentLength: 8 }).power, [0.015625, 0.02864583, 0.04166667, 0.04166667, 0.02083333], 5e-9, source);
    const impulse = Array.from({ length: 16 }, (_, i) => (i === 0 ? 1 : 0));
    agreesAll(welchDensity(impulse, 1, { segmentLength: 16, window: "rectangular" }).power, [0, ...new Array<number>(7).fill(1 / 8), 1 / 16], 1e-15, "periodogram of an impulse by hand; as in SciPy's test_spectral.py");
  });

  test("a sine reads its mean square", () => {
    const sine = Array.from({ length: 5000 }, (_, i) => 2 * Math.sin((2 * Math.PI * 100 * i) / 1000));
    const options = { segmentLength: 1000, remove: "nothing" } as const;
    const source = "A²/2 for the power, A²/2/(1.5 Δf) for the density with a Hann window";
    agrees(welchPower(sine, 1000, options).power[100] as number, { expected: 2, within: 1e-9, source });
    const density = welchDensity(sine, 1000, options);
    agrees(density.power[100] as number, { expected: 4 / 3, within: 1e-9, source });
    agrees(density.power.reduce((total, value) => total + value, 0), { expected: 2, within: 1e-9, source });
    expect(density.frequenciesHz[100]).toBe(100);
    expect(density.segments).toBe(9);
  });

  test.each([["hann", 1.5, 1.4236], ["rectangular", 1, 3.9224]] as const)("window %s: noise bandwidth in lines, and what a sine between two lines loses", (window, lines, scallopDb) => {
    const n = 4096;
    const options = { segmentLength: n, window, remove: "nothing" } as const;
    const sine = (line: number) => Array.from({ length: n }, (_, i) => Math.sin((2 * Math.PI * line * i) / n));
    const source = "F. J. Harris, Proc. IEEE 66 (1978) 51, table 1 (1.50 and 1.00 lines, 1.42 and 3.92 dB), worked out for large N";
    const on = welchPower(sine(500), n, options).power[500] as number;
    agrees(on / (welchDensity(sine(500), n, options).power[500] as number), { expected: lines, within: 1e-4, source });
    agrees(10 * Math.log10(on / (welchPower(sine(500.5), n, options).power[500] as number)), { expected: scallopDb, within: 0.01, source });
  });

  test.each(welchCases)("segments of %d, overlap %d, %s, less %s: agrees with SciPy", (segmentLength, overlap, window, remove) => {
    const number = welchCases.findIndex(([length]) => length === segmentLength);
    const [density, power] = answers.slice(lengths.length + 2 * number) as [number[], number[]];
    agreesAll(welchDensity(noise, 40, { segmentLength, overlap, window, remove }).power, density, 1e-11, scipySource);
    agreesAll(welchPower(noise, 40, { segmentLength, overlap, window, remove }).power, power, 1e-11, scipySource);
  });

  test("wrong calls", () => {
    for (const options of [{ segmentLength: 1 }, { segmentLength: 17 }, { segmentLength: 4.5 }, { segmentLength: 4, overlap: 1 }]) expect(() => welchDensity(twoPulses, 1, options)).toThrow(RangeError);
    expect(() => welchDensity(twoPulses, -1, { segmentLength: 4 })).toThrow(RangeError);
  });
});
