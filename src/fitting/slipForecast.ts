import type { CardWheel, SoilCard } from "../campaign/soilFileSchema.ts";
import type { NoEquilibrium } from "../models/wheelSoil.ts";
import { seededRandom } from "../numerics/random.ts";
import { quantiles } from "../numerics/statistics.ts";
import { distanceFromData } from "./distanceFromData.ts";
import type { Outside } from "./distanceFromData.ts";
import { slipRadiusOn } from "./slipRadiusOn.ts";
import { quantities } from "./wheelObservations.ts";
import { wheelPredictor } from "./wheelPredictor.ts";
import type { WheelOutcome, WheelPredictor } from "./wheelPredictor.ts";
import { widenedForWheel } from "./forecastMisfit.ts";
import { missKey } from "./wheelMisfit.ts";

/** Lower and upper end of a 95 % interval; null = it has none. */
export type Interval = readonly [number, number] | null;

/** What a wheel will do at one slip. */
export interface ForecastRow {
  readonly slip: number;
  /** by the card's best constants; null = no balance, and `reason` says why */
  readonly best: WheelOutcome | null;
  readonly reason: string;
  /** where the next measurement will fall, but for its own noise: constants and what the model misses */
  readonly band: Readonly<Record<keyof WheelOutcome, Interval>>;
  /** in what this slip lies outside the runs; none = amid them */
  readonly outside: readonly Outside[];
}

/** Steepest slope that the wheel climbs at a slip. */
export interface SlopeRow {
  readonly slip: number;
  /** α [rad]; below zero: it needs a fall to keep moving; null = no balance */
  readonly bestRad: number | null;
  readonly bandRad: Interval;
}

/** One wheel at one load over slip. */
export interface SlipForecast {
  readonly loadN: number;
  readonly rows: readonly ForecastRow[];
  readonly slopes: readonly SlopeRow[];
  /** in what wheel and load lie outside the runs */
  readonly outside: readonly Outside[];
}

/** misses drawn for each draw of the constants: 6000 values for 400 draws know a 95 % edge to a few hundredths of the band */
const missesPerDraw = 16;
/** above this share of draws without a balance the interval has an open end */
const openShare = 0.025;
const slopeSteps = 4;

/**
 * What a wheel will do on a tested soil, over slip at one load, with 95 % intervals.
 *
 *   for each draw of the card: P/W + δ_P z₁, T/(R W) + δ_T z₂, z/R + δ_z z₃,  z normal;  interval = 2.5 % and 97.5 % of all
 *   slope: tan α = P/W at the load W cos α on the slope
 *
 * The interval holds the constants' doubt, calibrations included, and what the model misses; not that another bed is
 * prepared otherwise, and nothing for being outside the data: `outside` says where that is so.
 *
 * @param card     `underWheels` of soil.json
 * @param wheel    one of the card's wheels, or any other
 * @param loadN    W [N], > 0
 * @param slips    s, each above −1 and up to 1
 * @param slopesAt slips at which the slope is asked for
 * @returns        best values, intervals, and what lies outside the data
 * @throws         UsageError as `wheelPredictor`
 * @source         predictive distribution by simulation: A. Gelman et al., Bayesian Data Analysis, 3rd ed., from memory
 * @checked        tests/fitting/slipForecast.test.ts
 */
export function slipForecast(card: SoilCard, wheel: CardWheel, loadN: number, slips: readonly number[], slopesAt: readonly number[] = []): SlipForecast {
  const best = wheelPredictor(card, wheel);
  const drawn = card.draws.rows.map((row) => ({ predict: wheelPredictor(card, wheel, row), missed: quantities.map((quantity) => missedIn(card, row, quantity, wheel)) }));
  const tipM = wheel.rimM + wheel.lugHeightM;
  // the same misses at every slip, so that a band is as smooth as the curves
  const random = seededRandom(5);
  const misses = drawn.map(({ missed }) => Array.from({ length: missesPerDraw }, () => missed.map((delta) => delta * random.normal())));

  const row = (slip: number): ForecastRow => {
    const found = best(loadN, slip);
    const outside = distanceFromData(card, wheel, loadN, slip).slip;
    if ("reason" in found) return { slip, best: null, reason: found.reason, band: { pullN: null, torqueNm: null, sinkageM: null, efficiency: null }, outside };
    const made: Record<keyof WheelOutcome, number[]> = { pullN: [], torqueNm: [], sinkageM: [], efficiency: [] };
    drawn.forEach(({ predict }, k) => {
      const state = predict(loadN, slip);
      for (const [pull = 0, torque = 0, sinkage = 0] of misses[k] as number[][]) {
        const open = "reason" in state;
        const pullN = open ? Number.NaN : state.pullN + loadN * pull;
        const torqueNm = open ? Number.NaN : state.torqueNm + loadN * tipM * torque;
        made.pullN.push(pullN);
        made.torqueNm.push(torqueNm);
        made.sinkageM.push(open ? Number.NaN : Math.max(0, state.sinkageM + tipM * sinkage));
        made.efficiency.push(slip >= 0 && torqueNm > 0 ? (pullN * slipRadiusOn(card.slipRadius, wheel, loadN) * (1 - slip)) / torqueNm : Number.NaN);
      }
    });
    return { slip, best: found, reason: "", band: { pullN: interval(made.pullN), torqueNm: interval(made.torqueNm), sinkageM: interval(made.sinkageM), efficiency: interval(made.efficiency) }, outside };
  };

  const slope = (slip: number): SlopeRow => {
    const [bestRad = Number.NaN] = slopeOf(best, loadN, slip, [0]);
    return Number.isNaN(bestRad) ? { slip, bestRad: null, bandRad: null } : { slip, bestRad, bandRad: interval(drawn.flatMap(({ predict }, k) => slopeOf(predict, loadN, slip, (misses[k] as number[][]).map(([pull = 0]) => pull)))) };
  };

  return { loadN, rows: slips.map(row), slopes: slopesAt.map(slope), outside: distanceFromData(card, wheel, loadN, slips[0] ?? 0).wheel };
}

/** Slopes by one set of constants, one a miss of the pull coefficient; NaN where there is no balance. */
function slopeOf(predict: WheelPredictor, weightN: number, slip: number, misses: readonly number[]): number[] {
  let angle = 0;
  for (let step = 0; step < slopeSteps; step++) {
    const loadN = weightN * Math.cos(angle);
    const state: WheelOutcome | NoEquilibrium = predict(loadN, slip);
    if ("reason" in state) return misses.map(() => Number.NaN);
    angle = Math.atan(state.pullN / loadN);
  }
  return misses.map((miss) => Math.atan(Math.tan(angle) + miss));
}

/** δ of a draw, wider where the wheel was not among the runs: drawn spreads of few wheels lean on the belief, and alone hold the next wheel too seldom; of a kind of wheel that was not among the runs the model misses at least what it misses of the others. */
function missedIn({ draws, discrepancy, wheelSpread, wheels }: SoilCard, row: readonly number[], quantity: (typeof quantities)[number], wheel: CardWheel): number {
  const at = (key: string): number => {
    const place = draws.columns.indexOf(key);
    return place < 0 ? (discrepancy[key] ?? 0) : Math.exp(row[place] as number);
  };
  const own = missKey(quantity, wheel);
  const whole = Object.hasOwn(discrepancy, own) ? at(own) : Math.max(0, ...Object.keys(discrepancy).filter((key) => key.startsWith(quantity)).map(at));
  return wheels.some(({ id }) => id === wheel.id) ? whole : widenedForWheel(whole, wheelSpread[quantity], wheels.length);
}

function interval(values: readonly number[]): Interval {
  const known = values.filter(Number.isFinite);
  if (known.length < (1 - openShare) * values.length) return null;
  const [low = Number.NaN, high = Number.NaN] = quantiles(known, [0.025, 0.975]);
  return [low, high];
}
