import { estimateFrom } from "../../src/core/estimate.ts";
import { sweptCurve } from "../../src/processing/measures/sweptCurve.ts";
import { dice } from "../demo/dice.ts";
import { shared } from "./reducedRun.ts";
import { note, tally } from "./tally.ts";
import type { Tally } from "./tally.ts";

const everyS = 4;
const reported = 0.2;
const cause = { gain: "calibration pull", radius: "reference run" } as const;

/** One sweep up to 60 % slip and back, one point a revolution: wheel, lag, hysteresis, noise, calibration and radius are drawn. */
export function sweepDay(seed: number): Tally {
  const counted = tally();
  const random = dice(seed, "sweep");
  const between = (low: number, high: number): number => low + (high - low) * random.uniform();
  const [rise, scale, resistance] = [between(0.3, 0.6), between(0.1, 0.2), between(0.05, 0.15)];
  const [lagS, hysteresis, noise] = [between(0, 3), between(-0.02, 0.04), between(0.001, 0.006)];
  const turns = Math.round(between(12, 18));
  const top = everyS * turns;
  const slipAt = (timeS: number): number => 0.01 + (0.59 / top) * (timeS <= top ? timeS : 2 * top - timeS);
  const pullAt = (slip: number): number => rise * (1 - Math.exp(-slip / scale)) - resistance;
  const [gain, off] = [0.004 * random.normal(), 0.001 * random.normal()];
  const points = Array.from({ length: 2 * turns + 1 }, (_, i) => {
    const timeS = everyS * i;
    const pull = pullAt(slipAt(timeS - lagS)) + (Math.sign(turns - i) * hysteresis) / 2;
    return { timeS, slip: 1 - (1 - slipAt(timeS)) / (1 + off) + 5e-4 * random.normal(), pull: pull * (1 + gain) + noise * random.normal() };
  });
  const meanPull = points.reduce((sum, { pull }) => sum + pull, 0) / points.length;
  const radius = estimateFrom(0.1, "m", "made", [shared(cause.radius, 1e-4)]);
  const swept = sweptCurve(points, "S", [shared(cause.gain, 0.004 * meanPull)], radius, [reported]);
  const where = `seed ${seed}`;
  note(counted, "lag of the pull, sweep", swept.lag, lagS, where);
  note(counted, "hysteresis, sweep", swept.hysteresis, hysteresis, where);
  note(counted, "pull at 20 % slip, sweep", swept.atSlip[0]?.estimate, pullAt(reported), where);
  note(counted, "slip rate, sweep", swept.slipRate, 0.59 / top, where);
  return counted;
}
