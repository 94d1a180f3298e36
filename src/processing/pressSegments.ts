import type { Segment } from "../core/segment.ts";
import { finding } from "../core/finding.ts";
import type { LoadCycle } from "./measures/loadCycles.ts";
import type { PressCurve } from "./measures/pressCurve.ts";
import type { Reduced } from "./preparedRun.ts";

/** The loadings and unloadings of a press as segments. */
export function pressSegments(curve: PressCurve, cycles: readonly LoadCycle[]): Segment[] {
  const at = (index: number): number => curve.timesS[index] as number;
  return cycles.flatMap(({ valley, peak, end }, number) => {
    const loading: Segment = { kind: "loading", fromS: at(valley), toS: at(peak), reason: `loading of cycle ${number + 1}: from the turning point below to the one above` };
    if (end === null) return [loading];
    return [loading, { kind: "unloading", fromS: at(peak), toS: at(end), reason: `unloading of cycle ${number + 1}` }];
  });
}

/** A run that gives no result, and why. */
export function refused(code: string, message: string): Reduced {
  return { measures: [], fits: [], findings: [finding(code, "reject", message)], segments: [], windowChoices: [] };
}
