import type { DropSignal } from "./dropSignal.ts";
import { pathAt } from "./dropEvents.ts";
import type { Instant } from "./dropEvents.ts";

/** Fewest samples on either side of the edge that it is told from. */
const fewest = 4;
/** Trial places per sampling interval. */
const places = 8;
/** By how much of itself the push's slope may change over the stretch: a spring that hardens, damping. */
const bends = [-0.1, 0, 0.1, 0.2, 0.3];
/** What a lift-off that jumps costs in χ²: a push fades to nothing, so the data must show it clearly. */
const oddJump = 16;

/**
 * When the ground begins or ends to push, closer than the smoothing that found the event. Seen from the flight into the
 * contact the acceleration leaves its level steadily, by s ≥ 0 for every metre the hub goes down, a little bent; or it jumps
 * first, as damping pushes at once, and a jump, one constant more, costs ln n of χ². Every place around the event is tried with
 * the best s and jump; mean and spread of the places, weighted by exp(−χ²/2), are the instant and its doubt.
 *
 * @param event   as the smoothed acceleration shows it
 * @param level   acceleration in the flight beside it [m/s²]
 * @param reachS  how far the straight rise is followed; a small part of the contact
 * @param contact on which side of the event the contact lies: 1 = after it, a touch; −1 = before it, a lift-off
 */
export function contactEdge(signal: DropSignal, event: Instant, level: number, reachS: number, contact: 1 | -1): Instant {
  const { timesS, acceleration, path, intervalS } = signal;
  const sideS = Math.max(fewest * intervalS, 2 * event.uncertaintyS);
  const behindS = sideS + Math.max(reachS, fewest * intervalS);
  const rows: Row[] = [];
  timesS.forEach((timeS, i) => {
    const t = contact * (timeS - event.timeS);
    if (t < -2 * sideS || t > behindS) return;
    const push = (acceleration[i] as number) - level;
    const height = path[i] as number;
    if (!Number.isNaN(push) && !Number.isNaN(height)) rows.push({ t, height, push });
  });
  if (rows.length < 3 * fewest) return event;
  const count = Math.round((2 * sideS * places) / intervalS);
  const noise = (signal.noise ** 2 * (1 + signal.lag1)) / (1 - signal.lag1);
  const trials = Array.from({ length: count + 1 }, (_, k) => -sideS + (k * intervalS) / places).flatMap((place): Trial[] => {
    const touchM = pathAt(signal, event.timeS + contact * place);
    return [{ place, misfit: jumpMisfit(rows, place, touchM), costs: contact === 1 ? Math.log(rows.length) : oddJump }, ...bends.map((bend) => ({ place, misfit: steadyMisfit(rows, place, touchM, bend), costs: 0 }))];
  });
  const variance = Math.max(noise, Math.min(...trials.map((trial) => trial.misfit)) / (rows.length - 3));
  const chiSquares = trials.map(({ misfit, costs }) => misfit / variance + costs);
  const least = Math.min(...chiSquares);
  const weights = chiSquares.map((chiSquare) => Math.exp((least - chiSquare) / 2));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  const mean = trials.reduce((sum, trial, i) => sum + trial.place * (weights[i] as number), 0) / total;
  const spread = trials.reduce((sum, trial, i) => sum + (trial.place - mean) ** 2 * (weights[i] as number), 0) / total;
  // the spread holds that a jump may lie anywhere between two samples
  return { timeS: event.timeS + contact * mean, uncertaintyS: Math.hypot(Math.sqrt(spread), intervalS / places / Math.sqrt(12)), cause: event.cause };
}

interface Trial {
  readonly place: number;
  readonly misfit: number;
  /** what its constants cost, in χ² */
  readonly costs: number;
}

interface Row {
  /** from the event towards the contact [s] */
  readonly t: number;
  /** of the hub, from anywhere [m] */
  readonly height: number;
  readonly push: number;
}

/** Sum of squares about nothing before the place, and about the best J + s · (way down from there) after it. */
function jumpMisfit(rows: readonly Row[], place: number, touchM: number): number {
  let before = 0;
  let [n, sx, sxx, sy, sxy, syy] = [0, 0, 0, 0, 0, 0];
  for (const { t, height, push } of rows) {
    if (t < place) {
      before += push * push;
      continue;
    }
    const x = touchM - height;
    n++;
    sx += x;
    sxx += x * x;
    sy += push;
    sxy += x * push;
    syy += push * push;
  }
  const determinant = n * sxx - sx * sx;
  const slope = determinant > 0 ? (n * sxy - sx * sy) / determinant : 0;
  const jump = n > 0 ? (sy - slope * sx) / n : 0;
  const sum = (j: number, s: number): number => syy - 2 * j * sy - 2 * s * sxy + n * j * j + 2 * j * s * sx + s * s * sxx;
  if (jump >= 0 && slope >= 0) return before + sum(jump, slope);
  return before + Math.min(sum(0, sxx > 0 ? Math.max(0, sxy / sxx) : 0), sum(n > 0 ? Math.max(0, sy / n) : 0, 0));
}

/** Sum of squares about nothing before the place, and about the best s x (1 + bend x/x_most) after it, x the way down from there. */
function steadyMisfit(rows: readonly Row[], place: number, touchM: number, bend: number): number {
  const most = Math.max(...rows.map(({ height }) => touchM - height));
  let [sum, xx, xy] = [0, 0, 0];
  for (const { t, height, push } of rows) {
    sum += push * push;
    if (t < place) continue;
    const x = (touchM - height) * (1 + (bend * (touchM - height)) / most);
    xx += x * x;
    xy += x * push;
  }
  return xx > 0 && xy > 0 ? sum - (xy * xy) / xx : sum;
}
