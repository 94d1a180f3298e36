import { describe, expect, it } from "vitest";
import { channel } from "../../../src/core/recording.ts";
import { seededRandom } from "../../../src/numerics/random.ts";
import { firstTouch } from "../../../src/processing/conditioning/touch.ts";
import { record } from "../recordings.ts";

/** Lowered at 10 mm/s from 0.5 s of quiet on; touches at `touchM`; load grows with indentation to the power `m`. */
function lowering(m: number, seed: number, touchM = 0.115) {
  const random = seededRandom(seed);
  const height = (t: number): number => 0.14 - 0.01 * Math.max(0, Math.min(t, 5) - 0.5);
  const recording = record(1000, 7, {
    verticalLoad: { unit: "N", of: (t) => 60 * (Math.max(0, touchM - height(t)) / 0.02) ** m + 0.3 * random.normal() },
    hubHeight: { unit: "m", of: (t) => height(t) + 2e-5 * random.normal() },
  });
  const timed = (name: "verticalLoad" | "hubHeight", unit: "N" | "m") => ({ time: recording.time, samples: channel(recording, name, unit).samples });
  return firstTouch(timed("verticalLoad", "N"), timed("hubHeight", "m"), 0.5, 6);
}

describe("first touch", () => {
  it.each([1, 1.4, 2])("stands within its stated doubt when load grows with indentation to the power %d", (m) => {
    for (let seed = 1; seed <= 20; seed++) {
      const touch = lowering(m, seed);
      if ("reason" in touch) throw new Error(touch.reason);
      // Rectangular doubt: the truth lies within √3 standard uncertainties of the shape, plus three of the noise.
      expect(Math.abs(touch.hubHeightM - 0.115)).toBeLessThan(2.5 * Math.hypot(touch.shapeM, touch.noiseM));
      expect(Math.hypot(touch.shapeM, touch.noiseM)).toBeLessThan(5e-4);
    }
  });

  it("a rigid wheel on a hard floor: the hub hardly sinks while the load rises", () => {
    for (let seed = 1; seed <= 20; seed++) {
      const random = seededRandom(seed);
      const recording = record(100, 7, {
        verticalLoad: { unit: "N", of: (t) => 60 * Math.min(1, Math.max(0, t - 2) / 0.7) + 0.2 * random.normal() },
        hubHeight: { unit: "m", of: (t) => 0.12 - 0.01 * Math.max(0, Math.min(t, 2) - 0.5) + 4e-5 * random.normal() },
      });
      const timed = (name: "verticalLoad" | "hubHeight", unit: "N" | "m") => ({ time: recording.time, samples: channel(recording, name, unit).samples });
      const touch = firstTouch(timed("verticalLoad", "N"), timed("hubHeight", "m"), 0.5, 6);
      if ("reason" in touch) throw new Error(touch.reason);
      expect(Math.abs(touch.hubHeightM - 0.105)).toBeLessThan(4 * Math.hypot(touch.shapeM, touch.noiseM));
      expect(Math.hypot(touch.shapeM, touch.noiseM)).toBeLessThan(1e-4);
    }
  });

  it("says so when the wheel never touches", () => {
    expect(lowering(1, 1, -1)).toEqual({ reason: expect.stringContaining("never rises") });
  });
});
