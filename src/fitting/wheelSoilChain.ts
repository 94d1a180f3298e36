import { cholesky } from "../numerics/linearAlgebra.ts";
import { covarianceOf, isTaken, metropolisWalk, mirrored, tunedSize } from "../numerics/metropolis.ts";
import type { WalkOptions, WalkPlace } from "../numerics/metropolis.ts";
import type { GroupedNormal } from "../numerics/groupedNormal.ts";
import { halfSquareForm, quadraticCount, quadraticLikeness, quadraticTerms } from "../numerics/quadraticLikeness.ts";
import { rememberLast } from "../numerics/rememberLast.ts";
import { seededRandom } from "../numerics/random.ts";
import type { Random } from "../numerics/random.ts";
import { misfitBlocks } from "./misfitBlocks.ts";
import { carried, straightBeliefs } from "./straightBeliefs.ts";
import type { StraightBelief } from "./straightBeliefs.ts";
import type { MisfitBlock } from "./misfitBlocks.ts";
import { shareOf } from "./wheelSoilModel.ts";
import type { Belief, WheelModelToFit, WheelSoilFit } from "./wheelSoilFit.ts";

/** One chain of the posterior: parameters and the logarithms of what the model misses, row by row. */
export interface PosteriorChain {
  /** parameters in their order, then ln of the whole misfit by kind, in the order of the fit's discrepancy */
  readonly draws: readonly (readonly number[])[];
  /** share of the steps by the likeness that the true model took */
  readonly acceptance: number;
}

/** steps through the likeness for each question to the true model: several times what makes a walk in twelve dimensions forget */
const likenessSteps = 200;
/** steps of each quantity's misfit in between */
const stepsOfMisfit = 16;
/** places of the likeness for each of its terms, in each lesson */
const placesPerTerm = 2;
const lessons = 3;
const lessonSteps = 60;
/** lessons walk through the likeness to this power less: further into its tails, where it must be right too, or draws stay there too long */
const heat = 2.2;
/** places a dimension, below which a walk has no shape to teach */
const leastLesson = 10;
/** the likeness is walked on this much blunter: where it holds a corner for too unlikely, a chain does not stay there */
const blunt = 1.2;
/** the fitted covariance is stretched by this where a chain starts and where it first learns, so that chains begin apart */
const spreadAtStart = 1.3;
/** steps of the warm-up, of the steps kept */
const warmUpShare = 0.25;

/**
 * One Markov chain through the posterior of a wheel–soil fit.
 *
 *   ln p = Σ_q −½ [rᵀ V⁻¹ r + ln |V|] − Σ ½ ((pⱼ − mⱼ)/sⱼ)² + beliefs of the misfit        inside the bounds; V: `misfitBlocks`
 *
 * In turn: the parameters with the misfit as it is, the misfit with the residuals as they are, both at once by `carried`:
 * few wheels and beds leave the misfit open, and the parameters lie wider and elsewhere with each. The parameters walk through a
 * likeness, quadratics in the parameters in place of each predicted share, and the true model is asked once for the whole
 * walk: p' is taken with min(1, p(x') q(x)/(p(x) q(x'))), so the draws are of p however good the likeness q is. The
 * likeness learns where its own walks lead, before the first draw that is kept. After each walk one plain step through the
 * true model: a place that the likeness holds for far too unlikely would else not be left for hundreds of walks.
 *
 * What runs share (calibrations) is not sampled: `thinnedDraws` and the fit's forecasts add it.
 *
 * @param fit      the converged fit: start and shape of the steps
 * @param toFit    its model
 * @param seed     each chain its own
 * @param steps    kept
 * @returns        the chain
 * @throws         RangeError if the fit has no covariance, or the model no answer near it
 * @source         A. Gelman et al., Bayesian Data Analysis, 3rd ed., ch. 11–12; likeness: J. S. Liu, Monte Carlo Strategies in Scientific Computing, surrogate transition method; from memory
 * @checked        tests/fitting/wheelSoilPosterior.test.ts
 */
export function posteriorChain(fit: WheelSoilFit, toFit: WheelModelToFit, seed: number, steps: number): PosteriorChain {
  const random = seededRandom(seed);
  const residualsAt = rememberLast(residualsOf(fit, toFit.model));
  const prior = priorOf(toFit);
  const fold = (x: number[]): number[] => x.map((value, j) => mirrored(value, toFit.lower[j] as number, toFit.upper[j] as number));
  const factor = cholesky(fit.ownCovariance);
  if (factor === null) throw new RangeError("posteriorChain: expected a fit with a positive definite covariance");
  const blocks = misfitBlocks(fit);
  let logs = blocks.map(({ start }) => start);
  let normals = blocks.map(({ normal }, b) => normal(logs[b] as readonly number[]));

  let at = startNear(fit.fitted, factor, fold, residualsAt, random);
  const likeness = learnt(at, { fit, factor, fold, residualsAt, prior, blocks, normals, random });
  let { size } = likeness;
  let misfitSteps = blocks.map(({ start, spread }): Steps => ({ factor: diagonal(spread), size: 2.38 / Math.sqrt(start.length) }));
  const straightAt = straightBeliefs(fit, blocks, toFit.beliefs);
  let carrySizes = misfitSteps.map(({ size: own }) => own);
  const visited: (readonly number[])[][] = [];

  const inside = (x: readonly number[]): boolean => x.every((value, j) => value >= (toFit.lower[j] as number) && value <= (toFit.upper[j] as number));
  const carriedPlace = (from: Place, here: StraightBelief | null, there: StraightBelief | null): { readonly place: Place; readonly logStretch: number } | null => {
    if (here === null || there === null) return null;
    const { x, logStretch } = carried(from.x, here, there);
    const residuals = inside(x) ? residualsAt(x) : null;
    return residuals === null ? null : { place: { x, residuals }, logStretch };
  };

  const warmUp = Math.ceil(warmUpShare * steps);
  const lessonOfMisfit = Math.floor(warmUp / 2);
  const draws: number[][] = [];
  let taken = 0;
  for (let step = 0; step < warmUp + steps; step++) {
    const tuning = step < warmUp;
    const gain = 1 / (1 + step / 10) ** 0.6;
    const sharp = likeness.densityWith(normals);
    const q = (x: readonly number[]): number => sharp(x) / blunt;
    const from: WalkPlace = { x: at.x, density: q(at.x) };
    const to = metropolisWalk(q, from, { factor: likeness.shape, size, steps: likenessSteps, fold, random });
    if (tuning) size = tunedSize(size, to.taken / likenessSteps, gain);
    const truth = (x: readonly number[]): number => {
      const residuals = residualsAt(x);
      return residuals === null ? Number.NaN : logLikelihood(blocks, normals, residuals) + prior(x);
    };
    const now = logLikelihood(blocks, normals, at.residuals) + prior(at.x);
    const accepted = isTaken(truth(to.x) - now + from.density - to.density, random);
    if (accepted) at = { x: to.x, residuals: residualsAt(to.x) as Float64Array };
    const aside = metropolisWalk(truth, { x: at.x, density: accepted ? truth(to.x) : now }, { factor: likeness.shape, size, steps: 1, fold, random });
    if (aside.taken > 0) at = { x: aside.x, residuals: residualsAt(aside.x) as Float64Array };
    logs = blocks.map((block, b) => {
      const own = block.at.map((i) => at.residuals[i] as number);
      const density = (x: readonly number[]): number => blockLikelihood(block.normal(x), own) + block.logPrior(x);
      const now = logs[b] as readonly number[];
      const { factor: shape, size: length } = misfitSteps[b] as (typeof misfitSteps)[number];
      const end = metropolisWalk(density, { x: now, density: density(now) }, { factor: shape, size: length, steps: stepsOfMisfit, random });
      if (tuning) misfitSteps = misfitSteps.map((own, k) => (k === b ? { ...own, size: tunedSize(length, end.taken / stepsOfMisfit, gain) } : own));
      return end.x;
    });
    normals = blocks.map(({ normal }, b) => normal(logs[b] as readonly number[]));
    blocks.forEach((block, b) => {
      const moved = drawnNear(logs[b] as readonly number[], (misfitSteps[b] as Steps).factor, carrySizes[b] as number, random);
      const changed = normals.map((normal, k) => (k === b ? block.normal(moved) : normal));
      const to = carriedPlace(at, straightAt(normals), straightAt(changed));
      const gained = to === null ? Number.NaN : logLikelihood(blocks, changed, to.place.residuals) + prior(to.place.x) + block.logPrior(moved) + to.logStretch - logLikelihood(blocks, normals, at.residuals) - prior(at.x) - block.logPrior(logs[b] as readonly number[]);
      const goes = isTaken(gained, random);
      if (goes && to !== null) [at, logs, normals] = [to.place, logs.map((own, k) => (k === b ? moved : own)), changed];
      if (tuning) carrySizes = carrySizes.map((own, k) => (k === b ? tunedSize(own, goes ? 1 : 0, gain) : own));
    });
    if (tuning) {
      visited.push(logs);
      if (step === lessonOfMisfit) misfitSteps = misfitSteps.map((own, b) => shapedBy(visited.map((all) => all[b] as readonly number[])) ?? own);
      continue;
    }
    const whole = new Map(blocks.flatMap(({ kinds, whole: wholeOf }, b) => wholeOf(logs[b] as readonly number[]).map((log, k) => [kinds[k] as string, log] as const)));
    draws.push([...at.x, ...Object.keys(fit.discrepancy).map((kind) => whole.get(kind) as number)]);
    if (accepted) taken++;
  }
  return { draws, acceptance: taken / steps };
}

type Steps = Pick<WalkOptions, "factor" | "size">;

/** Steps of the shape that a walk has had so far; null where it was too short to teach one, or hardly moved. */
function shapedBy(walked: readonly (readonly number[])[]): Steps | null {
  const late = walked.slice(walked.length >> 2);
  const factor = late.length < leastLesson * (late[0]?.length ?? 0) ? null : cholesky(covarianceOf(late));
  return factor === null ? null : { factor, size: 2.38 / Math.sqrt(factor.length) };
}

function diagonal(values: readonly number[]): number[][] {
  return values.map((value, i) => values.map((_, j) => (i === j ? value : 0)));
}

/** Parameters with the residuals that the true model leaves there. */
interface Place {
  readonly x: readonly number[];
  readonly residuals: Float64Array;
}

type ResidualsAt = (p: readonly number[]) => Float64Array | null;

/** Measured less predicted; null where the model has no answer for one of the runs. */
function residualsOf(fit: WheelSoilFit, model: WheelModelToFit["model"]): ResidualsAt {
  const observations = [...new Set(fit.data.map(({ observation }) => observation))];
  const places = new Map(observations.map((observation, k) => [observation, k]));
  const rows = fit.data.map(({ observation, quantity, measured }) => ({ quantity, measured, wheel: observation.wheel, of: places.get(observation) as number }));
  return (p) => {
    const states = observations.map(({ wheel, slip, loadN }) => model(p, wheel, slip.value, loadN));
    const out = new Float64Array(rows.length);
    for (let i = 0; i < rows.length; i++) {
      const { quantity, measured, wheel, of } = rows[i] as (typeof rows)[number];
      out[i] = measured - shareOf(states[of] as (typeof states)[number], quantity, wheel);
      if (Number.isNaN(out[i])) return null;
    }
    return out;
  };
}

function priorOf({ beliefs }: WheelModelToFit): (x: readonly number[]) => number {
  return (x) => {
    let sum = 0;
    for (let j = 0; j < beliefs.length; j++) {
      const { mean, sd } = beliefs[j] as Belief;
      sum -= 0.5 * (((x[j] as number) - mean) / sd) ** 2;
    }
    return sum;
  };
}

function blockLikelihood(normal: GroupedNormal, residuals: ArrayLike<number>): number {
  return -0.5 * (normal.quad(residuals) + normal.logDet);
}

function logLikelihood(blocks: readonly MisfitBlock[], normals: readonly GroupedNormal[], residuals: Float64Array): number {
  return blocks.reduce((sum, { at }, b) => sum + blockLikelihood(normals[b] as GroupedNormal, at.map((i) => residuals[i] as number)), 0);
}

function drawnNear(centre: readonly number[], factor: readonly (readonly number[])[], spread: number, random: Random): number[] {
  const z = centre.map(() => random.normal());
  return centre.map((value, i) => value + spread * (factor[i] as readonly number[]).reduce((sum, entry, j) => (j <= i ? sum + entry * (z[j] as number) : sum), 0));
}

function startNear(centre: readonly number[], factor: readonly (readonly number[])[], fold: (x: number[]) => number[], residualsAt: ResidualsAt, random: Random): Place {
  for (let attempt = 0; attempt < 100; attempt++) {
    const x = fold(drawnNear(centre, factor, spreadAtStart / (1 + attempt / 10), random));
    const residuals = residualsAt(x);
    if (residuals !== null) return { x, residuals };
  }
  throw new RangeError("posteriorChain: the model has no answer near the fit");
}

interface Teaching {
  readonly fit: WheelSoilFit;
  readonly factor: readonly (readonly number[])[];
  readonly fold: (x: number[]) => number[];
  readonly residualsAt: ResidualsAt;
  readonly prior: (x: readonly number[]) => number;
  readonly blocks: readonly MisfitBlock[];
  readonly normals: readonly GroupedNormal[];
  readonly random: Random;
}

/** The likeness, the shape of the steps through it, and their size. */
interface Likeness {
  readonly densityWith: (normals: readonly GroupedNormal[]) => (x: readonly number[]) => number;
  readonly shape: readonly (readonly number[])[];
  readonly size: number;
}

/** First from places drawn about the fit, then from where walks through the likeness of before lead. */
function learnt(start: Place, { fit, factor, fold, residualsAt, prior, blocks, normals, random }: Teaching): Likeness {
  const n = fit.fitted.length;
  const terms = quadraticCount(n);
  const wanted = placesPerTerm * terms;
  const stretched = (x: readonly number[], z = new Float64Array(n)): Float64Array => {
    for (let i = 0; i < n; i++) {
      const row = factor[i] as readonly number[];
      let sum = (x[i] as number) - (fit.fitted[i] as number);
      for (let j = 0; j < i; j++) sum -= (row[j] as number) * (z[j] as number);
      z[i] = sum / (row[i] as number);
    }
    return z;
  };
  const likenessFrom = (places: readonly Place[]): Likeness["densityWith"] => {
    const all = quadraticLikeness(places.map(({ x }) => stretched(x)), places.map(({ residuals }) => residuals));
    const parts = blocks.map(({ at }) => Float64Array.from(at.flatMap((i) => [...all.subarray(i * terms, (i + 1) * terms)])));
    const [z, t] = [new Float64Array(n), new Float64Array(terms)];
    return (now) => {
      const gram = new Float64Array(terms * terms);
      parts.forEach((part, b) => (now[b] as GroupedNormal).addGram(gram, part, terms));
      return (x) => {
        quadraticTerms(stretched(x, z), t);
        return prior(x) - halfSquareForm(gram, t);
      };
    };
  };
  let places: Place[] = [];
  const visit = (x: readonly number[]): void => {
    const residuals = residualsAt(x);
    if (residuals !== null) places.push({ x, residuals });
  };
  for (let attempt = 0; places.length < wanted && attempt < 3 * wanted; attempt++) visit(fold(drawnNear(fit.fitted, factor, spreadAtStart, random)));
  let densityWith = likenessFrom(places);
  let shape: readonly (readonly number[])[] = factor;
  let size = 2.38 / Math.sqrt(n);
  let from = start.x;
  for (let lesson = 1; lesson < lessons; lesson++) {
    const cold = densityWith(normals);
    const q = (x: readonly number[]): number => cold(x) / heat;
    const walked: (readonly number[])[] = [];
    for (let k = 0; k < wanted; k++) {
      const end = metropolisWalk(q, { x: from, density: q(from) }, { factor: shape, size, steps: lessonSteps, fold, random });
      size = tunedSize(size, end.taken / lessonSteps, 1 / (1 + k / 10) ** 0.6);
      from = end.x;
      walked.push(from);
    }
    walked.forEach(visit);
    // of the places before, those about the fit keep the likeness from running away
    if (lesson === lessons - 1) places = places.slice(-Math.floor(2.5 * terms));
    densityWith = likenessFrom(places);
    ({ factor: shape, size } = shapedBy(walked) ?? { factor: shape, size });
  }
  return { densityWith, shape, size };
}
