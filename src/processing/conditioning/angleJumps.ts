import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import type { Samples } from "../../core/recording.ts";

/** A step this many times the usual largest one is no motion. */
const unlike = 8;
/** Share of all steps that the usual largest one stands above. */
const usualShare = 0.98;
/** Nor is a step below this [rad]: vibration of a resting wheel stays under it. */
const leastStep = 0.1;

/**
 * A wheel turns without jumps. A single step far beyond all others is a counter that rolled over unseen, an angle that begins
 * again at its full turn, or lost counts; its size says which.
 *
 * @param stepRad   angle of one count; null when the angle does not come from counts
 */
export function angleJumps(angle: Samples, stepRad: number | null): Finding[] {
  const sizes: number[] = [];
  let largest = 0;
  let where = -1;
  let before = Number.NaN;
  for (let i = 0; i < angle.length; i++) {
    const value = angle[i] as number;
    if (Number.isNaN(value)) continue;
    if (!Number.isNaN(before)) {
      const size = Math.abs(value - before);
      sizes.push(size);
      if (size > largest) {
        largest = size;
        where = i;
      }
    }
    before = value;
  }
  sizes.sort((a, b) => a - b);
  const usual = sizes[Math.floor(usualShare * (sizes.length - 1))] ?? 0;
  const limit = Math.max(unlike * usual, leastStep);
  if (where < 0 || largest <= limit) return [];
  return [finding("encoder-jump", "reject", `The wheel angle jumps by ${largest.toFixed(2)} rad between two samples, where it moves ${usual.toPrecision(2)} rad at most otherwise: ${cause(largest, stepRad)}. Correct rollover in rig.yaml, or look for lost counts, and read the run again`, { channel: "wheelAngle", measured: largest, limit })];
}

function cause(jump: number, stepRad: number | null): string {
  if (stepRad !== null && stepRad > 0) {
    const bits = Math.log2(jump / stepRad);
    if (Math.abs(bits - Math.round(bits)) < 0.06 && bits > 7) return `about 2^${Math.round(bits)} counts, as a counter of ${Math.round(bits)} bits rolls over`;
    return `${Math.round(jump / stepRad)} counts`;
  }
  if (Math.abs(jump / (2 * Math.PI) - 1) < 0.1) return "a whole turn, as an angle that begins again after 360 degrees";
  return "no whole turn";
}
