import { describe, expect, it } from "vitest";
import { undetermined } from "../../src/core/estimate.ts";
import type { Estimate } from "../../src/core/estimate.ts";
import type { Unit } from "../../src/core/units.ts";
import { roundPair, roundSignificant, showEstimate, unitScale } from "../../src/report/showEstimate.ts";

function of(value: number, u: number | null, unit: Unit, degreesOfFreedom = Infinity): Estimate {
  return { value, standardUncertainty: u, unit, degreesOfFreedom, method: "because of the gap", budget: [] };
}

describe("showEstimate", () => {
  it("writes two figures of the expanded uncertainty and the value to the same place", () => {
    // k = 1.960 for unlimited degrees of freedom: 1.96 × 0.0071 = 0.0139
    expect(showEstimate(of(0.31234, 0.0071, "1")).text).toBe("0.312 ± 0.014");
    expect(showEstimate(of(-0.31234, 0.0071, "1")).text).toBe("−0.312 ± 0.014");
  });
  it("takes k from t with the estimate's degrees of freedom (t 97.5 %, ν = 5 is 2.571: tables)", () => {
    const shown = showEstimate(of(10, 1, "N", 5));
    expect(shown.text).toBe("10.0 ± 2.6");
    expect(shown.note).toBe("95 %, k = 2.57, ν = 5");
    expect(shown.unit).toBe("N");
  });
  it("shows lengths in millimetres, pressures in kilopascals, angles in degrees", () => {
    expect(showEstimate(of(0.1012, 0.0002, "m"))).toMatchObject({ text: "101.20 ± 0.39", unit: "mm" });
    expect(showEstimate(of(310, 120, "Pa"))).toMatchObject({ text: "0.31 ± 0.24", unit: "kPa" });
    expect(showEstimate(of(Math.PI / 6, 0.01, "rad"))).toMatchObject({ text: "30.0 ± 1.1", unit: "deg" });
  });
  it("never shows a bare number where there is no uncertainty, and says why", () => {
    for (const estimate of [undetermined("1", "because of the gap", 0.3), undetermined("1", "because of the gap"), of(1, Number.NaN, "1"), of(1, 0.1, "1", 0), of(Number.NaN, 0.1, "1")]) {
      const shown = showEstimate(estimate);
      expect(shown.text).toBe("not determined");
      expect(shown.determined).toBe(false);
      expect(shown.note).toContain("because of the gap");
    }
    expect(showEstimate(undetermined("m", "no touch", 0.0123)).note).toBe("Best value 12 mm, without an uncertainty. no touch");
  });
  it("puts a power of ten outside when the uncertainty is larger than units", () => {
    expect(roundPair(812345, 32000)).toBe("(8.12 ± 0.32)·10⁵");
    expect(roundPair(-1040, 2036)).toBe("(−1.0 ± 2.0)·10³");
    expect(roundPair(0.000000123456, 0.0000000012)).toBe("(1.235 ± 0.012)·10⁻⁷");
  });
  it("keeps two figures when rounding itself reaches the next power of ten", () => {
    expect(roundPair(1.2345, 0.0996)).toBe("1.23 ± 0.10");
    expect(roundPair(123.4, 9.96)).toBe("123 ± 10");
    expect(roundPair(5, 0)).toBe("5.00000 ± 0");
  });
  it("rounds plain numbers to figures, and says when there is none", () => {
    expect(roundSignificant(0.0123456, 3)).toBe("0.0123");
    expect(roundSignificant(1234.5, 2)).toBe("1200");
    expect(roundSignificant(12345678, 3)).toBe("1.23·10⁷");
    expect(roundSignificant(Number.NaN, 3)).toBe("–");
    expect(roundSignificant(0, 3)).toBe("0");
  });
  it("scales a temperature difference by one, not by 274.15", () => {
    expect(unitScale("Cel", "K")).toBe(1);
    expect(unitScale("m", "mm")).toBe(1000);
  });
});
