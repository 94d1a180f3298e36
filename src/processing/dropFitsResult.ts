import type { Estimate } from "../core/estimate.ts";
import type { Fit } from "../core/fit.ts";
import type { Band } from "./dayResult.ts";

/** A drop that was not made, as the fitted contact of its wheel gives it. */
export interface PredictedDrop {
  readonly heightM: number;
  readonly gravity: number;
  /** √(2 g h), free fall */
  readonly impactSpeedMps: number;
  /** whether the contact speed lies outside those measured */
  readonly extrapolated: boolean;
  readonly cautions: readonly string[];
  readonly acceleration: Estimate<"m/s2">;
  /** null where what falls is not described */
  readonly force: Estimate<"N"> | null;
  readonly compression: Estimate<"m">;
  readonly duration: Estimate<"s">;
  readonly restitution: Estimate<"1">;
}

/** What the drops of one wheel say together. */
export interface DropFits {
  readonly wheel: string;
  /** restitution against impact speed */
  readonly restitution: Fit;
  readonly restitutionBand: Band | null;
  /** contact model; its points are measured over fitted */
  readonly contact: Fit;
  /** scatter between drops and misfit of the contact model, as a share; NaN when it is not determined */
  readonly misfit: number;
  /** drops of heights that were left out of the fit, against its prediction: measured over predicted, less one */
  readonly heldOut: readonly { readonly heightM: number; readonly run: string; readonly quantity: string; readonly error: number; readonly inside: boolean }[];
  readonly predicted: readonly PredictedDrop[];
}
