import { median } from "../../numerics/statistics.ts";

/** Whether a wheel got over, as far as its hub shows it. */
export type ClimbOutcome = "climbed" | "notClimbed" | "notTold";

/** How the hub went over an obstacle. */
export interface HubPath {
  readonly outcome: ClimbOutcome;
  /** why, in words */
  readonly reason: string;
  /** hub height at the end less that at the start [m] */
  readonly endRiseM: number;
  /** greatest hub height less that at the start [m] */
  readonly topRiseM: number;
}

/** share of the samples at either end that its level is taken from */
const ends = 0.08;
/** shares of the obstacle's height that count as over it, and as not begun */
const over = 0.75;
const short = 0.5;
const low = 0.25;

/**
 * Whether the hub shows that the wheel got over an obstacle of height h.
 *
 *   start and end: medians of the first and last 8 % of the samples; top: greatest median of five in a row
 *   not climbed: top < 0.5 h, or top ≥ 0.75 h but end < 0.25 h and the carriage no further than the top's place plus r
 *   climbed: top ≥ 0.75 h and (end ≥ 0.75 h or the carriage went on by more than r past the top's place)
 *   else not told
 *
 * The second way of climbing is that of an obstacle with a far side. In soil the hub also sinks; the margins leave room.
 *
 * @param hubM       hub height from before the obstacle to the end of the drive [m]
 * @param carriageM  carriage position at the same samples [m]; null = not recorded
 * @param heightM    h [m]
 * @param radiusM    r of the wheel [m]
 * @returns          the outcome with its reason, and both rises [m]
 * @source           common practice
 * @checked          tests/processing/measures/climbOutcome.test.ts
 */
export function climbOutcome(hubM: readonly number[], carriageM: readonly number[] | null, heightM: number, radiusM: number): HubPath {
  const count = Math.max(1, Math.floor(ends * hubM.length));
  const start = median(hubM.slice(0, count));
  const endRiseM = median(hubM.slice(-count)) - start;
  let top = 0;
  let topRiseM = -Infinity;
  for (let i = 2; i < hubM.length - 2; i++) {
    const here = median(hubM.slice(i - 2, i + 3)) - start;
    if (here > topRiseM) [top, topRiseM] = [i, here];
  }
  const passedM = carriageM === null ? null : (carriageM[carriageM.length - 1] as number) - (carriageM[top] as number);
  const mm = (value: number): string => `${(1000 * value).toFixed(0)} mm`;
  const told = (outcome: ClimbOutcome, reason: string): HubPath => ({ outcome, reason, endRiseM, topRiseM });
  if (topRiseM < short * heightM) return told("notClimbed", `the hub rose by ${mm(topRiseM)} at most, less than half the obstacle's ${mm(heightM)}`);
  if (topRiseM < over * heightM) return told("notTold", `the hub rose by ${mm(topRiseM)} at most, between half and three quarters of the obstacle's ${mm(heightM)}`);
  if (endRiseM >= over * heightM) return told("climbed", `the hub stands ${mm(endRiseM)} higher at the end, the obstacle is ${mm(heightM)} high`);
  if (passedM !== null && passedM > radiusM) return told("climbed", `the hub rose by ${mm(topRiseM)} and the carriage went on by ${mm(passedM)} from there`);
  if (endRiseM < low * heightM && passedM !== null) return told("notClimbed", `the hub rose by ${mm(topRiseM)} and fell back to ${mm(endRiseM)} without the carriage passing on`);
  return told("notTold", `the hub rose by ${mm(topRiseM)} and stands ${mm(endRiseM)} higher at the end; ${passedM === null ? "no carriage position was recorded" : "that is neither over nor back"}`);
}
