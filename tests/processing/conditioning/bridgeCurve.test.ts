import { describe, expect, it } from "vitest";
import { sensitivityCurve, strainCurve } from "../../../src/processing/conditioning/bridgeCurve.ts";
import { agrees } from "../../helpers/agrees.ts";

describe("rated output", () => {
  it("half the rated output is half the rated load, whatever the unit of the file", () => {
    const cell = { output: 2, load: 500 };
    const source = "F = F_rated · r / r_rated, by hand";
    agrees(sensitivityCurve(cell, "mV/V")(1), { expected: 250, relative: 1e-14, source });
    agrees(sensitivityCurve(cell, "uV/V")(1000), { expected: 250, relative: 1e-14, source });
    agrees(sensitivityCurve({ ...cell, excitation: 5, amplification: 1 }, "mV")(5), { expected: 250, relative: 1e-14, source });
    agrees(sensitivityCurve({ ...cell, excitation: 5, amplification: 200 }, "V")(1), { expected: 250, relative: 1e-14, source });
    agrees(sensitivityCurve({ ...cell, output: -2 }, "mV/V")(1), { expected: -250, relative: 1e-14, source });
  });
});

describe("strain gauges", () => {
  const k = 2;
  it("a full bridge of k = 2 gives 2 mV/V at 1000 µm/m, a half one half of it, a quarter bridge a quarter", () => {
    const source = "r = k ε (full), k ε / 2 (half): by hand";
    agrees(strainCurve({ gaugeFactor: k, bridge: "full" }, "mV/V", "um/m")(2), { expected: 1000, relative: 1e-14, source });
    agrees(strainCurve({ gaugeFactor: k, bridge: "half" }, "mV/V", "um/m")(1), { expected: 1000, relative: 1e-14, source });
    agrees(strainCurve({ gaugeFactor: k, bridge: "full", excitation: 5, amplification: 100 }, "V", "m/m")(1), { expected: 1e-3, relative: 1e-14, source });
  });

  it("a quarter bridge by its voltage divider, solved for no formula: R (1 + k ε) against R", () => {
    for (const strain of [1e-3, -1e-3, 5e-3, -2e-2]) {
      const changed = 350 * (1 + k * strain);
      const output = changed / (changed + 350) - 0.5;
      agrees(strainCurve({ gaugeFactor: k, bridge: "quarter" }, "mV/V", "m/m")(output * 1000), { expected: strain, relative: 1e-11, source: "two voltage dividers of 350 Ω, one gauge changed by k ε" });
    }
    // The straight line 4 r / k would be off by k ε = 4 % there.
    expect(strainCurve({ gaugeFactor: k, bridge: "quarter" }, "mV/V", "m/m")(10)).toBeGreaterThan(0.02);
  });
});
