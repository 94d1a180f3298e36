/** A certified nonlinear regression. */
export interface CurveReference {
  readonly source: string;
  readonly model: (x: number, b: readonly number[]) => number;
  /** far and near start values */
  readonly starts: readonly (readonly number[])[];
  readonly parameters: readonly number[];
  readonly standardDeviations: readonly number[];
  readonly residualSumOfSquares: number;
  readonly residualSd: number;
  readonly x: readonly number[];
  readonly y: readonly number[];
}
