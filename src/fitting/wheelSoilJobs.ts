import { heldOut, heldOutGroups } from "./heldOut.ts";
import type { HeldOutScore } from "./heldOut.ts";
import type { WheelObservation } from "./wheelObservations.ts";
import { posteriorChain } from "./wheelSoilPosterior.ts";
import type { PosteriorChain } from "./wheelSoilPosterior.ts";
import type { Belief, WheelModelToFit, WheelSoilFit } from "./wheelSoilFit.ts";
import { drivenPulls, plainCurvesToFit, resistiveForceToFit, stressIntegralsToFit } from "./wheelSoilStart.ts";

export const wheelModels = ["stress integrals", "resistive forces", "plain curve"] as const;
export type WheelModelName = (typeof wheelModels)[number];

/** A piece of work that another thread can do: plain data only. */
export type WheelSoilJob =
  | { readonly kind: "heldOut"; readonly model: WheelModelName; readonly by: keyof typeof heldOutGroups; readonly observations: readonly WheelObservation[]; readonly beliefs: readonly Belief[] }
  | { readonly kind: "chain"; readonly seed: number; readonly steps: number; readonly fit: WheelSoilFit; readonly observations: readonly WheelObservation[]; readonly beliefs: readonly Belief[] };

export type WheelSoilAnswer = { readonly kind: "heldOut"; readonly score: HeldOutScore } | { readonly kind: "chain"; readonly chain: PosteriorChain };

/** Does the jobs, in any order and on any threads, and gives the answers in the jobs' order. */
export type WheelSoilHands = (jobs: readonly WheelSoilJob[]) => Promise<readonly WheelSoilAnswer[]>;

/**
 * Does one job.
 *
 * @param job   a held-out comparison of a model, or one chain of the posterior
 * @returns     its answer; the same job gives the same answer on every thread
 * @source      `heldOut`, `posteriorChain`
 * @checked     tests/fitting/wheelSoilResult.test.ts
 */
export function doWheelSoilJob(job: WheelSoilJob): WheelSoilAnswer {
  if (job.kind === "chain") return { kind: "chain", chain: posteriorChain(job.fit, stressIntegralsToFit(job.observations, job.beliefs), job.seed, job.steps) };
  const { observations, toFit } = modelToFit(job.model, job.observations, job.beliefs);
  return { kind: "heldOut", score: heldOut(observations, toFit, heldOutGroups[job.by]) };
}

/** A model by its name, with the runs it can be fitted to. */
function modelToFit(name: WheelModelName, all: readonly WheelObservation[], beliefs: readonly Belief[]): { readonly observations: readonly WheelObservation[]; readonly toFit: WheelModelToFit } {
  if (name === "plain curve") {
    const observations = drivenPulls(all);
    return { observations, toFit: plainCurvesToFit(observations) };
  }
  if (name === "resistive forces") return { observations: all.filter(({ slip }) => slip.value < 1), toFit: resistiveForceToFit };
  const toFit = stressIntegralsToFit(all, beliefs);
  // one start: the others were tried on the whole of the runs
  return { observations: all, toFit: { ...toFit, starts: toFit.starts.slice(0, 1) } };
}
