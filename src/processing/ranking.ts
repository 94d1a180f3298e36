import type { Estimate } from "../core/estimate.ts";

/** All wheels of the day under one question and one condition, in their order. */
export interface Ranking {
  readonly label: string;
  readonly better: "more" | "less";
  readonly condition: string;
  /** false = no condition of the day was repeated, so that preparing and mounting again is in no doubt */
  readonly repeated: boolean;
  /** the best first */
  readonly places: readonly RankedWheel[];
  readonly unranked: readonly { readonly wheel: string; readonly why: string }[];
}

export interface RankedWheel {
  readonly wheel: string;
  readonly estimate: Estimate;
  /** what it lacks to the first, causes that both share by their difference; null for the first */
  readonly behind: Estimate | null;
  /** of a difference so great between like wheels, raised for the number of pairs; null for the first; NaN = not determined */
  readonly probability: number | null;
  /** told apart from the first */
  readonly apart: boolean;
}
