import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import type { Curve } from "../dayResult.ts";
import type { EnduranceLog } from "./enduranceLog.ts";

/** About as many levels as a person reads. */
const wanted = 32;

/**
 * Rises and rain-flow cycles of the load. How often the load rose through each of a row of levels. The counts are those of the reading as it came; the zero, known
 * at the end only, moves the levels by what it is in the middle of the run. The doubt of a count is what it changes when
 * the level moves by the load's own doubt.
 */
export function loadLevels({ rises, cycles, zeroLines, ends, startS, endS, rolled }: EnduranceLog, run: string): { readonly curves: readonly Curve[]; readonly findings: readonly Finding[] } {
  if (rises === null || cycles === null) return { curves: [], findings: [finding("load-levels", "note", `Run ${run}: rig.yaml states no range for verticalLoad, so neither levels at which its rises could be counted nor classes for its cycles are known`, { channel: "verticalLoad" })] };
  const shift = zeroLines.get("verticalLoad")?.((startS + endS) / 2) ?? 0;
  const doubt = ends.channels.find(({ name }) => name === "verticalLoad")?.doubt ?? null;
  const { low, high } = rises.reached;
  const every = Math.max(1, Math.ceil((high - low) / rises.step / wanted));
  const steps = Array.from({ length: wanted + 2 }, (_, i) => (Math.ceil(low / rises.step) + i * every) * rises.step).filter((level) => level <= high);
  const count = (level: number): number => rises.riseCount(level);
  const uncertainty = steps.map((level) => {
    const by = doubt === null ? 0 : Math.hypot(doubt.offset, doubt.relativeGain * (level + shift));
    return Math.max(Math.abs(count(level + by) - count(level)), Math.abs(count(level - by) - count(level)));
  });
  return {
    curves: [
      {
        name: "verticalLoadRises",
        x: { label: "Vertical load", unit: "N", values: steps.map((level) => level + shift) },
        y: { label: "Rises through this load", unit: "1", values: steps.map(count) },
        yUncertainty: doubt === null ? null : uncertainty,
        method: `level crossings of the whole log over ${rolled.total.travelledM.toFixed(1)} m; a rise counts once the load was ${rises.step.toPrecision(3)} N below the level`,
      },
      loadCycleCurve(cycles, rolled.total.travelledM),
    ],
    findings: [],
  };
}

/** Ranges have no zero, and so no doubt of one; the gain's doubt is that of the load. */
function loadCycleCurve(cycles: NonNullable<EnduranceLog["cycles"]>, travelledM: number): Curve {
  const counted = cycles.classes();
  return {
    name: "loadCycles",
    x: { label: "Range of the vertical load", unit: "N", values: counted.map(({ range }) => range) },
    y: { label: "Cycles", unit: "1", values: counted.map((one) => one.cycles) },
    yUncertainty: null,
    method: `rain-flow count of the whole log over ${travelledM.toFixed(1)} m, lifting at its ends included; ranges up to ${cycles.step.toPrecision(3)} N left out, mean range of each class of that width`,
  };
}
