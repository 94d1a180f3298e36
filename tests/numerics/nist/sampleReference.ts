/** Certified summary statistics. */
export interface SampleReference {
  readonly source: string;
  readonly mean: number;
  readonly standardDeviation: number;
  /** autocorrelation of successive samples */
  readonly lag1: number;
  readonly samples: readonly number[];
}
