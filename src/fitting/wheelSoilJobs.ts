import { heldOut, heldOutGroups } from "./heldOut.ts";
import type { HeldOutScore } from "./heldOut.ts";
import { profileInterval } from "./profileInterval.ts";
import type { ProfileInterval } from "./profileInterval.ts";
import { wheelBootstrap } from "./wheelBootstrap.ts";
import type { WheelObservation } from "./wheelObservations.ts";
import { posteriorChain } from "./wheelSoilChain.ts";
import type { PosteriorChain } from "./wheelSoilChain.ts";
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

/** What all jobs of a day have in common. */
export interface WheelSoilBasis {
  readonly observations: readonly WheelObservation[];
  readonly beliefs: readonly Belief[];
  readonly robust: boolean;
}

/** A piece of work that another thread can do: plain data only. */
export type WheelSoilJob = { readonly basis: WheelSoilBasis } & (
  | { readonly kind: "fit"; readonly form: FlexibleForm }
  /** start: of the stress integrals, from their fit to all runs; null for the other models */
  | { readonly kind: "heldOut"; readonly model: WheelModelName; readonly by: keyof typeof heldOutGroups; readonly start: readonly number[] | null }
  | { readonly kind: "chain"; readonly form: FlexibleForm; readonly fit: WheelSoilFit; readonly seed: number; readonly steps: number }
  /** parameter: its place among `soilParameters` */
  | { readonly kind: "profile"; readonly form: FlexibleForm; readonly fit: WheelSoilFit; readonly parameter: number }
  | { readonly kind: "bootstrap"; readonly form: FlexibleForm; readonly fit: WheelSoilFit; readonly seeds: readonly number[] }
);

/** What a job gives back. */
export type WheelSoilAnswer = { readonly kind: "fit"; readonly fit: WheelSoilFit } | { readonly kind: "heldOut"; readonly score: HeldOutScore } | { readonly kind: "chain"; readonly chain: PosteriorChain } | { readonly kind: "profile"; readonly interval: ProfileInterval } | { readonly kind: "bootstrap"; readonly replicates: readonly (readonly number[])[] };

/** Does the jobs, in any order and on any threads, and gives the answers in the jobs' order. */
export type WheelSoilHands = (jobs: readonly WheelSoilJob[]) => Promise<readonly WheelSoilAnswer[]>;

/**
 * Does one job.
 *
 * @param job   a fit, a held-out comparison of a model, one chain of the posterior, one profile, or a lot of refits
 * @returns     its answer; the same job gives the same answer on every thread
 * @source      `heldOut`, `posteriorChain`
 * @checked     tests/fitting/wheelSoilResult.test.ts
 */
export function doWheelSoilJob(job: WheelSoilJob): WheelSoilAnswer {
  if (job.kind === "heldOut") {
    const { observations, toFit } = modelToFit(job);
    return { kind: "heldOut", score: heldOut(observations, toFit, heldOutGroups[job.by]) };
  }
  const toFit = integralsToFit(job.basis, job.form);
  if (job.kind === "fit") return { kind: "fit", fit: wheelSoilFit(job.basis.observations, startsFor(job.form, toFit)) };
  if (job.kind === "profile") return { kind: "profile", interval: profileInterval(job.fit, toFit, job.parameter) };
  if (job.kind === "bootstrap") return { kind: "bootstrap", replicates: wheelBootstrap(job.fit, toFit, job.seeds) };
  return { kind: "chain", chain: posteriorChain(job.fit, toFit, job.seed, job.steps) };
}

function integralsToFit({ observations, beliefs, robust }: WheelSoilBasis, form: FlexibleForm): WheelModelToFit {
  return { ...stressIntegralsToFit(observations, form, beliefs), robust };
}

/** Flat contact takes longest by far: two starts must do. */
function startsFor(form: FlexibleForm, toFit: WheelModelToFit): WheelModelToFit {
  return form === "flat contact" ? { ...toFit, starts: toFit.starts.slice(0, 2) } : toFit;
}

/** A model by its name, with the runs it can be fitted to. */
function modelToFit({ model, start, basis }: Extract<WheelSoilJob, { kind: "heldOut" }>): { readonly observations: readonly WheelObservation[]; readonly toFit: WheelModelToFit } {
  const { observations, robust } = basis;
  if (model === "plain curve") {
    const pulls = drivenPulls(observations);
    return { observations: pulls, toFit: { ...plainCurvesToFit(pulls), robust } };
  }
  if (model === "resistive forces") {
    const within = observations.filter(({ slip }) => slip.value < 1);
    const all = wheelSoilFit(within, { ...resistiveForceToFit, robust });
    return { observations: within, toFit: { ...resistiveForceToFit, robust, starts: all.converged ? [all.fitted] : resistiveForceToFit.starts } };
  }
  const toFit = integralsToFit(basis, model === "stress integrals, flat contact" ? "flat contact" : "wider circle");
  return { observations, toFit: start === null ? toFit : { ...toFit, starts: [start] } };
}
