import type { InspectionRecord } from "../campaign/campaign.ts";
import type { Estimate } from "../core/estimate.ts";
import type { Finding } from "../core/finding.ts";
import type { Fit, Verdict } from "../core/fit.ts";
import type { Band } from "./dayResult.ts";

/** What is followed over the distance. */
export type WearQuantity = "mass" | "radius" | "stiffness" | "pullCoefficient";

/** One quantity of one wheel over the distance it has run. */
export interface WearTrend {
  readonly quantity: WearQuantity;
  readonly label: string;
  readonly form: "line" | "logarithm";
  /** why this form */
  readonly choice: string;
  /** x: distance [m] */
  readonly fit: Fit;
  /** the trend itself lies inside with 95 % at any one distance; null when the fit is undetermined */
  readonly band: Band | null;
  /** one more inspection lies inside with 95 % */
  readonly predictionBand: Band | null;
  readonly atMission: Estimate;
  /** 95 % interval of one more inspection at the mission distance */
  readonly prediction: { readonly low: number; readonly high: number } | null;
}

/** What the cycles of the load in some runs use up of a wheel's life. */
export interface LoadDamage {
  readonly runs: readonly string[];
  /** over which the cycles were counted */
  readonly distance: Estimate<"m">;
  readonly cycles: number;
  readonly largestRangeN: number | null;
  /** linear sum over the runs; failure is expected at 1 */
  readonly damage: Estimate<"1">;
  readonly damageInterval: LogInterval | null;
  readonly atMission: Estimate<"1">;
  readonly missionInterval: LogInterval | null;
}

/** 95 % on the logarithmic scale, on which lives scatter; where it is null, it is not determined. */
export interface LogInterval {
  readonly low: number;
  readonly high: number;
}

export interface WheelEndurance {
  readonly wheel: string;
  /** mass without soil; why the row counts nowhere, null = it counts */
  readonly inspections: readonly { readonly record: InspectionRecord; readonly mass: Estimate<"kg">; readonly refused: string | null }[];
  readonly trends: readonly WearTrend[];
  /** mean over the distance inspected; positive when mass is lost */
  readonly massLossPerDistance: Estimate<"kg/m">;
  readonly specificWear: Estimate<"m3/(N.m)">;
  /** null = the wheel has no endurance run */
  readonly damage: LoadDamage | null;
  readonly findings: readonly Finding[];
}

/** How far a wheel has run, and whether it failed there. */
export interface WheelLife {
  readonly wheel: string;
  readonly distanceM: number;
  readonly failed: boolean;
}

export interface LifeFit {
  readonly lives: readonly WheelLife[];
  /** share of wheels that outlive each failure, by product limit */
  readonly survival: readonly { readonly distanceM: number; readonly share: number }[];
  /** the fitted distribution as far as a wheel has run; empty when it is undetermined */
  readonly fitted: readonly { readonly distanceM: number; readonly share: number }[];
  readonly fit: Fit;
  /** distance that nine of ten wheels outlive */
  readonly b10: Estimate<"m">;
  readonly b10Interval: LogInterval | null;
}

/** What wheels without a failure demonstrate. */
export interface Demonstration {
  readonly verdict: Verdict;
  readonly sentence: string;
  /** lower limit of the share of wheels that outlive one mission, at the claim's confidence; null = not determined */
  readonly reliability: number | null;
  /** so many new wheels, each so many missions without a failure, would show the claim */
  readonly needed: readonly { readonly wheels: number; readonly missions: number; readonly distanceM: number }[];
}

/** What inspections and endurance runs of a day say together. */
export interface EnduranceResult {
  readonly wheels: readonly WheelEndurance[];
  readonly lives: LifeFit;
  readonly demonstration: Demonstration;
}
