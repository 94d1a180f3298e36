import { sampleCount, timeAt } from "../../core/recording.ts";
import type { Samples, TimeBase } from "../../core/recording.ts";
import { slopeOver } from "./slope.ts";

/** Speeds are judged over this length [s]: long enough for a coarse encoder, short against a start. The ends of a turning stretch are known to it. */
export const judgedOverS = 0.25;
/** The wheel moves when it turns faster than this share of its usual speed. */
const movingShare = 0.1;

/** From when to when the wheel turns; null when it never does. */
export function turningStretch(time: TimeBase, angle: Samples): { readonly fromS: number; readonly toS: number } | null {
  const count = sampleCount(time);
  if (count < 10) return null;
  const first = timeAt(time, 0);
  const last = timeAt(time, count - 1);
  const bins = Math.floor((last - first) / judgedOverS);
  const speeds = Array.from({ length: bins }, (_, i) => Math.abs(slopeOver(time, angle, first + i * judgedOverS, first + (i + 1) * judgedOverS).slope));
  const sorted = speeds.filter((speed) => !Number.isNaN(speed)).sort((a, b) => a - b);
  const usual = sorted[Math.floor(sorted.length * 0.8)] ?? 0;
  // A wheel at rest shows at most a count or two; a hundredth of a revolution in all is no run.
  if (!(usual * (last - first) > 0.06)) return null;
  let from = -1;
  let to = -1;
  speeds.forEach((speed, i) => {
    if (!(speed > movingShare * usual)) return;
    if (from < 0) from = i;
    to = i + 1;
  });
  return from < 0 ? null : { fromS: first + from * judgedOverS, toS: first + to * judgedOverS };
}

/** Time at which a rising or falling channel passes a level, by straight line between samples; NaN when it does not. */
export function crossing(time: TimeBase, samples: Samples, level: number, fromIndex: number, toIndex: number): number {
  for (let i = Math.max(1, fromIndex); i < toIndex; i++) {
    const a = samples[i - 1] as number;
    const b = samples[i] as number;
    if ((a <= level && b >= level) || (a >= level && b <= level)) {
      const share = b === a ? 0 : (level - a) / (b - a);
      return timeAt(time, i - 1) + share * (timeAt(time, i) - timeAt(time, i - 1));
    }
  }
  return Number.NaN;
}
