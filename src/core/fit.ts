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

/** Causes of the part of a fit's covariance that is its runs' own. */
export interface OwnCauses {
  readonly causes: readonly string[];
  /** variance of each; 0 where the residuals show nothing of it */
  readonly sizes: readonly number[];
  /** covariance of the parameters, one a cause, where its variance is one */
  readonly units: readonly (readonly (readonly number[])[])[];
  /** covariance of the sizes: what the residuals know of them */
  readonly doubt: readonly (readonly number[])[];
  /** covariance of the parameters on top, because weights rest on estimated sizes */
  readonly lost: readonly (readonly number[])[];
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
  /** where the unshared part has several causes; left out: it has one, which stands in the parameters' budgets */
  readonly own?: OwnCauses;
  readonly points: readonly FitPoint[];
  /** y − model(x) of the kept points, in order */
  readonly residuals: readonly number[];
  readonly degreesOfFreedom: number;
  readonly verdict: Verdict;
  /** one sentence: why this verdict */
  readonly sentence: string;
  readonly findings: readonly Finding[];
}
