import type { Estimate } from "./estimate.ts";
import type { Finding } from "./finding.ts";

/** determined: use it. atLimit: a parameter ended on its bound. undetermined: these data cannot say. */
export type Verdict = "determined" | "atLimit" | "undetermined";

export interface FitParameter {
  readonly name: string;
  readonly symbol: string;
  readonly estimate: Estimate;
}

/** One observation of a fit, kept or refused, traceable to its run. */
export interface FitPoint {
  readonly run: string;
  readonly x: number;
  readonly y: number;
  /** standard uncertainty of y, unshared part; null = unweighted */
  readonly yUncertainty: number | null;
  readonly kept: boolean;
  /** why it was refused; "" when kept */
  readonly reason: string;
}

/** A model fitted to observations, and how far to trust it. */
export interface Fit {
  /** model name, e.g. "saturating slip curve" */
  readonly model: string;
  /** the formula as text, with units of its constants */
  readonly formula: string;
  readonly parameters: readonly FitParameter[];
  /** covariance of the parameters in the order and units of `parameters`, unshared and shared parts together */
  readonly covariance: readonly (readonly number[])[];
  readonly points: readonly FitPoint[];
  /** y − model(x) of the kept points, in order */
  readonly residuals: readonly number[];
  readonly degreesOfFreedom: number;
  readonly verdict: Verdict;
  /** one sentence: why this verdict */
  readonly sentence: string;
  readonly findings: readonly Finding[];
}
