import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rollingRadius } from "../../../src/processing/measures/rollingRadius.ts";
import { brakedSkid, drivenSlip, signedSlip } from "../../../src/processing/measures/slip.ts";
import { toEstimate } from "../../../src/processing/measures/reading.ts";
import { agrees } from "../../helpers/agrees.ts";
import { cause, steady } from "../readings.ts";

const definition = "algebra of the two slip conventions; common practice (travel reduction against the wheel, skid against the carriage)";

describe("slip and skid", () => {
  it("agree with the worked data point of the traction ratios", () => {
    const slip = drivenSlip(steady(0.036, "m/s"), steady(0.5, "rad/s"), steady(0.09, "m"));
    agrees(slip.value, { expected: 0.2, within: 1e-12, source: "ASABE S296 definitions (from memory) on W 64.7 N, NT 12 N, T 2.10 N·m, ω 0.5 rad/s, r 0.09 m, v 0.036 m/s" });
  });

  it.each([
    { skid: 0.1, asDriven: -0.11111 },
    { skid: 0.3, asDriven: -0.42857 },
  ])("skid $skid is the driven slip $asDriven", ({ skid, asDriven }) => {
    const speed = steady(0.1, "m/s");
    const radius = steady(0.1, "m");
    const turning = steady(1 - skid, "rad/s");
    agrees(brakedSkid(speed, turning, radius).value, { expected: skid, within: 1e-12, source: definition });
    agrees(drivenSlip(speed, turning, radius).value, { expected: asDriven, within: 5e-6, source: definition });
  });

  it("a driven slip s is (rω/v − 1) = s/(1 − s) in the third convention", () => {
    for (const [slip, other] of [[0.2, 0.25], [0.5, 1]] as const) {
      const value = drivenSlip(steady(1 - slip, "m/s"), steady(1, "rad/s"), steady(1, "m")).value;
      agrees(1 / (1 - value) - 1, { expected: other, within: 1e-12, source: definition });
    }
  });

  it("driven slip stays below 1 and skid within 0 … 1 whenever each is the right one", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 5, noNaN: true }), fc.double({ min: 0.001, max: 50, noNaN: true }), fc.double({ min: 0.02, max: 0.5, noNaN: true }), (v, omega, r) => {
        const args = [steady(v, "m/s"), steady(omega, "rad/s"), steady(r, "m")] as const;
        const value = v <= r * omega ? drivenSlip(...args).value : brakedSkid(...args).value;
        return value >= 0 && value < 1;
      }),
    );
  });

  it("as one number each side keeps its own normalisation, with a sign", () => {
    const radius = steady(0.1, "m");
    const at = (v: number, omega: number): number => signedSlip(steady(v, "m/s"), steady(omega, "rad/s"), radius).value;
    agrees(at(0.08, 1), { expected: 0.2, within: 1e-12, source: definition });
    agrees(at(0.1, 0.8), { expected: -0.2, within: 1e-12, source: definition });
    agrees(at(0.1, 0), { expected: -1, within: 1e-12, source: "a locked wheel skids wholly" });
    // slope through zero: the same from either side
    agrees((at(0.1, 1.0001) - at(0.1, 0.9999)) / 0.0002, { expected: 1, within: 1e-3, source: definition });
  });

  it("a radius error moves slip by (1 − s) δr/r", () => {
    const radius = steady(0.1, "m", [cause("radius", 0.005)]);
    const slip = drivenSlip(steady(0.09, "m/s"), steady(1, "rad/s"), radius);
    agrees(Math.abs(slip.rows[0]?.effect ?? 0), { expected: 0.045, within: 1e-5, source: "first-order propagation: δs = (1 − s)·δr/r, 5 % of radius at s = 0.10" });
  });

  it("the gain error of the position drops out when the radius came from the same position", () => {
    const gain = 0.01;
    const shared = (value: number) => [cause("calibration X, carriagePosition", gain * value, "calibration X")];
    const radius = rollingRadius(steady(0.11, "m/s", shared(0.11)), steady(1.1, "rad/s"));
    const estimate = toEstimate(drivenSlip(steady(0.08, "m/s", shared(0.08)), steady(1, "rad/s"), radius), "R1", "slip");
    expect(estimate.standardUncertainty).toBeLessThan(1e-6);
  });
});
