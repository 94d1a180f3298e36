/** A stretch of a run on the run's common clock, and why it was cut there. Half-open: fromS ≤ t < toS. */
export interface Segment {
  readonly kind: "preZero" | "postZero" | "steady" | "static" | "freeFall" | "contact" | "flight" | "decay" | "loading" | "unloading" | "drive" | "run";
  readonly fromS: number;
  readonly toS: number;
  readonly reason: string;
}
