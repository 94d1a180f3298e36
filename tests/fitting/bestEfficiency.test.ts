import { expect, test } from "vitest";
import { bestEfficiency } from "../../src/fitting/bestEfficiency.ts";
import { bestTyreEfficiency as ofConstants } from "../../src/models/mobilityNumber.ts";
import { studentTQuantile } from "../../src/numerics/distributions.ts";
import { agrees } from "../helpers/agrees.ts";
import { curveOf, exact, grossTruth, made, truth } from "./slipPoints.ts";

/** The maximum of the made curves on a fine grid. */
function madeMaximum(): { slip: number; efficiency: number } {
  let best = { slip: 0, efficiency: -1 };
  for (let slip = 0.001; slip < 0.6; slip += 1e-5) {
    const efficiency = (truth(slip) * (1 - slip)) / grossTruth(slip);
    if (efficiency > best.efficiency) best = { slip, efficiency };
  }
  return best;
}
const real = madeMaximum();

test("the best efficiency of made curves, and where it stands", () => {
  const best = bestEfficiency(curveOf(exact(truth)), curveOf(exact(grossTruth), "saturating", "T/(rW)"));
  agrees(best.efficiency.value, { expected: real.efficiency, within: 1e-6, source: "maximum of the made curves on a grid of 1e-5" });
  agrees(best.slip.value, { expected: real.slip, within: 2e-4, source: "maximum of the made curves on a grid of 1e-5" });
});

test("a tyre's published best efficiency comes out of its two curves", () => {
  // soil class Bad: C_Tmax 0.474, k 10.57, C_RR 0.149; gross traction is net traction plus rolling resistance
  const { greatestTraction, rate, rollingResistance } = { greatestTraction: 0.47425, rate: 10.569, rollingResistance: 0.14937 };
  const net = (slip: number): number => greatestTraction * (1 - Math.exp(-rate * slip));
  const best = bestEfficiency(curveOf(exact(net)), curveOf(exact((slip) => net(slip) + rollingResistance), "saturating", "T/(rW)"));
  agrees(best.efficiency.value, { expected: 0.61, within: 0.006, source: "Gee-Clough et al., J. Terramechanics 15(2), 1978; table seen in a worked textbook question (askfilo.com, soil class Bad)" });
  agrees(best.slip.value, { expected: 0.1256, within: 2e-4, source: "maximum of the formula over slip, found by an independent program" });
  expect(ofConstants({ greatestTraction, rate, rollingResistance }).slip).toBeCloseTo(best.slip.value, 3);
});

test("at the edge of the slips measured there is no maximum to state", () => {
  const slips = [0.3, 0.33, 0.36, 0.4, 0.45, 0.5, 0.55, 0.6];
  const best = bestEfficiency(curveOf(exact(truth, slips)), curveOf(exact(grossTruth, slips), "saturating", "T/(rW)"));
  expect(best.efficiency.standardUncertainty).toBeNull();
  expect(best.slip.method).toContain("edge of the slips measured");
});

// 80 made campaigns with independent scatter: binomial sd 2.4 %
test("its intervals hold the truth as often as they say", () => {
  const held = { slip: 0, efficiency: 0 };
  for (let seed = 1; seed <= 80; seed++) {
    const best = bestEfficiency(curveOf(made(seed, 3, 0.003, 0.004)), curveOf(made(seed + 9000, 3, 0.003, 0.004, grossTruth), "saturating", "T/(rW)"));
    for (const name of ["slip", "efficiency"] as const) {
      const { value, standardUncertainty, degreesOfFreedom } = best[name];
      if (Math.abs(value - real[name]) <= studentTQuantile(0.975, degreesOfFreedom) * (standardUncertainty ?? 0)) held[name]++;
    }
  }
  for (const count of Object.values(held)) {
    expect(count / 80).toBeGreaterThanOrEqual(0.88);
    expect(count / 80).toBeLessThanOrEqual(1);
  }
}, 60_000);
