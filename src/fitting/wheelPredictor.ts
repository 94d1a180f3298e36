import type { CardWheel, SoilCard } from "../campaign/soilFileSchema.ts";
import { UsageError } from "../core/errors.ts";
import type { NoEquilibrium } from "../models/wheelSoil.ts";
import { slipRadiusOn } from "./slipRadiusOn.ts";
import { wheelOnSoil } from "./wheelSoilModel.ts";
import { soilParameters } from "./wheelSoilParameters.ts";

/** What a wheel does on a soil at a load and a slip. */
export interface WheelOutcome {
  /** forward on the vehicle [N]; below zero where the wheel must be pushed */
  readonly pullN: number;
  /** on the wheel, driving positive [N·m] */
  readonly torqueNm: number;
  readonly sinkageM: number;
  /** pull times travel speed over torque times turning speed [1]; NaN where the wheel does not drive and pull: then it takes power from both sides */
  readonly efficiency: number;
}

/** A wheel on a soil, ready to be asked: load [N] and slip → what it does, or why there is no balance. */
export type WheelPredictor = (loadN: number, slip: number) => WheelOutcome | NoEquilibrium;

/** nodes on each side of the greatest stress; 16 leave less than 1e-6 of the load */
const nodes = 16;

/**
 * A wheel on a tested soil, made ready for a design model: all that does not depend on load and slip is done once.
 *
 *   pull, torque, sinkage by `rigidWheel`, `widerCircleWheel` or `flexibleWheel`      η = P r (1 − s)/T,  0 ≤ s ≤ 1, T > 0, P ≥ 0
 *
 * r: radius that slip is counted from, by the card's policy. The constants are the card's best ones; `slipForecast` gives
 * the band. It does not say how far load, slip or wheel lie from what was tested: `distanceFromData` does.
 *
 * @param card     `underWheels` of soil.json, from `readSoilCard`
 * @param wheel    one of the card's wheels, or any other
 * @param fitted   constants on the fitted scale in the card's order; left out: the card's best
 * @returns        (load, slip) → outcome, or the reason why there is no balance
 * @throws         UsageError when the card names other constants than this version knows; when called, if a load is not above 0 or a slip not above −1 and up to 1
 * @source         definition of tractive efficiency: J. Y. Wong, Theory of Ground Vehicles, from memory; models as named there
 * @checked        tests/fitting/wheelPredictor.test.ts
 */
export function wheelPredictor(card: SoilCard, wheel: Omit<CardWheel, "id">, fitted: readonly number[] = card.fitted.values): WheelPredictor {
  const { names } = card.fitted;
  const inOrder = soilParameters.map(({ name }) => {
    const value = fitted[names.indexOf(name)];
    if (value === undefined) throw new UsageError(`wheelPredictor: expected a card with the constants ${soilParameters.map((parameter) => parameter.name).join(", ")}, found none called ${name}`);
    return value;
  });
  const model = wheelOnSoil(inOrder, wheel, card.fitted, card.flexibleForm ?? "wider circle", nodes);
  return (loadN, slip) => {
    const state = model(slip, loadN);
    if ("reason" in state) return state;
    const { pullN, torqueNm, sinkageM } = state;
    const pulls = slip >= 0 && torqueNm > 0 && pullN >= 0;
    return { pullN, torqueNm, sinkageM, efficiency: pulls ? (pullN * slipRadiusOn(card.slipRadius, wheel, loadN) * (1 - slip)) / torqueNm : Number.NaN };
  };
}
