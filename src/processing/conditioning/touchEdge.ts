import type { DropSignal } from "./dropSignal.ts";
import type { Instant } from "./dropEvents.ts";

/** Fewest samples on either side of the edge that it is told from. */
const fewest = 8;
/** Trial places per sampling interval. */
const places = 8;

/**
 * When the ground begins to push, closer than the smoothing that found the event: from the fall's level the acceleration
 * jumps by J ≥ 0 (damping pushes at once) and rises straight with slope s ≥ 0. Every place around the event is tried with
 * its best J and s; mean and spread of the places, weighted by exp(−χ²/2), are the instant and its doubt.
 *
 * @param event  as the smoothed acceleration shows it
 * @param level  acceleration in the fall before it [m/s²]
 * @param reachS how far the straight rise is followed; a small part of the contact
 */
export function touchEdge(signal: DropSignal, event: Instant, level: number, reachS: number): Instant {
  const { timesS, acceleration, intervalS } = signal;
  const sideS = Math.max(signal.smoothingS / 2, fewest * intervalS);
  const behindS = sideS + Math.max(reachS, sideS);
  const rows: Row[] = [];
  timesS.forEach((timeS, i) => {
    const t = timeS - event.timeS;
    const push = (acceleration[i] as number) - level;
    if (t >= -2 * sideS && t <= behindS && !Number.isNaN(push)) rows.push({ t, push });
  });
  if (rows.length < 3 * fewest) return event;
  const variance = (signal.noise ** 2 * (1 + signal.lag1)) / (1 - signal.lag1);
  const count = Math.round((2 * sideS * places) / intervalS);
  const trials = Array.from({ length: count + 1 }, (_, k) => {
    const place = -sideS + (k * intervalS) / places;
    return { place, misfit: misfit(rows, place) / variance };
  });
  const least = Math.min(...trials.map((trial) => trial.misfit));
  const weights = trials.map((trial) => Math.exp((least - trial.misfit) / 2));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = trials.reduce((sum, trial, i) => sum + trial.place * (weights[i] as number), 0) / total;
  const spread = trials.reduce((sum, trial, i) => sum + (trial.place - mean) ** 2 * (weights[i] as number), 0) / total;
  // the spread holds that the edge may lie anywhere between two samples
  return { timeS: event.timeS + mean, uncertaintyS: Math.max(Math.sqrt(spread), intervalS / Math.sqrt(12)), cause: `${event.cause}, unsmoothed` };
}

interface Row {
  /** from the event [s] */
  readonly t: number;
  readonly push: number;
}

/** Sum of squares about nothing before the place, and about the best J + s (t − place) after it. */
function misfit(rows: readonly Row[], place: number): number {
  let before = 0;
  let [n, st, stt, sy, sty, syy] = [0, 0, 0, 0, 0, 0];
  for (const { t, push } of rows) {
    const x = t - place;
    if (x < 0) {
      before += push * push;
      continue;
    }
    n++;
    st += x;
    stt += x * x;
    sy += push;
    sty += x * push;
    syy += push * push;
  }
  const determinant = n * stt - st * st;
  const slope = determinant > 0 ? (n * sty - st * sy) / determinant : 0;
  const jump = n > 0 ? (sy - slope * st) / n : 0;
  const sum = (j: number, s: number): number => syy - 2 * j * sy - 2 * s * sty + n * j * j + 2 * j * s * st + s * s * stt;
  if (jump >= 0 && slope >= 0) return before + sum(jump, slope);
  return before + Math.min(sum(0, stt > 0 ? Math.max(0, sty / stt) : 0), sum(n > 0 ? Math.max(0, sy / n) : 0, 0));
}
