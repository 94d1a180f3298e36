import { estimateFrom } from "../../src/core/estimate.ts";
import type { BudgetRow } from "../../src/core/estimate.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { sweptCurve } from "../../src/processing/measures/sweptCurve.ts";
import { plan } from "./pressRun.ts";
import { runResult } from "./runResult.ts";

export interface MadeSweep {
  readonly offset?: number;
  readonly noise?: number;
  readonly seed?: number;
  readonly shared?: readonly BudgetRow[];
}

/** A reduced sweep of 29 revolutions, up to 60 % slip and back, of a given truth: 1.5 s of lag, 0.02 of hysteresis, and an offset of the whole run. */
export function sweptRun(id: string, truth: (slip: number) => number, { offset = 0, noise = 0.001, seed = 1, shared = [] }: MadeSweep = {}): RunResult {
  const random = seededRandom(seed);
  const slipOf = (t: number): number => (t <= 56 ? 0.01 + (0.59 / 56) * t : 0.6 - (0.59 / 56) * (t - 56));
  const points = Array.from({ length: 29 }, (_, i) => ({ timeS: 4 * i, slip: slipOf(4 * i), pull: truth(slipOf(4 * i - 1.5)) + offset + (i < 14 ? 0.01 : i > 14 ? -0.01 : 0) + noise * random.normal() }));
  const radius = estimateFrom(0.1, "m", "made", [{ cause: "reference H1", effect: 1e-4, sharedBy: "reference run H1", degreesOfFreedom: Infinity }]);
  const { fit, curves } = sweptCurve(points, id, shared, radius, [0.2]);
  return runResult(plan("sweep", { id, wheel: "W1", setLoadN: 60 }), { slipRadius: { value: 0.1, unit: "m", rows: radius.budget } }, { fits: [fit], curves });
}
