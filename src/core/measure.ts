import type { Estimate } from "./estimate.ts";
import type { Finding } from "./finding.ts";
import type { Segment } from "./segment.ts";
import type { Unit } from "./units.ts";

/** What every measure returns. */
export interface Measured<U extends Unit = Unit> {
  readonly estimate: Estimate<U>;
  readonly findings: readonly Finding[];
}

/** One measured quantity of one run. */
export interface Measure {
  /** camelCase, stable: the column name in runs.csv and the key in results.json */
  readonly name: string;
  /** plain words for the report: "Drawbar pull coefficient" */
  readonly label: string;
  readonly estimate: Estimate;
  /** the stretch of the run it was taken from; null when it is the whole run or other runs */
  readonly segment: Segment | null;
}
