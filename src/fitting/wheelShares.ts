import type { WheelState, NoEquilibrium } from "../models/wheelSoil.ts";
import { rememberLast } from "../numerics/rememberLast.ts";
import type { WheelObservation } from "./wheelObservations.ts";
import { shareOf } from "./wheelSoilModel.ts";
import type { Belief, WheelModelToFit } from "./wheelSoilFit.ts";
import type { WheelRow } from "./whitenedFit.ts";

/** What a model says of the rows of a fit. */
export interface WheelShares {
  readonly rows: readonly WheelRow[];
  /** predicted shares, one a row; NaN where there is no balance */
  readonly at: (p: readonly number[]) => readonly number[];
  /** ∂share/∂parameter where there is a balance: one column a parameter, one value a row */
  readonly slopes: (p: readonly number[]) => readonly (readonly number[])[];
  /** ∂share/∂slip, one a row; 0 where there is no balance */
  readonly bySlip: (p: readonly number[]) => readonly number[];
}

/** step of a parameter, as a share of the sd of its belief: a belief's width is the parameter's natural scale */
const stepShare = 1e-4;
/** step of the slip */
const slipStep = 1e-3;
/** step of the depth, as a share of it */
const depthShare = 1e-4;

/**
 * Predicted shares of all runs and their slopes by the parameters and by slip, the balance of each run solved once.
 *
 *   dq/dp = ∂q/∂p − ∂q/∂z · (∂W/∂p)/(∂W/∂z)        q: pull, torque, sinkage;  W: load;  z: how far in the wheel is
 *
 * Central differences, at z held where the wheel is in balance: a model is then asked once a step, not until it has found a
 * new balance. Where it cannot be held there, or no load depends on z, the balance itself is differenced. Last answers are
 * remembered, so that fits of the same rows which follow one another share them.
 *
 * @param rows    the data
 * @param toFit   model, bounds, and beliefs for the steps
 * @returns       shares and slopes, not whitened
 * @source        derivative of an implicit function; textbook
 * @checked       tests/fitting/wheelShares.test.ts
 */
export function wheelShares(rows: readonly WheelRow[], { model, beliefs, lower, upper }: Pick<WheelModelToFit, "model" | "beliefs" | "lower" | "upper">): WheelShares {
  const observations = [...new Set(rows.map(({ observation }) => observation))];
  const places = new Map(observations.map((observation, k) => [observation, k]));
  const of = rows.map(({ observation }) => places.get(observation) as number);
  const askedAt = (p: readonly number[], { wheel, loadN }: WheelObservation, slip: number, held?: WheelState) => model(p, wheel, slip, loadN, held);
  const sharesOf = (states: readonly (WheelState | NoEquilibrium)[]): number[] => rows.map(({ observation, quantity }, i) => shareOf(states[of[i] as number] as WheelState | NoEquilibrium, quantity, observation.wheel));
  const balances = rememberLast((p) => observations.map((observation) => askedAt(p, observation, observation.slip.value)));

  /** The balance at parameters and a slip near those of a balance, by one question to the model. */
  const nearBalance = (p: readonly number[], observation: WheelObservation, balance: WheelState | NoEquilibrium): ((moved: readonly number[], slip: number) => WheelState | NoEquilibrium) => {
    const whole = (moved: readonly number[], slip: number) => askedAt(moved, observation, slip);
    if ("reason" in balance) return whole;
    const deeper = (by: number) => askedAt(p, observation, observation.slip.value, { ...balance, sinkageM: balance.sinkageM * (1 + by), deflectionM: balance.deflectionM * (1 + by) });
    const [below, above] = [deeper(depthShare), deeper(-depthShare)];
    if ("reason" in below || "reason" in above || below.loadN === above.loadN) return whole;
    const perN = (quantity: "pullN" | "torqueNm" | "sinkageM"): number => (below[quantity] - above[quantity]) / (below.loadN - above.loadN);
    const [pull, torque, sinkage] = [perN("pullN"), perN("torqueNm"), perN("sinkageM")];
    return (moved, slip) => {
      const held = askedAt(moved, observation, slip, balance);
      if ("reason" in held) return whole(moved, slip);
      const missing = balance.loadN - held.loadN;
      return { loadN: balance.loadN, deflectionM: held.deflectionM, entryRad: held.entryRad, pullN: held.pullN + pull * missing, torqueNm: held.torqueNm + torque * missing, sinkageM: held.sinkageM + sinkage * missing };
    };
  };
  const allNear = rememberLast((p) => balances(p).map((balance, k) => nearBalance(p, observations[k] as WheelObservation, balance)));
  const slopes = rememberLast((p) => {
    const near = allNear(p);
    return p.map((value, j) => {
      const step = stepShare * (beliefs[j] as Belief).sd;
      const [above, below] = [Math.min(upper[j] as number, value + step), Math.max(lower[j] as number, value - step)];
      const shares = (to: number): number[] => {
        const moved = p.map((other, k) => (k === j ? to : other));
        return sharesOf(near.map((state, k) => state(moved, (observations[k] as WheelObservation).slip.value)));
      };
      const [high, low] = [shares(above), shares(below)];
      return high.map((share, i) => (share - (low[i] as number)) / (above - below));
    });
  });
  const bySlip = rememberLast((p) => {
    const near = allNear(p);
    const moved = (by: number): number[] => observations.map(({ slip }) => Math.min(1, slip.value + by));
    const [above, below] = [moved(slipStep), moved(-slipStep)];
    const [high, low] = [above, below].map((slips) => sharesOf(near.map((state, k) => state(p, slips[k] as number)))) as [number[], number[]];
    return of.map((k, i) => ((high[i] as number) - (low[i] as number)) / ((above[k] as number) - (below[k] as number))).map((slope) => (Number.isFinite(slope) ? slope : 0));
  });
  return { rows, at: rememberLast((p) => sharesOf(balances(p))), slopes, bySlip };
}
