import { pressLog } from "./benchRuns.ts";
import type { BenchLog } from "./benchRuns.ts";
import type { PlannedRun } from "./dayPlan.ts";
import type { SensorErrors } from "./rigTruth.ts";
import { seated } from "./unknowns.ts";
import type { Seating } from "./unknowns.ts";
import { deflection } from "./wheelTruth.ts";
import type { WheelTruth } from "./wheelTruth.ts";

const cycles = 4;
const topN = 145;
/** one loading, one unloading, pause between cycles, dwell at the top of the last cycle [s] */
const loadingS = 6;
const pauseS = 0.6;
const heldS = 60;
const restS = 1.5;
const approachM = 0.001;
/** the press finds the wheel at this speed */
const approachS = 0.8;

/** What a wheel has settled before cycle k, in its settling per loading: the first loading settles it threefold. */
const settledBefore = (k: number): number => (k === 0 ? 0 : k + 2);

/** One wheel pressed at one place of its rim: four cycles of force, the last held for a minute. */
export function roundPressRun(seed: number, run: PlannedRun, wheel: WheelTruth, errors: SensorErrors, seating: Seating | null = null): BenchLog {
  const firmness = 1 + wheel.unevenness * Math.cos((run.contactAngleRad as number) - 0.7);
  // the press sets the force; where the wheel seats, it has gone in as far as its own law does under another force
  const inwards = seating === null ? null : { ...seating, power: 1 / seating.power };
  const bend = (loadN: number): number => deflection(wheel, seated(loadN, 1, inwards) / firmness);
  const settled = (k: number, share: number): number => wheel.settlingM * (settledBefore(k) * (1 - share) + settledBefore(k + 1) * share);
  const up = (k: number, share: number): number => bend(share * topN) + settled(k, share);
  const giving = (share: number): number => share * topN * (1 - 4 * wheel.hysteresis * share * (1 - share));
  const crept = (t: number): number => wheel.creepM * Math.log10(1 + t / 0.5);
  const cycleS = 2 * loadingS + pauseS;
  const bytes = pressLog(seed, run, errors, (timeS) => {
    const t = timeS - restS - approachS;
    if (t < 0) return { forceN: 0, travelM: approachM * Math.max(0, 1 + t / approachS) };
    const k = Math.min(cycles - 1, Math.floor(t / cycleS));
    const inside = t - k * cycleS;
    const held = k === cycles - 1 ? heldS : 0;
    if (inside < loadingS) return { forceN: (inside / loadingS) * topN, travelM: approachM + up(k, inside / loadingS) };
    const dwell = Math.min(inside - loadingS, held);
    const back = (inside - loadingS - held) / loadingS;
    if (back <= 0) return { forceN: topN, travelM: approachM + up(k, 1) + crept(dwell) };
    if (back > 1 && k === cycles - 1 && back > 1.15) return null;
    const share = Math.max(0, 1 - back);
    return { forceN: giving(share), travelM: approachM + bend(share * topN) + settled(k, 1) + (held === 0 ? 0 : crept(held)) };
  });
  const loadN = run.loadN as number;
  const used = Array.from({ length: cycles - 1 }, (_, i) => up(i + 1, loadN / topN));
  const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
  return {
    bytes,
    truth: {
      deflectionM: mean(used),
      secantStiffnessNm: mean(used.map((value) => loadN / value)),
      loopEnergyJ: mean([1, 2].map((k) => loop((share) => up(k, share), (share) => bend(share * topN) + settled(k, 1), giving))),
      settlingPerCycleM: wheel.settlingM,
      settlingTotalM: up(cycles - 1, loadN / topN) - up(0, loadN / topN),
      creepPerTenfoldTimeM: wheel.creepM,
      // from a fiftieth of the dwell to its end, each as the mean over a stretch of 1/24 of that ratio of times
      creepDuringDwellM: crept(0.925 * heldS) - crept(0.0218 * heldS),
      firmness,
    },
  };
}

/** ∮ F dδ of one cycle, closed by a straight line, in a thousand steps. */
function loop(up: (share: number) => number, down: (share: number) => number, giving: (share: number) => number): number {
  const steps = 1000;
  let area = 0;
  for (let i = 0; i < steps; i++) {
    const [a, b] = [i / steps, (i + 1) / steps];
    area += 0.5 * (a + b) * topN * (up(b) - up(a));
    area -= 0.5 * (giving(a) + giving(b)) * (down(b) - down(a));
  }
  return area;
}
