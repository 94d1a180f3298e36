/** What the runs of a curve scatter by beyond their own uncertainties, as standard deviations of the ordinate. */
export interface ScatterShare {
  /** from run to run, alike at every slip */
  readonly run: number;
  /** from bed to bed, the same in all runs of a bed; null = not told apart from runs */
  readonly bed: number | null;
  /** what grows with slip, at the greatest slip: by bed where beds are told apart, else by run */
  readonly tilt: number;
  /** named beds, and runs on them */
  readonly beds: number;
  readonly runs: number;
  /** in words */
  readonly sentence: string;
}
