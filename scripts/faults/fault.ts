import type { Estimate } from "../../src/core/estimate.ts";
import type { DayResult } from "../../src/processing/dayResult.ts";
import type { MiniDay } from "./miniDay.ts";
import type { MiniPlanName } from "./miniPlans.ts";

/** One strength of a fault: how large, in the fault's own terms, and in plain words. */
export interface Strength {
  readonly size: number;
  readonly says: string;
}

/** The number that people would read off the day: a measure of one run, or something made from the whole day. */
export type Headline = { readonly run: string; readonly measure: string } | { readonly name: string; readonly of: (day: DayResult) => Estimate | null };

/** One way a day goes wrong that software can see, with what spoils a clean made day that way. */
export interface Fault {
  /** its place in the list of pitfalls */
  readonly number: number;
  readonly title: string;
  /** A: a wrong answer, silently. B: wasted runs. C: delay. */
  readonly severity: "A" | "B" | "C";
  /** codes of findings or issues, any of which counts as caught */
  readonly caughtBy: readonly string[];
  readonly plan: MiniPlanName;
  readonly headline: Headline;
  /** weak, medium, strong */
  readonly strengths: readonly [Strength, Strength, Strength];
  /** changes the day's files in place; the day handed in is a copy */
  readonly inject: (day: MiniDay, size: number) => void;
}
