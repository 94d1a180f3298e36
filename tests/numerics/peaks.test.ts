import { expect, test } from "vitest";
import { findPeaks } from "../../src/numerics/peaks.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { agreesAll } from "./agreesAll.ts";
import { scipy, scipySource } from "./scipyReference.ts";

test("agrees with SciPy on rough, stepped and flat-topped signals", () => {
  const random = seededRandom(6);
  const signals = [
    Array.from({ length: 500 }, (_, i) => Math.sin(i / 11) + 0.3 * random.normal()),
    Array.from({ length: 500 }, () => random.integer(6)), // many ties and flat tops
    Array.from({ length: 300 }, (_, i) => Math.exp(-i / 90) * Math.cos(i / 5)),
  ];
  const cases = signals.flatMap((signal) => [0, 0.25, 2].map((minimumProminence) => ({ signal, minimumProminence })));
  const answers = scipy(cases.map(({ signal, minimumProminence }) => ["find_peaks", [signal, minimumProminence]]));
  cases.forEach(({ signal, minimumProminence }, i) => {
    const [indices, prominences] = answers[i] as [number[], number[]];
    const peaks = findPeaks(signal, { minimumProminence });
    expect(peaks.map((peak) => peak.index)).toEqual(indices);
    agreesAll(peaks.map((peak) => peak.prominence), prominences, 1e-12, scipySource);
    expect(peaks.every((peak) => peak.value === signal[peak.index])).toBe(true);
  });
});

test("by hand", () => {
  expect(findPeaks([0, 3, 1, 5, 0, 2, 0], { minimumProminence: 0 })).toEqual([
    { index: 1, value: 3, prominence: 2 },
    { index: 3, value: 5, prominence: 5 },
    { index: 5, value: 2, prominence: 2 },
  ]);
  expect(findPeaks([0, 3, 1, 5, 0, 2, 0], { minimumProminence: 3 }).map((peak) => peak.index)).toEqual([3]);
});

test("ends, slopes and constants have no peaks", () => {
  for (const signal of [[], [1], [1, 2], [3, 2, 1], [1, 2, 3], [2, 2, 2], [2, 2, 1], [1, 2, 2]]) expect(findPeaks(signal, { minimumProminence: 0 })).toEqual([]);
});

test("a missing sample ends the signal on its side", () => {
  const peaks = findPeaks([0, 4, 3, Number.NaN, -9, 5, 1], { minimumProminence: 0 });
  expect(peaks).toEqual([{ index: 1, value: 4, prominence: 1 }, { index: 5, value: 5, prominence: 4 }]);
  expect(findPeaks([1, 2, Number.NaN, 2, 1], { minimumProminence: 0 })).toEqual([]);
});

test("wrong call", () => {
  expect(() => findPeaks([1], { minimumProminence: -1 })).toThrow(RangeError);
});
