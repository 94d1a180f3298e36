import type { Drum, NoEquilibrium, WheelSoil } from "./wheelSoil.ts";

/** how well the load is met, as a share of it */
const tolerance = 1e-10;
const mostSteps = 60;

/**
 * The sinkage at which the ground carries a load.
 *
 * Load over sinkage is nearly a power law, so the search runs on logarithms: secant steps from Bekker's closed form,
 * halving where they leave the bracket. `load` is last called at the sinkage returned.
 *
 * @param wheel   R, b [m]
 * @param soil    for the first guess
 * @param loadN   W [N], > 0
 * @param load    W [N] at a sinkage [m], rising from 0
 * @returns       z [m], or the reason why no sinkage up to the axle carries the load
 * @source        first guess: M. G. Bekker 1956, closed form for shallow sinkage
 * @checked       tests/models/rigidWheel.test.ts
 */
export function sinkageAtLoad(wheel: Drum, soil: WheelSoil, loadN: number, load: (sinkageM: number) => number): number | NoEquilibrium {
  const { radiusM, widthM } = wheel;
  const target = Math.log(loadN);
  // logarithms of sinkage and load
  let [low, high] = [-Infinity, Math.log(radiusM)];
  let lowMiss = Number.NaN;
  let highMiss = Number.NaN;
  const guess = (3 * loadN) / ((3 - Math.min(soil.exponent, 2)) * widthM * soil.stiffness * Math.sqrt(2 * radiusM));
  let at = Math.min(high - 1e-3, Math.log(guess) / (soil.exponent + 0.5));
  for (let step = 0; step < mostSteps; step++) {
    const carried = load(Math.exp(at));
    // a braked wheel digs itself in: shear may outweigh the pressure while the sinkage is small
    const miss = carried > 0 ? Math.log(carried) - target : -Infinity;
    if (Math.abs(miss) < tolerance) return Math.exp(at);
    if (miss < 0) [low, lowMiss] = [at, miss];
    else [high, highMiss] = [at, miss];
    const slope = soil.exponent + 0.5;
    let next = Number.isFinite(lowMiss) && Number.isFinite(highMiss) ? low - (lowMiss * (high - low)) / (highMiss - lowMiss) : Number.isFinite(miss) ? at - miss / slope : at + 1;
    if (!(next > low && next < high) || step % 8 === 7) next = low === -Infinity ? at - 1 : (low + high) / 2;
    if (high - low < 1e-14) return { reason: "no sinkage meets the load: the load carried jumps there" };
    if (low > Math.log(radiusM) - 1e-9) return { reason: `the soil does not carry ${loadN.toPrecision(3)} N before the wheel is in up to its axle` };
    at = next;
  }
  return { reason: `no sinkage was found that carries ${loadN.toPrecision(3)} N` };
}
