import { describe, expect, it } from "vitest";
import type { RunPlan } from "../../src/campaign/campaign.ts";
import { estimateFrom, undetermined } from "../../src/core/estimate.ts";
import type { Estimate } from "../../src/core/estimate.ts";
import { conditionMean, scatterCause } from "../../src/fitting/conditionMean.ts";
import { wheelRankingsFrom } from "../../src/fitting/wheelRankings.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import type { PullCurve, Repeatability } from "../../src/processing/dayResult.ts";
import type { Ranking } from "../../src/processing/ranking.ts";
import { agrees } from "../helpers/agrees.ts";
import { runResult } from "../helpers/runResult.ts";

const curve = (wheel: string, atSlip: Estimate<"1">): PullCurve => ({ wheel, setLoadN: 70, pass: 1, atSlip: [{ slip: 0.2, estimate: atSlip }], bestEfficiency: { efficiency: undetermined("1", "no torque"), slip: undetermined("1", "no torque") } }) as unknown as PullCurve;
const pull = (wheel: string, value: number, own: number, calibration = 0, degreesOfFreedom = 20): Estimate<"1"> =>
  estimateFrom(value, "1", "curve", [
    { cause: "calibration C", effect: calibration, sharedBy: "calibration C", degreesOfFreedom: Infinity },
    { cause: `own scatter, ${wheel}`, effect: own, sharedBy: null, degreesOfFreedom },
  ]);
const byPull = (...pulls: readonly (readonly [string, Estimate<"1">])[]): Ranking[] => wheelRankingsFrom({ pullCurves: pulls.map(([wheel, estimate]) => curve(wheel, estimate)), repeatability: [], climbCurves: [], endurance: null }, [], [], [0.2]);

describe("which wheel, and how sure", () => {
  it("tells two wheels apart whose intervals overlap because of one calibration", () => {
    const [ranking] = byPull(["A", pull("A", 0.3, 0.001, 0.02)], ["B", pull("B", 0.31, 0.001, 0.02)]);
    expect(ranking).toMatchObject({ label: "Pull coefficient at 20 % slip", better: "more", condition: "70 N", places: [{ wheel: "B", apart: false }, { wheel: "A", apart: true }] });
    agrees(ranking?.places[1]?.behind?.standardUncertainty as number, { expected: 0.001 * Math.SQRT2, relative: 1e-6, source: "the calibration drops out of the difference, worked by hand" });
  });

  it("does not tell apart what each wheel's own scatter hides, and leaves out who has no answer, with the reason", () => {
    const [ranking] = byPull(["A", pull("A", 0.3, 0.02)], ["B", pull("B", 0.31, 0.02)], ["C", undetermined("1", "two runs only")]);
    expect(ranking?.places.map(({ wheel, apart }) => [wheel, apart])).toEqual([["B", false], ["A", false]]);
    expect(ranking?.unranked).toEqual([{ wheel: "C", why: "two runs only" }]);
    expect(byPull(["A", pull("A", 0.3, 0.02)], ["C", undetermined("1", "two runs only")])).toEqual([]);
  });

  it("between like wheels somebody is told apart on fewer than 5 of 100 days", () => {
    const random = seededRandom(11);
    const days = 600;
    let wrong = 0;
    for (let day = 0; day < days; day++) {
      const [ranking] = byPull(...["A", "B", "C", "D", "E"].map((wheel) => [wheel, pull(wheel, 0.3 + 0.01 * random.normal(), 0.01, 0.02, 1e6)] as const));
      if (ranking?.places.some(({ apart }) => apart) === true) wrong++;
    }
    expect(wrong / days).toBeLessThan(0.05 + 3 * Math.sqrt((0.05 * 0.95) / days));
    // A rule that tells nobody apart would pass too.
    expect(wrong).toBeGreaterThan(days * 0.01);
  });
});

describe("from the means of repeats", () => {
  const pooled = { sd: 0.002, degreesOfFreedom: 4 };
  const mean = (value: number): Estimate => conditionMean([value, value].map((one, i) => estimateFrom(one, "m", "run", [{ cause: `noise ${one} ${i}`, effect: 0.001, sharedBy: null, degreesOfFreedom: 5 }])), pooled, "sinkageRunning");
  const plans = [["R1", 0.2, "A"], ["R2", 0.2, "B"], ["R3", 0.6, "A"], ["R4", 0.6, "B"]] as const;
  const runs = plans.map(([id, setSlip, wheel]) => runResult({ id, kind: "traction", setSlip, setLoadN: 70, wheel } as RunPlan, {}));
  const row: Repeatability = { measure: "sinkageRunning", unit: "m", pooledSd: pooled.sd, degreesOfFreedom: pooled.degreesOfFreedom, conditions: plans.map(([id, slip, wheel], i) => ({ wheel, condition: `slip ${slip}`, runs: [id], mean: 0, sd: null, scatter: pooled, estimate: mean(0.01 + 0.003 * i) })) };
  const rankings = wheelRankingsFrom({ pullCurves: [], repeatability: [row], climbCurves: [], endurance: null }, runs, [], [0.2]);

  it("less sinkage is better, at the set slip at which pull is read", () => {
    expect(rankings.map(({ condition, better, repeated }) => ({ condition, better, repeated }))).toEqual([{ condition: "slip 0.2", better: "less", repeated: true }]);
    expect(rankings[0]?.places.map(({ wheel }) => wheel)).toEqual(["A", "B"]);
    agrees(rankings[0]?.places[1]?.behind?.value as number, { expected: 0.003, relative: 1e-9, source: "0.013 m less 0.010 m" });
  });

  it("the pooled scatter does not drop out of the difference, and its degrees of freedom count once", () => {
    const behind = rankings[0]?.places[1]?.behind as Estimate;
    // Each mean of two carries s_p/√2, so their difference carries s_p.
    agrees(behind.standardUncertainty as number, { expected: pooled.sd, relative: 1e-9, source: "variances of two means of two, worked by hand" });
    agrees(behind.degreesOfFreedom, { expected: pooled.degreesOfFreedom, relative: 1e-9, source: "one pooled variance behind both" });
    expect(rankings[0]?.places[0]?.estimate.budget.some(({ cause }) => cause.startsWith(scatterCause("")))).toBe(true);
  });
});
