import { groupedCovariance, varianceComponents } from "../numerics/varianceComponents.ts";
import { covarianceParts } from "../numerics/covarianceParts.ts";
import type { VarianceCause } from "../numerics/covarianceParts.ts";
import type { VectorFit } from "../numerics/vectorFit.ts";
import { mean } from "../numerics/statistics.ts";
import type { SlipPoint } from "./slipCurveFit.ts";

/** What the points of a curve scatter by beyond their own uncertainties, as standard deviations in the value's unit. */
export interface CurveScatter {
  /** from run to run, alike at every slip */
  readonly run: number;
  /** from bed to bed, the same in all runs of a bed; 0 where beds are not told apart from runs */
  readonly bed: number;
  /** what grows with slip, at the greatest slip of the points: by bed where beds are told apart, else by run; of few runs all their scatter */
  readonly tilt: number;
}

/** One cause of a curve's scatter, its variance and how the points bear it. */
export interface ScatterPart extends VarianceCause {
  readonly cause: string;
}

/** Beds, and runs beyond one a bed, below which beds are not told apart from runs. */
const fewestBeds = 3;
const fewestSharing = 3;
/** runs below which one scatter is asked for, of a shape that is given: two from so few would take turns at being nothing */
const fewestForTwo = 15;
/** a component below this share of the points' variance is nothing */
const nothing = 1e-3;
/** change of all components together, as a share of the points' variance, at which they count as settled */
const settled = 2e-3;
const steps = 6;

/** How the runs of a curve stand on beds. */
export interface BedPlan {
  /** beds that are named */
  readonly beds: number;
  /** runs on named beds */
  readonly runsOnBeds: number;
  /** enough beds, and enough runs that share one, to tell what a bed deviates by from what a run deviates by */
  readonly apart: boolean;
  /** one scatter from run to run, growing with slip in a given way, is all that is asked for */
  readonly few: boolean;
}

/**
 * Whether what beds deviate by can be told apart from what runs deviate by.
 *
 * @param points   of one curve
 * @returns        told apart from 3 beds on with 3 runs more than beds; without that, few below 15 runs
 * @source         a choice of this project: a variance from fewer than two degrees of freedom says nothing
 * @checked        tests/fitting/curveScatter.test.ts
 */
export function bedPlan(points: readonly SlipPoint[]): BedPlan {
  const named = points.filter((point) => point.bed !== null);
  const [beds, runsOnBeds] = [new Set(named.map(({ bed }) => bed)).size, new Set(named.map(({ run }) => run)).size];
  const apart = beds >= fewestBeds && runsOnBeds - beds >= fewestSharing;
  return { beds, runsOnBeds, apart, few: !apart && new Set(points.map(({ run }) => run)).size < fewestForTwo };
}

/**
 * The scatter a fit begins with: a third of what the residuals leave for each component.
 *
 * @param points     of one curve
 * @param residuals  of a fit by the runs' own uncertainties alone [unit of the value]
 * @param constants  how many were fitted
 * @returns          a start for `scatterOf`; above zero but for beds that are not told apart
 * @source           common practice
 * @checked          tests/fitting/curveScatter.test.ts
 */
export function firstScatter(points: readonly SlipPoint[], residuals: readonly number[], constants: number): CurveScatter {
  const third = Math.max(1e-9, Math.sqrt(residuals.reduce((sum, value) => sum + value ** 2, 0) / (points.length - constants) / 3));
  const { apart, few } = bedPlan(points);
  return { run: few ? 0 : third, bed: apart ? third : 0, tilt: third };
}

/**
 * The scatter that the residuals of a fit show, a few steps towards restricted maximum likelihood.
 *
 *   V = diag(own² + τ²) + σ_bed² within each bed + σ_tilt² (s_i/s_m)(s_j/s_m) within each bed        s_m: greatest slip
 *
 * A bed that is firmer or looser than the others lifts the curve of all its runs and tilts it. Where every run has a bed of
 * its own, the bed's lift is not told apart from τ, and the tilt belongs to the run. Few runs have one scatter, a half of whose
 * variance is alike at every slip: V = diag(own² + σ² (½ + (s/s_m)²)).
 *
 * @param points   of one curve
 * @param own      the points' own standard uncertainties
 * @param fit      residuals, slopes and the constants' covariance
 * @param now      the scatter before; a component that is 0 stays 0
 * @returns        the scatter, and whether it is settled
 * @source         `varianceComponents`; a line of random height and slope for each group: N. M. Laird and J. H. Ware, Biometrics 38 (1982) 963, from memory
 * @checked        tests/fitting/curveScatter.test.ts
 */
export function scatterOf(points: readonly SlipPoint[], own: readonly number[], fit: Pick<VectorFit, "residuals" | "jacobian" | "covariance">, now: CurveScatter): { readonly scatter: CurveScatter; readonly isSettled: boolean } {
  const { bed, tilt } = groupingsOf(points);
  const used = [...(now.bed > 0 ? [{ ...bed, sd: now.bed }] : []), ...(now.tilt > 0 ? [{ ...tilt, sd: now.tilt }] : [])];
  const data = { known: own.map((u) => u ** 2), weights: points.map(() => 1), kinds: points.map(() => "run"), groupings: used.map(({ names }) => names), loadings: used.map(({ loadings }) => loadings) };
  const start = { own: { run: Math.max(now.run ** 2, 1e-30) }, groups: used.map(({ sd }) => sd ** 2) };
  // a point of a sweep scatters like every other, though it weighs less: what the constants have taken up is asked for equal weights
  const even = points.some(({ ofRun = 1 }) => ofRun > 1) ? covarianceParts(fit.jacobian, [{ size: 1, unit: groupedCovariance(data, start) }])?.units[0] : undefined;
  const whole = mean(data.known) + start.own.run + start.groups.reduce((sum, variance) => sum + variance, 0);
  const found = varianceComponents({ ...data, ...fit, covariance: even ?? fit.covariance }, start, steps, 0.1 * nothing * whole);
  const left = (variance: number | undefined): number => (variance === undefined || variance < nothing * whole ? 0 : Math.sqrt(variance));
  const run = now.run === 0 ? 0 : (found.own["run"] as number);
  const change = Math.abs(run - start.own.run) + found.groups.reduce((sum, variance, g) => sum + Math.abs(variance - (start.groups[g] as number)), 0);
  return {
    scatter: { run: left(run), bed: now.bed > 0 ? left(found.groups[0]) : 0, tilt: now.tilt > 0 ? left(found.groups.at(-1)) : 0 },
    isSettled: change < settled * whole,
  };
}

/**
 * Whether the residuals show more scatter from run to run than the runs' own uncertainties: more than can be told from none.
 *
 *   τ² ≥ u(τ²)
 *
 * A run states for itself what it scatters by, and is taken at its word unless the points say otherwise; a variance that is
 * estimated and cannot be negative would else be too great in the mean. What beds deviate by no run can state, so there
 * nothing is asked.
 *
 * @param points   of one curve
 * @param own      the points' own standard uncertainties
 * @param fit      slopes
 * @param scatter  settled
 * @returns        false where τ is to be nothing
 * @source         a choice of this project; u(τ²) by `covarianceParts`
 * @checked        tests/fitting/curveScatter.test.ts
 */
export function runsShow(points: readonly SlipPoint[], own: readonly number[], { jacobian }: Pick<VectorFit, "jacobian">, scatter: CurveScatter): boolean {
  const [stated, ...others] = scatterParts(points, own, { ...scatter, run: 0 }, "");
  const ofRuns = { size: scatter.run ** 2, unit: points.map(({ ofRun = 1 }, i) => points.map((_, j) => (i === j ? ofRun : 0))) };
  const doubt = covarianceParts(jacobian, [ofRuns, ...others], stated?.unit)?.doubt[0]?.[0];
  return doubt === undefined || scatter.run ** 2 >= Math.sqrt(doubt);
}

/**
 * The points' scatter, cause by cause.
 *
 * @param points    of one curve
 * @param own       the points' own standard uncertainties
 * @param scatter   beyond them; the k points of a sweep bear τ √k each, so that together they weigh as one run
 * @param whose     names the runs and the quantity: rows of equal cause cancel in a difference, and the scatter of two curves must not
 * @returns         the runs' own part first; a cause that was found to be nothing has size 0 and stands on its bound, as the runs' own part does where they show no scatter beyond it; one that is not told apart does not appear
 * @source          `groupedCovariance`
 * @checked         tests/fitting/curveScatter.test.ts
 */
export function scatterParts(points: readonly SlipPoint[], own: readonly number[], scatter: CurveScatter, whose: string): ScatterPart[] {
  const { bed, tilt } = groupingsOf(points);
  const diagonal = { weights: points.map(() => 1), kinds: points.map(() => "run"), known: points.map(() => 0) };
  const { apart, few } = bedPlan(points);
  const unit = ({ names, loadings }: Grouped): number[][] => groupedCovariance({ ...diagonal, groupings: [names], loadings: [loadings] }, { own: { run: 0 }, groups: [1] });
  const alone = groupedCovariance({ ...diagonal, known: points.map((point, i) => (own[i] as number) ** 2 + (point.ofRun ?? 1) * (scatter.run ** 2 + (few ? scatter.tilt * (tilt.loadings[i] as number) : 0) ** 2)), groupings: [] }, { own: { run: 0 }, groups: [] });
  const single = { cause: `own uncertainty and scatter of ${whose}`, size: 1, unit: alone, onBound: !few && scatter.run === 0 };
  const growing = { cause: `scatter from ${apart ? "bed to bed" : "run to run"} that grows with slip, ${whose}`, size: scatter.tilt ** 2, unit: unit(tilt), onBound: scatter.tilt === 0 };
  // what few runs scatter by is known as a whole alone
  if (few) return [single];
  return [single, ...(apart ? [{ cause: `scatter from bed to bed, ${whose}`, size: scatter.bed ** 2, unit: unit(bed), onBound: scatter.bed === 0 }] : []), growing];
}

/**
 * The points' whole covariance.
 *
 *   V = Σ θ_a U_a
 *
 * @param parts   from `scatterParts`
 * @returns       V [unit of the value squared]
 * @source        JCGM 100:2008, 5.1.2
 * @checked       tests/fitting/curveScatter.test.ts
 */
export function wholeCovariance(parts: readonly ScatterPart[]): number[][] {
  return (parts[0] as ScatterPart).unit.map((row, i) => row.map((_, j) => parts.reduce((sum, { size, unit }) => sum + size * (unit[i]?.[j] as number), 0)));
}

/**
 * What each point bears beyond its own uncertainty.
 *
 *   √(k τ² + σ_bed² + σ_tilt² (s/s_m)²)        k points of the run: the mean of k values of equal, independent errors τ√k has the error τ
 *
 * @param points    of one curve
 * @param scatter   run, bed and tilt
 * @returns         one a point [unit of the value]
 * @source          JCGM 100:2008, 5.1.2
 * @checked         tests/fitting/curveScatter.test.ts
 */
export function scatterSizes(points: readonly SlipPoint[], scatter: CurveScatter): number[] {
  return wholeCovariance(scatterParts(points, points.map(() => 0), scatter, "")).map((row, i) => Math.sqrt(row[i] as number));
}

interface Grouped {
  readonly names: readonly string[];
  readonly loadings: readonly number[];
}

/** Which points a bed lifts together, and which are tilted together and how far each. */
function groupingsOf(points: readonly SlipPoint[]): { readonly bed: Grouped; readonly tilt: Grouped } {
  const { apart, few } = bedPlan(points);
  const names = points.map(({ bed, run }) => (apart && bed !== null ? `bed ${bed}` : `run ${run}`));
  const greatest = Math.max(...points.map(({ slip }) => Math.abs(slip.value)));
  return { bed: { names, loadings: points.map(() => 1) }, tilt: { names: few ? points.map((_, i) => `point ${i}`) : names, loadings: points.map(({ slip }) => (few ? Math.sqrt(0.5 + (slip.value / greatest) ** 2) : slip.value / greatest)) } };
}
