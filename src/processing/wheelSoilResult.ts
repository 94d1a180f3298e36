import type { Estimate } from "../core/estimate.ts";
import type { FitPoint } from "../core/fit.ts";
import type { Band } from "./dayResult.ts";

export type WheelQuantityName = "pull" | "torque" | "sinkage";
type ByQuantity = Readonly<Record<WheelQuantityName, number>>;

/** A constant of the soil under the wheels, with who carries it. */
export interface WheelSoilParameter {
  readonly name: string;
  readonly symbol: string;
  /** undetermined where the data do not carry it: then the method says so */
  readonly estimate: Estimate;
  /** what was believed before, in the estimate's unit: value and standard deviation, and why */
  readonly believed: { readonly value: number; readonly sd: number; readonly reason: string };
  /** standard deviation after the data over that before [1] */
  readonly narrowing: number;
  /** 95 % interval by the covariance, in the estimate's unit */
  readonly interval: readonly [number, number];
  /** by profile of the data, without the constant's own belief: null ends are open, the data do not hold it there; null = not made */
  readonly profile: { readonly low: number | null; readonly high: number | null } | null;
  /** by refits to beds or runs drawn with replacement; null = there were none */
  readonly bootstrap: readonly [number, number] | null;
  readonly share: "determined" | "partly" | "undetermined";
  readonly sentence: string;
}

/** One measured share in the fit. */
export interface WheelFitPoint {
  readonly run: string;
  readonly quantity: WheelQuantityName;
  readonly measured: number;
  readonly fitted: number;
  /** how much it counts: 1, or what a robust fit lets it */
  readonly weight: number;
  /** what a fit foretold that had not seen its load, and the standard uncertainty of the difference; null = none could */
  readonly unseen: { readonly foretold: number; readonly uncertainty: number } | null;
  /** why it counts less; "" where it does not */
  readonly reason: string;
}

/** How a model did on conditions it had not seen. */
export interface ModelScore {
  readonly model: string;
  /** "load", "wheel" or "slip" */
  readonly heldOut: string;
  readonly points: number;
  /** root mean square of the error: pull/W, torque/(R W), sinkage/R; NaN where the model does not predict it */
  readonly error: ByQuantity;
  readonly logScore: ByQuantity;
  /** share of the points inside their 95 % interval */
  readonly inside: number;
  readonly insideBy: ByQuantity;
  /** conditions it had no forecast for, with the reason */
  readonly failed: readonly string[];
}

/** Pull, torque and sinkage of one wheel at one load, measured and foretold. */
export interface WheelForecast {
  readonly wheel: string;
  readonly loadN: number;
  readonly points: Readonly<Record<WheelQuantityName, readonly { readonly run: string; readonly slip: number; readonly measured: number; readonly uncertainty: number }[]>>;
  readonly bands: Readonly<Record<WheelQuantityName, Band>>;
}

/** By what a forecast's distance from the runs is told: load, slip, diameter over the lugs, width, and load over radius times width. */
export type WheelConditionAxis = "loadN" | "slip" | "diameterM" | "widthM" | "pressurePa";
/** Where one run stands. */
export type WheelCondition = { readonly run: string; readonly flexible: boolean } & Readonly<Record<WheelConditionAxis, number>>;

/** A wheel as the models see it. */
export interface TestedWheel {
  readonly id: string;
  /** radius of the rim, without lugs [m] */
  readonly rimM: number;
  readonly widthM: number;
  /** how many round the wheel; 0 = none */
  readonly lugs: number;
  readonly lugHeightM: number;
  /** load against deflection on a hard plate; null = taken as rigid */
  readonly curve: { readonly deflectionM: readonly number[]; readonly loadN: readonly number[] } | null;
}

/** The soil as the wheels felt it. */
export interface WheelSoilResult {
  readonly verdict: "determined" | "undetermined";
  readonly sentence: string;
  readonly runs: readonly string[];
  readonly refused: readonly FitPoint[];
  readonly parameters: readonly WheelSoilParameter[];
  /** on the fitted scale, in the order of `parameters`, for those who compute on */
  readonly fitted: { readonly values: readonly number[]; readonly covariance: readonly (readonly number[])[]; readonly referenceWidthM: number; readonly unitWeight: number | null };
  /** what the model misses beyond the runs' own uncertainties, as shares: by quantity, for flexible wheels apart */
  readonly discrepancy: Readonly<Record<string, number>>;
  /** its parts that runs share: from one prepared bed to the next, and from wheel to wheel; 0 = not told by these runs */
  readonly bedSpread: ByQuantity;
  readonly wheelSpread: ByQuantity;
  /** what was fitted to, point by point */
  readonly points: readonly WheelFitPoint[];
  readonly combinations: readonly { readonly narrowing: number; readonly weights: readonly { readonly symbol: string; readonly weight: number }[] }[];
  /** what each further test would narrow: standard deviation after over now, by parameter */
  readonly nextTests: readonly { readonly name: string; readonly ratios: readonly number[] }[];
  readonly scores: readonly ModelScore[];
  /** how flexible wheels were taken, chosen by the scores: "wider circle" or "flat contact"; null = all wheels are rigid */
  readonly flexibleForm: string | null;
  readonly forecasts: readonly WheelForecast[];
  /** what the runs cover: outside it a forecast is an extrapolation */
  readonly range: Readonly<Record<WheelConditionAxis, readonly [number, number]>>;
  /** the runs one by one: a range may have corners that no run stands in */
  readonly conditions: readonly WheelCondition[];
  /** the wheels as the models saw them */
  readonly wheels: readonly TestedWheel[];
  readonly posterior: {
    readonly sentence: string;
    readonly converged: boolean;
    readonly greatestRhat: number;
    readonly leastEffective: number;
    readonly insideReplicates: number;
    /** a few hundred draws of parameters and ln δ, in the order of `drawColumns`, evenly from all chains; what runs share is in them */
    readonly drawColumns: readonly string[];
    readonly draws: readonly (readonly number[])[];
  };
}
