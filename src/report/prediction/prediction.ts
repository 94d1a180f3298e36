import type { CardWheel, SoilCard } from "../../campaign/soilFileSchema.ts";
import type { SlipForecast } from "../../fitting/slipForecast.ts";

/** One wheel on the soil of a reduced day, at one load or several. */
export interface Prediction {
  /** the soil file as it was named */
  readonly soil: string;
  readonly card: SoilCard;
  readonly wheel: CardWheel;
  readonly forecasts: readonly SlipForecast[];
  /** the same at slips close enough to draw, where figures are wanted */
  readonly drawn: readonly SlipForecast[];
  /** where loads were given as masses: one a forecast, and the gravity that makes loads of them */
  readonly masses?: { readonly massesKg: readonly number[]; readonly gravityMps2: number };
}
