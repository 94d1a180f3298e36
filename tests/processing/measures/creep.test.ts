import { expect, test } from "vitest";
import { seededRandom } from "../../../src/numerics/random.ts";
import { dwellCreep } from "../../../src/processing/dwellCreep.ts";
import { dwellPoints, exponentialCreep, logCreep } from "../../../src/processing/measures/creep.ts";
import { dwellOf } from "../../../src/processing/measures/dwell.ts";
import type { PressCurve } from "../../../src/processing/measures/pressCurve.ts";

const rateHz = 50;
const loadingS = 5;
const heldS = 120;

/** Loaded to 100 N in 5 s, held for two minutes while the wheel creeps, let go; 4 µm of noise. */
function held(creep: (t: number) => number, seed = 1): PressCurve {
  const random = seededRandom(seed);
  const curve = { timesS: [] as number[], force: [] as number[], displacement: [] as number[] };
  for (let i = 0; i < (2 * loadingS + heldS) * rateHz; i++) {
    const t = i / rateHz;
    const load = t < loadingS ? t / loadingS : t < loadingS + heldS ? 1 : 1 - (t - loadingS - heldS) / loadingS;
    curve.timesS.push(t);
    curve.force.push(100 * load + 0.2 * random.normal());
    curve.displacement.push(0.005 * load + (t < loadingS ? 0 : creep(Math.min(t - loadingS, heldS))) + 4e-6 * random.normal());
  }
  return curve;
}

const cycleOf = (curve: PressCurve) => ({ valley: 0, peak: curve.force.indexOf(Math.max(...curve.force)), end: curve.force.length - 1 });
const perDecade = 60e-6;
const byLog = (t: number): number => perDecade * Math.log10(1 + t / 0.5);
const runsOut = (t: number): number => 150e-6 * (1 - Math.exp(-t / 20));

test("a held load is found from where it is reached to where it is let go; a load that only turns is none", () => {
  const curve = held(byLog);
  const dwell = dwellOf(curve, cycleOf(curve));
  // 3 % of 5 s before the load is reached, and as long after it is let go
  expect((dwell?.from ?? 0) / rateHz).toBeCloseTo(loadingS * 0.97, 0);
  expect((dwell?.to ?? 0) / rateHz).toBeCloseTo(loadingS + heldS + 0.15, 0);
  const turning: PressCurve = { timesS: curve.timesS, force: curve.timesS.map((t) => 50 * (1 - Math.cos(t / 20))), displacement: curve.displacement };
  expect(dwellOf(turning, cycleOf(turning))).toBeNull();
});

test("each law finds its own constants", () => {
  const points = (creep: (t: number) => number) => {
    const curve = held(creep);
    const dwell = dwellOf(curve, cycleOf(curve));
    return dwellPoints(curve, dwell ?? { from: 0, to: 0 });
  };
  const log = logCreep(points(byLog));
  // log10(1 + t/0.5) is steeper than log10(t) by less than 1 % beyond 50 × 0.5 s, and by a fifth at the first point
  expect((log.parameters[1] as number) / perDecade).toBeCloseTo(0.95, 1);
  const [, a, tau] = exponentialCreep(points(runsOut)).parameters as [number, number, number];
  expect(a / 150e-6).toBeCloseTo(1, 1);
  expect(tau / 20).toBeCloseTo(1, 1);
});

test("the law that describes the dwell is determined, the other is not; the creep itself needs no law", () => {
  for (const [creep, which] of [[byLog, 0], [runsOut, 1]] as const) {
    const curve = held(creep);
    const { measures, fits } = dwellCreep("L1", curve, dwellOf(curve, cycleOf(curve)) ?? { from: 0, to: 0 }, []);
    expect(fits.map((fit) => fit.verdict)).toEqual(which === 0 ? ["determined", "undetermined"] : ["undetermined", "determined"]);
    const change = measures[0]?.estimate;
    const truth = creep(heldS) - creep(0.02 * heldS);
    expect(Math.abs((change?.value ?? 0) / truth - 1)).toBeLessThan(0.05);
    expect(measures.map((measure) => measure.estimate.standardUncertainty !== null)).toEqual([true, which === 0, which === 1]);
  }
});

test("without creep neither law is determined", () => {
  const curve = held(() => 0);
  const { measures, fits } = dwellCreep("L1", curve, dwellOf(curve, cycleOf(curve)) ?? { from: 0, to: 0 }, []);
  expect(fits.map((fit) => fit.verdict)).toEqual(["undetermined", "undetermined"]);
  expect(fits[0]?.sentence).toContain("no creep can be told");
  expect(measures[1]?.estimate.standardUncertainty).toBeNull();
});
