import { heldOut, heldOutGroups } from "./heldOut.ts";
import type { HeldOutScore } from "./heldOut.ts";
import type { WheelObservation } from "./wheelObservations.ts";
import { posteriorChain } from "./wheelSoilPosterior.ts";
import type { PosteriorChain } from "./wheelSoilPosterior.ts";
import { wheelSoilFit } from "./wheelSoilFit.ts";
import type { Belief, WheelModelToFit, WheelSoilFit } from "./wheelSoilFit.ts";
import type { FlexibleForm } from "./wheelSoilModel.ts";
import { drivenPulls, plainCurvesToFit, resistiveForceToFit, stressIntegralsToFit } from "./wheelSoilStart.ts";

/**
 * The forms in which flexible wheels are tried.
 *
 * @source    `FlexibleForm`
 * @checked   tests/fitting/wheelSoilResult.test.ts
 */
export const stressForms: readonly FlexibleForm[] = ["wider circle", "flat contact"];
/**
 * The models held against each other.
 *
 * @source    common practice
 * @checked   tests/fitting/wheelSoilResult.test.ts
 */
export const wheelModels = ["stress integrals, wider circle", "stress integrals, flat contact", "resistive forces", "plain curve"] as const;
/** One of them. */
export type WheelModelName = (typeof wheelModels)[number];

/** A piece of work that another thread can do: plain data only. */
export type WheelSoilJob =
  | { readonly kind: "fit"; readonly form: FlexibleForm; readonly observations: readonly WheelObservation[]; readonly beliefs: readonly Belief[] }
  /** start: of the stress integrals, from their fit to all runs; null for the other models */
  | { readonly kind: "heldOut"; readonly model: WheelModelName; readonly by: keyof typeof heldOutGroups; readonly start: readonly number[] | null; readonly observations: readonly WheelObservation[]; readonly beliefs: readonly Belief[] }
  | { readonly kind: "chain"; readonly form: FlexibleForm; readonly seed: number; readonly steps: number; readonly fit: WheelSoilFit; readonly observations: readonly WheelObservation[]; readonly beliefs: readonly Belief[] };

/** What a job gives back. */
export type WheelSoilAnswer = { readonly kind: "fit"; readonly fit: WheelSoilFit } | { readonly kind: "heldOut"; readonly score: HeldOutScore } | { readonly kind: "chain"; readonly chain: PosteriorChain };

/** Does the jobs, in any order and on any threads, and gives the answers in the jobs' order. */
export type WheelSoilHands = (jobs: readonly WheelSoilJob[]) => Promise<readonly WheelSoilAnswer[]>;

/**
 * Does one job.
 *
 * @param job   a fit, a held-out comparison of a model, or one chain of the posterior
 * @returns     its answer; the same job gives the same answer on every thread
 * @source      `heldOut`, `posteriorChain`
 * @checked     tests/fitting/wheelSoilResult.test.ts
 */
export function doWheelSoilJob(job: WheelSoilJob): WheelSoilAnswer {
  if (job.kind === "fit") return { kind: "fit", fit: wheelSoilFit(job.observations, startsFor(job.form, stressIntegralsToFit(job.observations, job.form, job.beliefs))) };
  if (job.kind === "chain") return { kind: "chain", chain: posteriorChain(job.fit, stressIntegralsToFit(job.observations, job.form, job.beliefs), job.seed, job.steps) };
  const { observations, toFit } = modelToFit(job);
  return { kind: "heldOut", score: heldOut(observations, toFit, heldOutGroups[job.by]) };
}

/** Flat contact takes longest by far: two starts must do. */
function startsFor(form: FlexibleForm, toFit: WheelModelToFit): WheelModelToFit {
  return form === "flat contact" ? { ...toFit, starts: toFit.starts.slice(0, 2) } : toFit;
}

/** A model by its name, with the runs it can be fitted to. */
function modelToFit({ model, start, observations, beliefs }: Extract<WheelSoilJob, { kind: "heldOut" }>): { readonly observations: readonly WheelObservation[]; readonly toFit: WheelModelToFit } {
  if (model === "plain curve") {
    const pulls = drivenPulls(observations);
    return { observations: pulls, toFit: plainCurvesToFit(pulls) };
  }
  if (model === "resistive forces") return { observations: observations.filter(({ slip }) => slip.value < 1), toFit: resistiveForceToFit };
  const toFit = stressIntegralsToFit(observations, model === "stress integrals, flat contact" ? "flat contact" : "wider circle", beliefs);
  return { observations, toFit: start === null ? toFit : { ...toFit, starts: [start] } };
}
