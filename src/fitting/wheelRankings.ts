import type { RunPlan, WheelRecord } from "../campaign/campaign.ts";
import { combine, estimateFrom } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import { groupBy } from "../core/groupBy.ts";
import { studentTCdf } from "../numerics/distributions.ts";
import { holm } from "../numerics/holm.ts";
import type { ClimbCurve, PullCurve, Repeatability, RunResult } from "../processing/dayResult.ts";
import type { RankedWheel, Ranking } from "../processing/ranking.ts";
import type { EnduranceResult } from "../processing/enduranceResult.ts";
import { scatterCause } from "./conditionMean.ts";

/** Two wheels count as different below this chance of such a difference between like wheels (common practice). */
const level = 0.05;

/** What the runs of one condition answer, by the mean of its repeats. */
const fromConditions = [
  { measure: "sinkageRunning", label: "Sinkage, running", better: "less", kind: "traction" },
  { measure: "peakAcceleration", label: "Peak acceleration of a drop", better: "less", kind: "drop" },
  { measure: "absorbedShare", label: "Absorbed energy share of a drop", better: "more", kind: "drop" },
  { measure: "conformityIndex", label: "Conformity index", better: "more", kind: "footprint" },
] as const;

/** What the rankings are made of. */
export interface RankingSources {
  readonly pullCurves: readonly PullCurve[];
  readonly repeatability: readonly Repeatability[];
  readonly climbCurves: readonly ClimbCurve[];
  readonly endurance: EnduranceResult | null;
}

interface Candidate {
  readonly wheel: string;
  readonly estimate: Estimate;
}

/**
 * Which wheel, and how sure: every wheel of the day in its order, question by question and condition by condition.
 *
 *   Δ = first − other, causes that both share by their difference      t = Δ / u(Δ)
 *   wheels are told apart where p < 0.05, by Holm's rule over all pairs of the condition
 *
 * Nothing is weighed into one mark: what matters more is for the one who builds the rover. Questions: pull coefficient at
 * the slips of rig.yaml and best efficiency, by load; sinkage at the set slip next to the first of these; peak acceleration
 * and absorbed energy of drops; conformity; height got over by half of the tries; specific wear.
 *
 * @param sources  fits and means of the day
 * @param runs     its runs
 * @param wheels   their records
 * @param slips    at which pull is read [1]
 * @returns        one entry per question and condition that at least two wheels answer, the best wheel first
 * @source         JCGM 100:2008, 5.2 (correlated inputs); Holm, Scand. J. Statist. 6 (1979) 65 (from memory)
 * @checked        tests/fitting/wheelRankings.test.ts
 */
export function wheelRankingsFrom(sources: RankingSources, runs: readonly RunResult[], wheels: readonly WheelRecord[], slips: readonly number[]): Ranking[] {
  const curves = [...groupBy(sources.pullCurves.filter(({ pass }) => pass === 1), ({ setLoadN }) => setLoadN)].sort(([a], [b]) => a - b);
  const atLoad = (label: string, of: (curve: PullCurve) => Estimate | undefined): Ranking[] =>
    curves.flatMap(([load, ofLoad]) => ranking(label, "more", `${load} N`, ofLoad.flatMap((curve) => candidate(curve.wheel, of(curve)))));
  const known = (sources.endurance?.wheels ?? []).filter(({ wheel }) => wheels.some(({ id }) => id === wheel));
  return [
    ...slips.flatMap((slip, index) => atLoad(`Pull coefficient at ${Number((100 * slip).toPrecision(6))} % slip`, (curve) => curve.atSlip[index]?.estimate)),
    ...atLoad("Best tractive efficiency", (curve) => curve.bestEfficiency.efficiency),
    ...fromConditions.flatMap((question) => conditionRankings(question, sources.repeatability, runs, slips[0])),
    ...[...groupBy(sources.climbCurves, ({ edge }) => edge)].flatMap(([edge, ofEdge]) => ranking("Height got over in half of the tries", "more", `${edge} edge`, ofEdge.flatMap((curve) => candidate(curve.wheel, curve.heights[0]?.estimate)))),
    ...ranking("Specific wear", "less", "over the distance inspected", known.flatMap((one) => candidate(one.wheel, one.specificWear))),
  ];
}

function candidate(wheel: string, estimate: Estimate | undefined): Candidate[] {
  return estimate === undefined ? [] : [{ wheel, estimate }];
}

function conditionRankings({ measure, label, better, kind }: (typeof fromConditions)[number], repeatability: readonly Repeatability[], runs: readonly RunResult[], slip: number | undefined): Ranking[] {
  const row = repeatability.find((one) => one.measure === measure);
  if (row === undefined) return [];
  const planOf = (runId: string | undefined): RunPlan | undefined => runs.find(({ plan }) => plan.id === runId)?.plan;
  const conditions = row.conditions.flatMap((condition) => {
    const plan = planOf(condition.runs[0]);
    return plan?.kind === kind ? [{ ...condition, plan }] : [];
  });
  // Sinkage grows with slip, so it is compared where pull is.
  const setSlips = conditions.flatMap(({ plan }) => plan.setSlip ?? []);
  const nearest = slip === undefined ? undefined : setSlips.sort((a, b) => Math.abs(a - slip) - Math.abs(b - slip))[0];
  const compared = kind === "traction" ? conditions.filter(({ plan }) => plan.setSlip === nearest && (plan.pass ?? 1) === 1) : conditions;
  const sorted = [...groupBy(compared, ({ condition }) => condition)].sort(([, [a]], [, [b]]) => size(a?.plan) - size(b?.plan));
  return sorted.flatMap(([condition, ofCondition]) => ranking(label, better, condition, ofCondition.map(({ wheel, estimate }) => ({ wheel, estimate: ownScatter(estimate, measure, wheel) })), row.pooledSd !== null));
}

const size = (plan: RunPlan | undefined): number => plan?.dropHeightM ?? plan?.setLoadN ?? 0;

/** The scatter has one name for all conditions; what it did to this wheel's mean is this wheel's own. */
function ownScatter(estimate: Estimate, measure: string, wheel: string): Estimate {
  return { ...estimate, budget: estimate.budget.map((row) => (row.cause === scatterCause(measure) ? { ...row, cause: `${row.cause}, wheel ${wheel}` } : row)) };
}

function ranking(label: string, better: Ranking["better"], condition: string, candidates: readonly Candidate[], repeated = true): Ranking[] {
  const able = candidates.filter(({ estimate }) => estimate.standardUncertainty !== null && Number.isFinite(estimate.value));
  if (able.length < 2) return [];
  const sign = better === "more" ? 1 : -1;
  const places = [...able].sort((a, b) => sign * (b.estimate.value - a.estimate.value));
  const pairs = places.flatMap((ahead, i) => places.slice(i + 1).map((other) => ({ ahead, other, behind: difference(ahead.estimate, other.estimate, sign) })));
  const chances = holm(pairs.map(({ behind }) => chance(behind)));
  const first = places[0] as Candidate;
  const ranked = places.map((place): RankedWheel => {
    const at = pairs.findIndex(({ ahead, other }) => ahead === first && other === place);
    const probability = chances[at] ?? null;
    return { ...place, behind: pairs[at]?.behind ?? null, probability, apart: probability !== null && probability < level };
  });
  const unranked = candidates.filter((one) => !able.includes(one)).map(({ wheel, estimate }) => ({ wheel, why: estimate.method }));
  return [{ label, better, condition, repeated, places: ranked, unranked }];
}

/** How far the other lags, positive towards the worse. */
function difference(ahead: Estimate, other: Estimate, sign: number): Estimate {
  const raw = combine([ahead, other], (a = Number.NaN, b = Number.NaN) => sign * (a - b), ahead.unit, "difference of two wheels, shared causes by their difference");
  // The same repeats stand behind both means: their degrees of freedom count once.
  const pooled = raw.budget.filter(({ cause }) => cause.startsWith(scatterCause("")));
  const [one] = pooled;
  if (one === undefined) return raw;
  const together = { ...one, cause: "scatter between repeats of both wheels", effect: Math.hypot(...pooled.map(({ effect }) => effect)), degreesOfFreedom: Math.min(...pooled.map(({ degreesOfFreedom }) => degreesOfFreedom)) };
  return estimateFrom(raw.value, raw.unit, raw.method, [...raw.budget.filter((row) => !pooled.includes(row)), together]);
}

function chance({ value, standardUncertainty, degreesOfFreedom }: Estimate): number {
  return standardUncertainty === null || standardUncertainty === 0 || !(degreesOfFreedom > 0) ? Number.NaN : 2 * studentTCdf(-Math.abs(value / standardUncertainty), degreesOfFreedom);
}
