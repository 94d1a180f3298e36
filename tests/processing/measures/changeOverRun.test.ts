import { describe, expect, it } from "vitest";
import { changeOverRun } from "../../../src/processing/measures/changeOverRun.ts";
import type { Reading } from "../../../src/processing/measures/reading.ts";

const reading = (perRevolution: readonly number[]): Reading<"N"> => ({ unit: "N", value: 0, perRevolution, rows: [] });
const at = (n: number): number[] => Array.from({ length: n }, (_, i) => i + 0.5);

describe("change over a run", () => {
  it("of a straight line is its slope times the whole path, without scatter", () => {
    const change = changeOverRun(reading(at(10).map((m) => 3 + 0.2 * m)), at(10), 10, [], [], "E1");
    expect(change.value).toBeCloseTo(2, 12);
    expect(change.standardUncertainty).toBeCloseTo(0, 12);
  });

  it("carries the scatter about the line as the slope's standard error: values ±1 in turn, worked by hand", () => {
    const n = 20;
    const change = changeOverRun(reading(at(n).map((_, i) => (i % 2 === 0 ? 1 : -1))), at(n), n, [], [], "E1");
    // Σ(x − x̄)² = n(n² − 1)/12 = 665; Σ(x − x̄)y = −n/2 = −10, so b = −10/665; Σr² = 20 − 100/665; s_b² = Σr²/18/665.
    expect(change.value).toBeCloseTo((-10 / 665) * n, 12);
    expect(change.standardUncertainty).toBeCloseTo(Math.sqrt((20 - 100 / 665) / 18 / 665) * n, 9);
  });

  it("is less certain where neighbours depend on each other", () => {
    const pairs = at(20).map((_, i) => (Math.floor(i / 2) % 2 === 0 ? 1 : -1));
    const slow = at(20).map((_, i) => (Math.floor(i / 5) % 2 === 0 ? 1 : -1));
    const doubt = (values: readonly number[]): number => changeOverRun(reading(values), at(20), 20, [], [], "E1").standardUncertainty as number;
    expect(doubt(slow)).toBeGreaterThan(1.5 * doubt(pairs));
  });

  it("takes a shared gain in proportion to the change, and is undetermined below eight stretches", () => {
    const gain = { cause: "calibration C-1, verticalLoad", effect: 0.01, sharedBy: "calibration C-1", degreesOfFreedom: Infinity };
    const change = changeOverRun(reading(at(10).map((m) => 50 + m)), at(10), 10, [gain], [], "E1");
    expect(change.budget).toMatchObject([{ cause: gain.cause, effect: expect.closeTo(0.1, 9), sharedBy: "calibration C-1" }]);
    expect(changeOverRun(reading(at(7)), at(7), 7, [], [], "E1").standardUncertainty).toBeNull();
  });
});
