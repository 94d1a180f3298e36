import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { indexAt, timeAt } from "../../core/recording.ts";
import { mean, median } from "../../numerics/statistics.ts";
import { turningStretch } from "../conditioning/motion.ts";
import type { RevolutionWindow } from "../conditioning/window.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { timed } from "../rolling.ts";

/** Times the usual change from sample to sample that a jump stands out by (common practice). */
const clear = 12;
/** Fewer steps do not show what is usual. */
const fewestSteps = 40;

/**
 * A hub or a carriage cannot jump from one sample to the next. A step that does is a wire that slipped, a potentiometer that
 * lost contact, or an optical sensor that lost its target in the dust; what follows it stands at a wrong height.
 */
export function levelJump(run: PreparedRun, window: RevolutionWindow): Finding[] {
  const angle = timed(run, "wheelAngle", "rad");
  const turning = angle === null ? null : turningStretch(angle.time, angle.samples);
  if (turning === null) return [];
  return (["hubHeight", "carriagePosition", "surfaceHeight"] as const).flatMap((name) => {
    const found = timed(run, name, "m");
    if (found === null) return [];
    // The carriage itself starts and stops; the hub may slip its wire there too.
    const stretch = name === "carriagePosition" ? window.segment : turning;
    const from = indexAt(found.time, stretch.fromS);
    const to = indexAt(found.time, stretch.toS);
    const jumps = jumpsOf(Array.from(found.samples.subarray(from, to)));
    const largest = [...jumps].sort((a, b) => Math.abs(b.sizeM) - Math.abs(a.sizeM))[0];
    const limits = run.rig.tolerances.levelJump;
    if (largest === undefined || !(Math.abs(largest.sizeM) > limits.look)) return [];
    const severity = Math.abs(largest.sizeM) > limits.reject ? "reject" : "look";
    const atS = timeAt(found.time, from + largest.index);
    const counted = jumps.filter((jump) => Math.abs(jump.sizeM) > limits.look).length;
    return [finding("level-jump", severity, `${name} jumps ${counted === 1 ? "once" : `${counted} times`} from one sample to the next, by up to ${(1000 * Math.abs(largest.sizeM)).toFixed(1)} mm at ${atS.toFixed(2)} s, which no hub or carriage does. Look for a slipping or sagging wire, a worn potentiometer, or dust before an optical sensor; repeat`, { channel: name, fromS: atS, toS: atS, measured: Math.abs(largest.sizeM), limit: limits[severity] })];
  });
}

/** Steps between two samples that their neighbourhood does not make likely. */
function jumpsOf(samples: readonly number[]): { readonly index: number; readonly sizeM: number }[] {
  const steps: { readonly index: number; readonly step: number }[] = [];
  let before = Number.NaN;
  samples.forEach((value, index) => {
    if (Number.isNaN(value)) return;
    if (!Number.isNaN(before)) steps.push({ index, step: value - before });
    before = value;
  });
  if (steps.length < fewestSteps) return [];
  // What the steps before and after make likely is taken off: a carriage that speeds up does not jump.
  const excess = steps.slice(1, -1).map(({ index, step }, i) => ({ index, sizeM: step - ((steps[i] as (typeof steps)[number]).step + (steps[i + 2] as (typeof steps)[number]).step) / 2 }));
  const sizes = excess.map(({ sizeM }) => Math.abs(sizeM));
  // The mean, beside the median: a coarse sensor that toggles by one step now and then is not jumping.
  const limit = clear * Math.max(1.4826 * median(sizes), mean(sizes));
  return excess.filter(({ sizeM }, i) => Math.abs(sizeM) > limit && Math.abs(sizeM) >= Math.max(sizes[i - 1] ?? 0, sizes[i + 1] ?? 0));
}
