import { indexAt, sampleCount, timeAt } from "../../core/recording.ts";
import { standardDeviation } from "../../numerics/statistics.ts";
import { meanOver } from "./slope.ts";
import type { Timed } from "./window.ts";

/** First touch of wheel and ground while the wheel is lowered: where sinkage is counted from. */
export interface Touch {
  readonly timeS: number;
  readonly hubHeightM: number;
  /** half-width of what the threshold and the averaging leave open, as a standard uncertainty */
  readonly uncertaintyM: number;
}

/** Load is judged over this length [s], so that noise does not hide the first newtons. */
const blockS = 0.02;

/**
 * The hub's height at which the load first stands clear of its zero noise and stays there.
 *
 * By the time the load is noticed the wheel has already gone in a little; the height between the last quiet block and the
 * noticed one bounds it, taken as a rectangular distribution.
 *
 * @returns null with a reason when the load never rises, or stood already at the start
 */
export function firstTouch(load: Timed, hub: Timed, quietToS: number, beforeS: number): Touch | { readonly reason: string } {
  const start = timeAt(load.time, 0);
  const quiet = Array.from(load.samples.subarray(0, indexAt(load.time, quietToS))).filter((value) => !Number.isNaN(value));
  const perBlock = Math.max(1, indexAt(load.time, start + blockS));
  const threshold = (5 * standardDeviation(quiet)) / Math.sqrt(perBlock);
  const end = Math.min(beforeS, timeAt(load.time, sampleCount(load.time) - 1));
  let lastQuietS = quietToS;
  for (let at = quietToS; at + blockS < end; at += blockS) {
    const here = meanOver(load.time, load.samples, at, at + blockS).mean;
    const next = meanOver(load.time, load.samples, at + blockS, at + 3 * blockS).mean;
    if (!(here > threshold && next > threshold)) {
      if (here <= threshold) lastQuietS = at + blockS / 2;
      continue;
    }
    const noticedS = at + blockS / 2;
    const above = meanOver(hub.time, hub.samples, lastQuietS - blockS / 2, lastQuietS + blockS / 2).mean;
    const below = meanOver(hub.time, hub.samples, at, at + blockS).mean;
    if (Number.isNaN(above) || Number.isNaN(below)) return { reason: "the hub height is missing at first touch" };
    return { timeS: noticedS, hubHeightM: (above + below) / 2, uncertaintyM: Math.max(Math.abs(above - below), 1e-5) / Math.sqrt(12) };
  }
  return { reason: "the vertical load never rises clear of its zero before the wheel starts" };
}
