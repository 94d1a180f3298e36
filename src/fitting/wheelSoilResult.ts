import type { FitPoint } from "../core/fit.ts";
import { mean } from "../numerics/statistics.ts";
import type { Band } from "../processing/dayResult.ts";
import type { ModelScore, WheelCondition, WheelConditionAxis, WheelFitPoint, WheelForecast, WheelQuantityName, WheelSoilResult } from "../processing/wheelSoilResult.ts";
import type { HeldOutPoint, HeldOutScore } from "./heldOut.ts";
import { identifiability } from "./identifiability.ts";
import { expectedNarrowing } from "./nextTests.ts";
import type { ProfileInterval } from "./profileInterval.ts";
import { separatingTests } from "./separatingTests.ts";
import type { ReasonedBelief } from "./soilBeliefs.ts";
import { missKey } from "./wheelMisfit.ts";
import { quantities } from "./wheelObservations.ts";
import type { WheelObservation } from "./wheelObservations.ts";
import { stressForms, wheelModels } from "./wheelSoilJobs.ts";
import type { WheelModelName, WheelSoilHands, WheelSoilJob } from "./wheelSoilJobs.ts";
import type { FlexibleForm } from "./wheelSoilModel.ts";
import { wheelSoilConstants } from "./wheelSoilConstants.ts";
import { soilParameters } from "./wheelSoilParameters.ts";
import { joinChains, thinnedDraws } from "./wheelSoilPosterior.ts";
import { predictShare } from "./wheelSoilPrediction.ts";
import type { WheelModelToFit, WheelSoilFit } from "./wheelSoilFit.ts";
import { groundUnder, stressIntegralsToFit } from "./wheelSoilStart.ts";

/** What the fit of the wheel runs needs beside them. */
export interface WheelSoilOptions {
  readonly beliefs: readonly ReasonedBelief[];
  readonly transfer: { readonly plate: number | null; readonly shearDeg: number | null };
  readonly hands: WheelSoilHands;
  /** draws of each of the four chains that are kept */
  readonly steps: number;
  readonly robust: boolean;
  /** refits to drawn beds or runs */
  readonly replicates: number;
}

const chains = 4;
const keptDraws = 400;
const bandPoints = 25;
/** constants whose profile is made, by their place among `soilParameters` */
const profiled = ["pressureAt10mm", "sinkageExponent", "cohesion", "frictionAngle", "shearModulus", "exponentBySlip"].map((name) => soilParameters.findIndex((parameter) => parameter.name === name));
/** refits that one job does */
const lot = 10;
/** a point that counts less than this is told with the reason */
const told = 0.5;
const fewestRuns = 4;
const twoSided95 = 1.959963984540054;

/**
 * The soil as the day's wheels felt it: constants with who carries them, models held against conditions they had not seen,
 * forecasts with bands, and what to test next.
 *
 * @param observations   the usable runs
 * @param refused        the others, with reasons
 * @param options        beliefs, transfer doubts, hands that do the long jobs, length of the chains
 * @returns              the result; undetermined with a sentence when there are fewer than four runs or the fit found no balance
 * @source               common practice; the parts name theirs
 * @checked              tests/fitting/wheelSoilResult.test.ts
 */
export async function wheelSoilFrom(observations: readonly WheelObservation[], refused: readonly FitPoint[], options: WheelSoilOptions): Promise<WheelSoilResult> {
  if (observations.length < fewestRuns) return undecided(observations, refused, `${observations.length} usable traction ${observations.length === 1 ? "run" : "runs"}; at least ${fewestRuns} are needed.`);
  const { beliefs, hands, steps, robust, replicates } = options;
  const basis = { observations, beliefs, robust };
  const flexible = observations.some(({ wheel }) => wheel.curve !== null);
  // the two forms differ for flexible wheels only
  const forms = flexible ? stressForms : stressForms.slice(0, 1);
  const fits = (await hands(forms.map((form): WheelSoilJob => ({ kind: "fit", form, basis })))).flatMap((answer) => (answer.kind === "fit" ? [answer.fit] : []));
  const models = wheelModels.filter((model) => flexible || model !== "stress integrals, flat contact");
  const startOf = (model: WheelModelName): readonly number[] | null => fits[forms.findIndex((form) => model === `stress integrals, ${form}`)]?.fitted ?? null;
  // flat contact takes longest by far: it is held out where the choice of form is made, by load
  const ways = (model: WheelModelName) => (model === "stress integrals, flat contact" ? (["load"] as const) : (["load", "wheel", "slip"] as const));
  const heldOutJobs = models.flatMap((model) => ways(model).map((by): WheelSoilJob => ({ kind: "heldOut", model, by, start: startOf(model), basis })));
  const unseen = (await hands(heldOutJobs)).flatMap((answer, i) => {
    const job = heldOutJobs[i] as WheelSoilJob;
    return answer.kind === "heldOut" && job.kind === "heldOut" ? [{ model: job.model, by: job.by, score: answer.score }] : [];
  });
  const scores = unseen.map(({ model, by, score }) => toScore(model, by, score));
  const form = bestForm(forms, scores);
  const toFit = { ...stressIntegralsToFit(observations, form, beliefs), robust };
  const fit = fits[forms.indexOf(form)] as WheelSoilFit;
  if (!fit.converged) return undecided(observations, refused, `The fit did not settle: ${fit.reason}.`);
  const at = { form, fit, basis };
  const answers = await hands([
    ...Array.from({ length: chains }, (_, i): WheelSoilJob => ({ kind: "chain", seed: i + 1, steps, ...at })),
    ...profiled.map((parameter): WheelSoilJob => ({ kind: "profile", parameter, ...at })),
    ...Array.from({ length: Math.ceil(replicates / lot) }, (_, i): WheelSoilJob => ({ kind: "bootstrap", seeds: Array.from({ length: Math.min(lot, replicates - i * lot) }, (_s, k) => i * lot + k + 1), ...at })),
  ]);
  const posterior = joinChains(fit, toFit, answers.flatMap((answer) => (answer.kind === "chain" ? [answer.chain] : [])));
  const profiles = answers.flatMap((answer) => (answer.kind === "profile" ? [answer.interval] : []));

  const conditions = observations.map(conditionOf);
  const known = identifiability(soilParameters.map(({ symbol }) => symbol), beliefs, fit.covariance);
  return {
    verdict: "determined",
    sentence: `${observations.length} runs of ${new Set(observations.map(({ wheel }) => wheel.id)).size} wheels at ${new Set(observations.map(({ setLoadN, loadN }) => setLoadN ?? Math.round(loadN))).size} loads. ${known.sentence}`,
    runs: observations.map(({ run }) => run),
    refused,
    parameters: wheelSoilConstants(fit, beliefs, known, new Map(profiled.map((parameter, i) => [parameter, profiles[i] as ProfileInterval])), answers.flatMap((answer) => (answer.kind === "bootstrap" ? answer.replicates : []))),
    fitted: { values: fit.fitted, covariance: fit.covariance, ...groundUnder(observations) },
    discrepancy: fit.discrepancy,
    bedSpread: fit.misfit.beds,
    wheelSpread: fit.misfit.wheels,
    points: pointsOf(fit, unseen.find(({ model, by }) => model === `stress integrals, ${form}` && by === "load")?.score.points ?? []),
    combinations: known.combinations,
    nextTests: expectedNarrowing(beliefs, fit.covariance, separatingTests(observations, fit, toFit, options.transfer)),
    scores,
    flexibleForm: flexible ? form : null,
    forecasts: forecastsOf(observations, fit, toFit),
    range: rangeOf(conditions),
    conditions,
    wheels: [...new Map(observations.map(({ wheel }) => [wheel.id, wheel])).values()],
    posterior: {
      sentence: posterior.sentence,
      converged: posterior.converged,
      greatestRhat: Math.max(...posterior.rhat),
      leastEffective: Math.min(...posterior.effective),
      insideReplicates: posterior.insideReplicates,
      drawColumns: [...soilParameters.map(({ name }) => name), ...Object.keys(fit.discrepancy)],
      draws: thinnedDraws(fit, toFit, posterior.chains, keptDraws),
    },
  };
}

/** The form of flexible wheels that foretold unseen loads better, over all quantities. */
function bestForm(forms: readonly FlexibleForm[], scores: readonly ModelScore[]): FlexibleForm {
  const sum = (form: FlexibleForm): number => scores.filter(({ model, heldOut }) => model === `stress integrals, ${form}` && heldOut === "load").reduce((total, { logScore }) => total + quantities.reduce((all, quantity) => all + (Number.isFinite(logScore[quantity]) ? logScore[quantity] : 0), 0), 0);
  return forms.reduce((best, form) => (sum(form) > sum(best) ? form : best));
}

/** Every point with its weight, why it counts less where it does, and what was foretold of it without its load. */
function pointsOf(fit: WheelSoilFit, foretold: readonly HeldOutPoint[]): WheelFitPoint[] {
  return fit.data.map(({ observation: { run, wheel }, quantity, measured, predicted, ownUncertainty, weight }) => {
    const away = Math.abs(measured - predicted) / Math.hypot(ownUncertainty, fit.discrepancy[missKey(quantity, wheel)] as number);
    const found = foretold.find((point) => point.run === run && point.quantity === quantity);
    return { run, quantity, measured, fitted: predicted, weight, unseen: found === undefined ? null : { foretold: found.predicted, uncertainty: found.uncertainty }, reason: weight < told ? `${away.toFixed(1)} standard uncertainties from the model: counts as ${weight.toFixed(2)} of a point` : "" };
  });
}

function toScore(model: WheelModelName, heldOut: string, score: HeldOutScore): ModelScore {
  return { model, heldOut, points: score.points.length, error: score.error, logScore: score.logScore, inside: score.inside, insideBy: score.insideBy, failed: score.failed.map(({ group, reason }) => `${group}: ${reason}`) };
}

function forecastsOf(observations: readonly WheelObservation[], fit: WheelSoilFit, toFit: WheelModelToFit): WheelForecast[] {
  const groups = new Map<string, WheelObservation[]>();
  for (const observation of observations) {
    const key = `${observation.wheel.id} ${observation.setLoadN ?? Math.round(observation.loadN)}`;
    groups.set(key, [...(groups.get(key) ?? []), observation]);
  }
  return [...groups.values()].map((group): WheelForecast => {
    const { wheel, setLoadN } = group[0] as WheelObservation;
    const loadN = setLoadN ?? mean(group.map((observation) => observation.loadN));
    const slips = group.map(({ slip }) => slip.value);
    const [from, to] = [Math.min(...slips), Math.max(...slips)];
    const x = Array.from({ length: bandPoints }, (_, i) => from + ((to - from) * i) / (bandPoints - 1));
    const points = (quantity: WheelQuantityName) => fit.data.filter((datum) => datum.quantity === quantity && group.some(({ run }) => run === datum.observation.run)).map((datum) => ({ run: datum.observation.run, slip: datum.observation.slip.value, measured: datum.measured, uncertainty: datum.ownUncertainty }));
    const band = (quantity: WheelQuantityName): Band => {
      const at = x.map((slip) => predictShare(fit, toFit, quantity, wheel, slip, loadN));
      const edge = (side: number): number[] => at.map((share) => ("reason" in share ? Number.NaN : share.value + side * twoSided95 * share.uncertainty));
      return { x, value: edge(0), low: edge(-1), high: edge(1) };
    };
    return { wheel: wheel.id, loadN, points: { pull: points("pull"), torque: points("torque"), sinkage: points("sinkage") }, bands: { pull: band("pull"), torque: band("torque"), sinkage: band("sinkage") } };
  });
}

function conditionOf({ run, wheel, loadN, slip }: WheelObservation): WheelCondition {
  const tipM = wheel.rimM + wheel.lugHeightM;
  return { run, flexible: wheel.curve !== null, loadN, slip: slip.value, diameterM: 2 * tipM, widthM: wheel.widthM, pressurePa: loadN / (tipM * wheel.widthM) };
}

function rangeOf(conditions: readonly WheelCondition[]): WheelSoilResult["range"] {
  const span = (axis: WheelConditionAxis): readonly [number, number] => {
    const values = conditions.map((condition) => condition[axis]);
    return conditions.length === 0 ? [Number.NaN, Number.NaN] : [Math.min(...values), Math.max(...values)];
  };
  return { loadN: span("loadN"), slip: span("slip"), diameterM: span("diameterM"), widthM: span("widthM"), pressurePa: span("pressurePa") };
}

function undecided(observations: readonly WheelObservation[], refused: readonly FitPoint[], sentence: string): WheelSoilResult {
  const conditions = observations.map(conditionOf);
  const nothing = { pull: 0, torque: 0, sinkage: 0 };
  return {
    verdict: "undetermined", sentence, runs: observations.map(({ run }) => run), refused, parameters: [], fitted: { values: [], covariance: [], referenceWidthM: Number.NaN, unitWeight: null }, discrepancy: {}, bedSpread: nothing, wheelSpread: nothing, points: [], combinations: [], nextTests: [], scores: [], forecasts: [],
    flexibleForm: null,
    range: rangeOf(conditions), conditions, wheels: [],
    posterior: { sentence: "No posterior was drawn.", converged: false, greatestRhat: Number.NaN, leastEffective: 0, insideReplicates: Number.NaN, drawColumns: [], draws: [] },
  };
}
