import { estimateFrom } from "../../src/core/estimate.ts";
import type { BudgetRow } from "../../src/core/estimate.ts";
import type { PlateTest } from "../../src/fitting/plateTests.ts";
import { seededRandom } from "../../src/numerics/random.ts";

/** Soil whose runs scatter: each run has its own exponent and its own pressure at 20 mm. */
export interface ScatteringSoil {
  readonly n: number;
  readonly kc: number;
  readonly kphi: number;
  /** sd of n from run to run */
  readonly sdExponent: number;
  /** sd of ln p at 20 mm from run to run */
  readonly sdLogPressure: number;
}

/** Plate runs of such a soil, 60 points down to 40 mm, with waves along the curve that a fit inside one run mistakes for nothing. */
export function plateTestsOf(soil: ScatteringSoil, widths: readonly number[], repeats: number, seed: number, gain: readonly BudgetRow[] = []): PlateTest[] {
  const random = seededRandom(seed);
  return widths.flatMap((widthM, w) =>
    Array.from({ length: repeats }, (_, repeat): PlateTest => {
      const n = soil.n + soil.sdExponent * random.normal();
      const at20 = (soil.kc / widthM + soil.kphi) * 0.02 ** soil.n * Math.exp(soil.sdLogPressure * random.normal());
      const points = Array.from({ length: 60 }, (__, i) => ({ sinkageM: (0.04 * (i + 1)) / 60, pressurePa: at20 * ((0.04 * (i + 1)) / 60 / 0.02) ** n }));
      const k = at20 / 0.02 ** n;
      return { run: `w${w}r${repeat}`, bed: null, widthM, points, exponent: estimateFrom(n, "1", "", []), stiffness: estimateFrom(k, "N/m^(n+2)", "", gain.map((row) => ({ ...row, effect: row.effect * k }))) };
    }),
  );
}
