import { combine, undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import { slidingDistance } from "../models/slidingWear.ts";
import type { RunResult } from "../processing/dayResult.ts";
import { barred, measureOf } from "./refusedPoint.ts";

/**
 * Specific wear rate of a wheel: volume lost for each newton of load and metre of sliding.
 *
 *   k = (Δm/x) / ρ · Σ xᵢ / Σ Fᵢ xᵢ sᵢ/(1 − sᵢ)
 *
 * Mass lost per distance from the inspections; path, load and slip of each endurance run. Holds as far as the runs stand for
 * the whole distance inspected, and slip for all sliding: sinkage, steering and rocks slide more.
 *
 * @param lossPerDistance  Δm/x [kg/m]
 * @param runs             the wheel's endurance runs
 * @param density          ρ of what wears [kg/m³]; null = not stated
 * @returns                k [m³/(N·m)]
 * @source                 J. F. Archard, J. Appl. Phys. 24 (1953) 981, from memory; sliding: kinematics of a slipping wheel
 * @checked                tests/fitting/specificWear.test.ts
 */
export function specificWear(lossPerDistance: Estimate<"kg/m">, runs: readonly RunResult[], density: Estimate<"kg/m3"> | null): Estimate<"m3/(N.m)"> {
  const not = (reason: string): Estimate<"m3/(N.m)"> => undetermined("m3/(N.m)", reason);
  if (!Number.isFinite(lossPerDistance.value)) return not(lossPerDistance.method);
  if (density === null) return not("rig.yaml states no wearingDensity under endurance");
  const usable = runs.filter((run) => barred(run) === null);
  if (usable.length === 0) return not(runs.length === 0 ? "no endurance run of this wheel tells its load and slip" : `no endurance run of this wheel can be used: ${barred(runs[0] as RunResult)}`);
  const inputs: Estimate[] = [];
  for (const run of usable) {
    const read = ["distance", "verticalLoad", "slip"].map((name) => measureOf(run, name)?.estimate);
    const [, , slip] = read;
    if (slip === undefined) return not(`run ${run.plan.id} was braked, or its slip was not measured`);
    const lacking = read.find((estimate) => estimate === undefined || !Number.isFinite(estimate.value));
    if (lacking !== undefined) return not(`run ${run.plan.id}: ${lacking.method}`);
    if (!(slip.value > 0 && slip.value < 1)) return not(`run ${run.plan.id} had a slip of ${slip.value.toPrecision(3)}: nothing slid by it`);
    inputs.push(...(read as Estimate[]));
  }
  const value = (loss: number, rho: number, ...rest: readonly number[]): number => {
    let path = 0;
    let work = 0;
    for (let i = 0; i < rest.length; i += 3) {
      const [x, load, slip] = rest.slice(i, i + 3) as [number, number, number];
      path += x;
      work += load * slidingDistance(x, slip);
    }
    return (loss / rho) * (path / work);
  };
  return combine([lossPerDistance, density, ...inputs], value as (...values: number[]) => number, "m3/(N.m)", `mass lost over ${usable.map((run) => run.plan.id).join(", ")}, whose load and slip stand for the whole distance inspected`);
}
