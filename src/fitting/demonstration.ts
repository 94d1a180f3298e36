import type { Rig } from "../campaign/rigSchema.ts";
import { demonstratedReliability, missionsNeeded } from "../models/zeroFailure.ts";
import type { Demonstration, WheelLife } from "../processing/enduranceResult.ts";

/** Numbers of new wheels a plan is drawn up for. */
const plans = [1, 2, 3, 4, 6, 8, 12];

/**
 * What the wheels have demonstrated so far without a failure, and what a claim still needs.
 *
 *   R = (1 − C)^(1/Σ Lᵢ^β)        L = (ln(1 − C)/(n ln R))^(1/β)
 *
 * L: distance in missions, β: the shape that rig.yaml assumes, C and R: its claim. Only a lower limit is learned, one
 * failure ends the demonstration, and all of it hangs on the assumed shape.
 *
 * @param lives      one wheel each
 * @param endurance  the rig's block: mission distance, shape, claim
 * @returns          the limit, the plans, and a sentence
 * @source           success-run formula of reliability textbooks, from memory
 * @checked          tests/fitting/demonstration.test.ts
 */
export function demonstration(lives: readonly WheelLife[], endurance: Rig["endurance"]): Demonstration {
  const { missionDistance, weibullShape, claim } = endurance ?? {};
  const missing = [...(missionDistance === undefined ? ["missionDistance"] : []), ...(weibullShape === undefined ? ["weibullShape"] : []), ...(claim === undefined ? ["claim"] : [])];
  if (missionDistance === undefined || weibullShape === undefined || claim === undefined) return { verdict: "undetermined", sentence: `rig.yaml states no ${missing.join(", no ")} under endurance.`, reliability: null, needed: [] };
  const needed = plans.map((wheels) => {
    const missions = missionsNeeded(claim, wheels, weibullShape);
    return { wheels, missions, distanceM: missions * missionDistance };
  });
  const failed = lives.filter((life) => life.failed);
  const run = lives.filter((life) => life.distanceM > 0);
  const claimed = `${percent(claim.reliability)} of wheels outlive one mission, with ${percent(claim.confidence)} confidence`;
  if (failed.length > 0) return { verdict: "undetermined", sentence: `${failed.map((life) => life.wheel).join(", ")} failed: a demonstration of this kind holds without a failure only. The plans below are for new wheels.`, reliability: null, needed };
  if (run.length === 0) return { verdict: "undetermined", sentence: "No wheel has run yet.", reliability: null, needed };
  const reliability = demonstratedReliability(run.map((life) => life.distanceM / missionDistance), weibullShape, claim.confidence);
  const shown = reliability >= claim.reliability;
  return {
    verdict: "determined",
    sentence: `${run.length} ${run.length === 1 ? "wheel" : "wheels"} without a failure: at least ${percent(reliability)} of wheels outlive one mission, with ${percent(claim.confidence)} confidence, if lives have the shape ${weibullShape}. The claim that ${claimed} is ${shown ? "demonstrated" : "not demonstrated yet"}.`,
    reliability,
    needed,
  };
}

const percent = (share: number): string => `${Number((100 * share).toPrecision(3))} %`;
