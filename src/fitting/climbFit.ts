import type { WheelRecord } from "../campaign/campaign.ts";
import type { Rig } from "../campaign/rigSchema.ts";
import { combine, estimateFrom, undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { Fit, FitPoint } from "../core/fit.ts";
import { groupBy } from "../core/groupBy.ts";
import { stepByFriction, stepFriction } from "../processing/measures/stepClimb.ts";
import { logisticAt, logisticFit, logisticInterval } from "../numerics/logisticFit.ts";
import type { LogisticFit } from "../numerics/logisticFit.ts";
import { mean } from "../numerics/statistics.ts";
import type { ClimbCurve, RunResult } from "../processing/dayResult.ts";
import { recordedRadius } from "../processing/measures/loadedRadius.ts";
import { barred, measureOf, refusedPoint } from "./refusedPoint.ts";

/** Chances at which heights are given. */
const chances = [0.5, 0.9] as const;
/** fewer trials than this leave an interval too wide to plan by (common practice) */
const fewTrials = 15;
const confidence = 0.95;
const bandPoints = 60;

/**
 * Chance of getting over against the obstacle's height, per wheel and kind of edge: logistic regression of the trials.
 *
 *   P = 1 / (1 + e^((h − h50)/s))     h50 and s in m
 *
 * Heights for 50 % and 90 % carry the interval of the profile likelihood; where the outcomes are split by one height, all
 * alike, or hardly depend on it, there is none, and the sentence says what the trials bracket. Heights count as exact.
 *
 * @param runs    all runs of the day
 * @param wheels  the wheel records, for radii
 * @param rig     says which radius
 * @returns       one entry per wheel and edge, in order of first appearance
 * @source        McCullagh & Nelder, Generalized Linear Models (from memory); common practice in sensitivity tests
 * @checked       tests/fitting/climbFit.test.ts
 */
export function climbCurvesFrom(runs: readonly RunResult[], wheels: readonly WheelRecord[], rig: Rig): ClimbCurve[] {
  const trials = runs.filter((run) => run.plan.kind === "obstacle" && run.plan.obstacle !== null && run.plan.wheel !== null);
  return [...groupBy(trials, (run) => `${run.plan.wheel}\u0000${run.plan.obstacle?.edge}`).values()].map((group) => climbCurve(group, wheels, rig));
}

function climbCurve(group: readonly RunResult[], wheels: readonly WheelRecord[], rig: Rig): ClimbCurve {
  const kept: FitPoint[] = [];
  const refused: FitPoint[] = [];
  for (const run of group) {
    const estimate = measureOf(run, "climbed")?.estimate;
    const heightM = run.plan.obstacle?.heightM as number;
    const reason = barred(run) ?? (estimate === undefined ? "not measured" : estimate.standardUncertainty === null ? estimate.method : null);
    if (reason === null && estimate !== undefined) kept.push({ run: run.plan.id, x: heightM, y: estimate.value, yUncertainty: null, kept: true, reason: "" });
    else refused.push(refusedPoint(run, heightM, estimate?.value, reason ?? "not measured"));
  }
  const x = kept.map((point) => point.x);
  const success = kept.map((point) => point.y === 1);
  const logistic = kept.length < 2 ? null : logisticFit(x, success);
  const { plan } = group[0] as RunResult;
  const fit = asFit(logistic, kept, refused, mixedFindings(group, kept));
  const heights = chances.map((chance) => heightFor(logistic, fit, x, success, chance));
  const wheel = wheels.find((candidate) => candidate.id === plan.wheel);
  const edge = plan.obstacle?.edge as ClimbCurve["edge"];
  return {
    wheel: plan.wheel as string,
    edge,
    runs: kept.map((point) => point.run),
    climbed: success.filter(Boolean).length,
    failed: success.filter((yes) => !yes).length,
    fit,
    heights,
    ...quasiStatic(group, wheel, rig, edge, heights),
    band: logistic === null || fit.verdict === "undetermined" ? null : bandOf(logistic, x),
  };
}

function asFit(logistic: LogisticFit | null, kept: readonly FitPoint[], refused: readonly FitPoint[], findings: readonly Finding[]): Fit {
  const shared = { model: "logistic curve of success", formula: "P = 1 / (1 + e^((h − h50) / s)); h50 and s in m", points: [...kept, ...refused], findings };
  const open = (sentence: string): Fit => ({ ...shared, parameters: [], covariance: [], residuals: [], degreesOfFreedom: 0, verdict: "undetermined", sentence });
  if (logistic === null) return open(`${kept.length} usable ${kept.length === 1 ? "trial" : "trials"}; a curve needs trials that got over and trials that did not.`);
  const mm = (metres: number): string => `${(1000 * metres).toFixed(1)} mm`;
  if (logistic.verdict === "oneX") return open(`All ${kept.length} trials were at ${mm(kept[0]?.x as number)}; a curve needs several heights.`);
  if (logistic.verdict === "oneOutcome") {
    const all = kept[0]?.y === 1;
    const end = all ? Math.max(...kept.map((point) => point.x)) : Math.min(...kept.map((point) => point.x));
    return open(`${all ? "All" : "None"} of ${kept.length} trials got over: the height for 50 % lies ${all ? "above" : "below"} ${mm(end)} or near it. Try ${all ? "higher" : "lower"} obstacles.`);
  }
  if (logistic.verdict === "separated") {
    const [low, high] = logistic.gap as readonly [number, number];
    return open(low === high ? `One height, ${mm(low)}, splits the trials: every lower one went one way, every higher one the other. The curve's steepness is not determined; try heights close to it.` : `The trials are split between ${mm(low)} and ${mm(high)}: all on one side went alike, all on the other otherwise. The height for 50 % lies between; try heights in between.`);
  }
  if (logistic.slope >= 0) return open("Higher obstacles were got over as often as lower ones or more often: the trials show no height at which success falls.");
  const at = logisticAt(logistic, 0.5);
  const width = -1 / logistic.slope;
  const [[aa, ab], [, bb]] = logistic.covariance;
  const { intercept: a, slope: b } = logistic;
  // h50 = −a/b, s = −1/b
  const slopes = [[-1 / b, a / b ** 2], [0, 1 / b ** 2]] as const;
  const covariance = slopes.map(([p, q]) => slopes.map(([r, s]) => p * r * aa + (p * s + q * r) * ab + q * s * bb));
  const own = (effect: number) => [{ cause: "chance of single trials", effect, sharedBy: null, degreesOfFreedom: Infinity }];
  return {
    ...shared,
    parameters: [
      { name: "heightForHalf", symbol: "h50", estimate: estimateFrom(at.x, "m", "maximum likelihood; doubt to first order", own(at.standardError)) },
      { name: "widthOfFall", symbol: "s", estimate: estimateFrom(width, "m", "maximum likelihood; doubt to first order", own(Math.sqrt((covariance[1] as number[])[1] as number))) },
    ],
    covariance,
    residuals: kept.map((point) => point.y - 1 / (1 + Math.exp(-(a + b * point.x)))),
    degreesOfFreedom: kept.length - 2,
    verdict: "determined",
    sentence: `${kept.length} trials, ${kept.filter((point) => point.y === 1).length} got over; height improves on one chance for all by ${(logistic.nullDeviance - logistic.deviance).toFixed(1)} in deviance.`,
  };
}

function heightFor(logistic: LogisticFit | null, fit: Fit, x: readonly number[], success: readonly boolean[], chance: number): ClimbCurve["heights"][number] {
  if (logistic === null || fit.verdict === "undetermined") return { chance, estimate: undetermined("m", fit.sentence), low: null, high: null };
  const at = logisticAt(logistic, chance);
  const [low, high] = logisticInterval(logistic, x, success, chance, confidence);
  const ends = { low: Number.isFinite(low) ? Math.max(0, low) : null, high: Number.isFinite(high) ? high : null };
  if (!(Number.isFinite(low) && Number.isFinite(high) && high > 0)) return { chance, estimate: undetermined("m", "the trials set no bound to it on one side at least: more trials are needed", at.x), ...ends };
  return { chance, estimate: estimateFrom(at.x, "m", "from the logistic curve; doubt to first order, the interval beside it from the profile likelihood", [{ cause: "chance of single trials", effect: at.standardError, sharedBy: null, degreesOfFreedom: Infinity }]), ...ends };
}

/** What statics says of a lone rigid wheel: the friction the height for 50 % would need, and the height that a stated friction allows. */
function quasiStatic(group: readonly RunResult[], wheel: WheelRecord | undefined, rig: Rig, edge: ClimbCurve["edge"], heights: ClimbCurve["heights"]): Pick<ClimbCurve, "frictionAtHalf" | "heightByFriction"> {
  const none = (reason: string) => ({ frictionAtHalf: undetermined("1", reason), heightByFriction: undetermined("m", reason) });
  if (wheel === undefined) return none("the wheel has no record, so its radius is not known");
  if (edge === "rock") return none("a rock has no edge whose statics is known");
  const radius = recordedRadius(wheel, rig);
  const half = heights[0]?.estimate as Estimate<"m">;
  const within = half.value < radius.value && half.value >= 0;
  const stated = group.flatMap((run) => run.plan.obstacle?.friction ?? []);
  return {
    frictionAtHalf: half.standardUncertainty === null || !within
      ? undetermined("1", half.standardUncertainty === null ? half.method : "the height for 50 % is not below the axle")
      : combine([radius, half], (radiusM = Number.NaN, heightM = Number.NaN) => stepFriction({ radiusM, heightM }), "1", "μ = √(2rh − h²)/(r − h) at the height for 50 %, a lone rigid wheel"),
    heightByFriction: stated.length === 0
      ? undetermined("m", "no friction between wheel and edge is stated on the run sheet, column \"edge friction [1]\"")
      : combine([radius], (radiusM = Number.NaN) => stepByFriction(radiusM, mean(stated)), "m", `h = r·(1 − 1/√(1 + μ²)) with the stated μ = ${mean(stated).toPrecision(3)}, taken as exact; a lone rigid wheel`),
  };
}

function mixedFindings(group: readonly RunResult[], kept: readonly FitPoint[]): Finding[] {
  const used = group.filter((run) => kept.some((point) => point.run === run.plan.id));
  const loads = new Set(used.map((run) => run.plan.setLoadN));
  const speeds = new Set(used.map((run) => run.plan.setSpeedMps));
  return [
    ...(kept.length < fewTrials ? [finding("few-trials", "note", `${kept.length} trials: the interval is wide below about ${fewTrials}. Add trials near the height for 50 %.`, { measured: kept.length, limit: fewTrials })] : []),
    ...(loads.size > 1 || speeds.size > 1 ? [finding("mixed-trials", "look", "The trials on this curve were set to different loads or speeds, which move the height. Fit them apart.")] : []),
  ];
}

/** Chance and its 95 % band over a little more than the heights tried. */
function bandOf(logistic: LogisticFit, x: readonly number[]): ClimbCurve["band"] {
  const lowest = Math.min(...x);
  const reach = Math.max(...x) - lowest;
  const heights = Array.from({ length: bandPoints + 1 }, (_, i) => Math.max(0, lowest - 0.1 * reach + (1.2 * reach * i) / bandPoints));
  const [[aa, ab], [, bb]] = logistic.covariance;
  const chance = (eta: number): number => 1 / (1 + Math.exp(-eta));
  const eta = (h: number, times: number): number => logistic.intercept + logistic.slope * h + times * Math.sqrt(aa + 2 * h * ab + h ** 2 * bb);
  return { x: heights, value: heights.map((h) => chance(eta(h, 0))), low: heights.map((h) => chance(eta(h, -1.96))), high: heights.map((h) => chance(eta(h, 1.96))) };
}
