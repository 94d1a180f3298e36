import type { Estimate } from "../../core/estimate.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import type { Measure } from "../../core/measure.ts";
import type { PreparedRun } from "../preparedRun.ts";

/** Times both uncertainties that rut and sinkage may differ. */
const clear = 3;

/**
 * The scanner's rut against the hub's sinkage. A rut may be shallower by what soil springs and falls back and by the ridges that
 * lugs leave; beyond that and beyond both doubts one of the two has a wrong zero.
 */
export function rutDiffers(run: PreparedRun, measures: readonly Measure[]): Finding[] {
  const of = (name: string): Estimate | undefined => measures.find((measure) => measure.name === name)?.estimate;
  const [rut, sinkage] = [of("rutDepth"), of("sinkageRunning")];
  if (rut === undefined || sinkage === undefined || rut.standardUncertainty === null || sinkage.standardUncertainty === null) return [];
  const off = rut.value - sinkage.value;
  const doubt = clear * Math.hypot(rut.standardUncertainty, sinkage.standardUncertainty) + run.rig.tolerances.rutAgreement * Math.abs(sinkage.value);
  const limit = doubt + (off < 0 ? (run.wheel?.lugHeightM ?? 0) : 0);
  if (Math.abs(off) <= limit) return [];
  const mm = (value: number): string => (1000 * value).toFixed(1);
  return [finding("rut-differs", "look", `The scanned rut is ${mm(rut.value)} mm deep where the hub says ${mm(sinkage.value)} mm of sinkage; ${mm(limit)} mm of difference can be explained. Look at the hub's height at first touch, at the wheel's deflection, and whether both scans are of this lane`, { channel: "hubHeight", measured: Math.abs(off), limit })];
}
