import type { Campaign } from "../../campaign/campaign.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { groupBy } from "../../core/groupBy.ts";
import { mean } from "../../numerics/statistics.ts";
import type { RunResult } from "../dayResult.ts";
import { dragAt, pick } from "../references.ts";
import type { References } from "../references.ts";

/** An offset must stand clear of its own uncertainty by this many standard deviations. */
const clear = 3;

interface Resistance {
  readonly run: string;
  readonly loadN: number;
  readonly forceN: number;
  readonly uncertaintyN: number;
}

/**
 * What a hard floor takes from a rolling wheel grows with the load from nothing: R = T/r − DP − T₀/r ≈ c·W. A part that is left at
 * no load is none of the wheel's: carriage friction inside the pull reading, or a zero that is off. Needs two loads of a wheel.
 */
export function floorOffset(runs: readonly RunResult[], campaign: Campaign, references: References): Finding[] {
  const floor = runs.filter((run) => run.plan.kind === "hardFloor" && (run.verdict === "go" || run.verdict === "look"));
  return [...groupBy(floor, (run) => run.plan.wheel ?? "")].flatMap(([id, own]) => {
    const wheel = campaign.wheels.find((candidate) => candidate.id === id);
    if (wheel === undefined) return [];
    const points = own.map((run) => resistance(run, (speed) => dragAt(wheel, speed, references))).filter((point) => point !== null).sort((a, b) => a.loadN - b.loadN);
    const low = points[0];
    const high = points.at(-1);
    if (low === undefined || high === undefined || high.loadN < 1.3 * low.loadN) return [];
    const share = low.loadN / (high.loadN - low.loadN);
    const offsetN = low.forceN + share * (low.forceN - high.forceN);
    const uncertaintyN = Math.hypot((1 + share) * low.uncertaintyN, share * high.uncertaintyN);
    const middleN = mean(points.map((point) => point.loadN));
    const limit = campaign.rig.tolerances.floorOffset;
    const part = Math.abs(offsetN) / middleN;
    if (part <= limit || Math.abs(offsetN) < clear * uncertaintyN) return [];
    return [finding("floor-offset", "look", `On the hard floor, wheel ${id} meets a resistance that does not vanish with the load: ${offsetN.toFixed(2)} N are left at no load (${low.run}, ${high.run}). Tow the empty carriage at the run's speed both ways and look whether its friction stands in the pull; look also at the zeros`, { channel: "drawbarPull", measured: part, limit })];
  });
}

function resistance(run: RunResult, drag: (speedRadPerS: number) => { readonly value: number; readonly standardUncertainty: number | null }): Resistance | null {
  const [torque, radius, pull, load, turning] = ["floorTorque", "rollingRadius", "drawbarPull", "verticalLoad", "wheelSpeed"].map((name) => pick(run, name));
  if (!torque || !radius || !pull || !load || !turning) return null;
  const taken = drag(turning.value);
  if (taken.standardUncertainty === null) return null;
  const forceN = (torque.value - taken.value) / radius.value - pull.value;
  const uncertaintyN = Math.hypot((torque.standardUncertainty ?? 0) / radius.value, taken.standardUncertainty / radius.value, pull.standardUncertainty ?? 0);
  return { run: run.plan.id, loadN: load.value, forceN, uncertaintyN };
}
