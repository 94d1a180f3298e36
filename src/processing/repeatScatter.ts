/** Scatter between repeats of a condition. */
export interface RepeatScatter {
  readonly sd: number;
  readonly degreesOfFreedom: number;
}
