import type { Campaign, RunPlan, WheelRecord } from "../campaign/campaign.ts";
import type { Rig } from "../campaign/rigSchema.ts";
import { combine, estimateFrom, undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import type { Unit } from "../core/units.ts";
import { groupBy } from "../core/groupBy.ts";
import type { DeflectionCurve, RollingRadius, RunResult } from "./dayResult.ts";
import { deflectionAt, deflectionCurveFrom } from "./deflectionCurve.ts";
import { loadedRadius, recordedRadius } from "./measures/loadedRadius.ts";

/** Drag of a wheel spinning free in the air, at one speed. */
export interface FreeSpinDrag {
  readonly wheel: string;
  readonly run: string;
  readonly wheelSpeed: Estimate<"rad/s">;
  readonly torque: Estimate<"N.m">;
}

/** What other runs of the day give to a traction run. */
export interface References {
  readonly rollingRadii: readonly RollingRadius[];
  readonly drags: readonly FreeSpinDrag[];
  readonly deflections: readonly DeflectionCurve[];
}

/** Kinds of run that are driven or pressed under a load, and rest on what was measured of their wheel at it. */
const loaded: readonly RunPlan["kind"][] = ["traction", "sweep", "endurance", "footprint"];

/** What one run rests on: nothing, unless it is under load, and then what was measured of its own wheel. */
export function restsOn(plan: RunPlan, { rollingRadii, drags, deflections }: References): References {
  const own = <T extends { readonly wheel: string }>(items: readonly T[]): T[] => (loaded.includes(plan.kind) ? items.filter(({ wheel }) => wheel === plan.wheel) : []);
  return { rollingRadii: own(rollingRadii), drags: own(drags), deflections: own(deflections) };
}

/** A rolling radius serves loads up to this share beyond those it was measured at (common practice). */
const loadReach = 0.1;

/** What usable runs give to others: rolling radii, free-spin drags, deflections. */
export function referencesFrom(runs: readonly RunResult[], campaign: Campaign): References {
  const usable = runs.filter((run) => run.verdict === "go" || run.verdict === "look");
  const deflections = campaign.wheels.map((wheel) => deflectionCurveFrom(wheel.id, usable)).filter((curve) => curve !== null);
  return { rollingRadii: rollingRadiiFrom(runs), drags: freeSpinDragsFrom(runs), deflections };
}

/** Rolling radii by wheel and set load, repeats averaged; rejected and excluded runs do not count. */
export function rollingRadiiFrom(runs: readonly RunResult[]): RollingRadius[] {
  const usable = runs.filter((run) => run.plan.kind === "hardFloor" && (run.verdict === "go" || run.verdict === "look"));
  const groups = groupBy(usable, (run) => `${run.plan.wheel}\u0000${run.plan.setLoadN}`);
  const radii: RollingRadius[] = [];
  for (const group of groups.values()) {
    const parts = group.flatMap((run) => {
      const radius = pick(run, "rollingRadius");
      const load = pick(run, "verticalLoad");
      return radius === null || load === null || run.plan.wheel === null ? [] : [{ id: run.plan.id, wheel: run.plan.wheel, radius, load }];
    });
    const [first] = parts;
    if (first === undefined) continue;
    const average = (...values: number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
    radii.push({
      wheel: first.wheel,
      loadN: average(...parts.map((part) => part.load.value)),
      runs: parts.map((part) => part.id),
      estimate: combine(parts.map((part) => shared(part.radius, part.id)), average, "m", `mean of ${parts.length} hard-floor run${parts.length === 1 ? "" : "s"}`),
    });
  }
  return radii.sort((a, b) => a.wheel.localeCompare(b.wheel) || a.loadN - b.loadN);
}

/** What a reference run has for itself touches every run that rests on it. */
function shared<U extends Unit>(estimate: Estimate<U>, run: string): Estimate<U> {
  return { ...estimate, budget: estimate.budget.map((row) => ({ ...row, sharedBy: row.sharedBy ?? `reference run ${run}` })) };
}

export function freeSpinDragsFrom(runs: readonly RunResult[]): FreeSpinDrag[] {
  return runs.flatMap((run) => {
    if (run.plan.kind !== "freeSpin" || run.plan.wheel === null || (run.verdict !== "go" && run.verdict !== "look")) return [];
    const wheelSpeed = pick(run, "wheelSpeed");
    const torque = pick(run, "freeSpinDrag");
    return wheelSpeed === null || torque === null ? [] : [{ wheel: run.plan.wheel, run: run.plan.id, wheelSpeed: wheelSpeed as Estimate<"rad/s">, torque: shared(torque as Estimate<"N.m">, run.plan.id) }];
  });
}

/** A run's estimate by measure name; null when absent or without a value. */
export function pick(run: RunResult, name: string): Estimate | null {
  const found = run.measures.find((measure) => measure.name === name)?.estimate;
  return found === undefined || Number.isNaN(found.value) ? null : found;
}

/** The radius that slip is counted from, by the rig's declared policy; undetermined with the reason where the data lack it. */
export function slipRadius(rig: Rig, wheel: WheelRecord, loadN: number, references: References): Estimate<"m"> {
  const { policy, lugs } = rig.slipRadius;
  if (policy === "effective") return effectiveRadius(wheel, loadN, references, lugs === "without" ? wheel.lugHeightM : 0);
  if (policy === "unloaded") return recordedRadius(wheel, rig);
  return loadedRadius(wheel, rig, deflectionOf(wheel, loadN, references));
}

/**
 * Read between the loads of the hard-floor runs on a straight line over the wheel's deflection, where that was measured: the
 * radius follows the deflection, not the load. Beyond them (within a tenth) it lies between the nearest radius as it stands
 * and that radius less the whole further deflection; the middle is taken, their distance is the width of a rectangular distribution.
 */
function effectiveRadius(wheel: WheelRecord, loadN: number, references: References, lugHeightM: number): Estimate<"m"> {
  const own = references.rollingRadii.filter((radius) => radius.wheel === wheel.id).sort((a, b) => a.loadN - b.loadN);
  const lowest = own[0];
  const highest = own.at(-1);
  if (lowest === undefined || highest === undefined) return undetermined("m", `no usable hard-floor run of wheel ${wheel.id}, so its effective rolling radius is unknown`);
  if (wheel.flexible && (loadN < lowest.loadN * (1 - loadReach) || loadN > highest.loadN * (1 + loadReach))) {
    return undetermined("m", `the effective radius of wheel ${wheel.id} was measured from ${lowest.loadN.toFixed(0)} to ${highest.loadN.toFixed(0)} N; at ${loadN.toFixed(0)} N it would be an extrapolation`);
  }
  const less = lugHeightM === 0 ? "" : ", lug height taken off";
  const bend = (atN: number): number | null => {
    const deflection = deflectionOf(wheel, atN, references);
    return deflection.standardUncertainty === null ? null : deflection.value;
  };
  const above = own.findIndex((radius) => radius.loadN >= loadN);
  if (above <= 0) {
    const nearest = above === 0 ? lowest : highest;
    const [here, there] = wheel.flexible ? [bend(loadN), bend(nearest.loadN)] : [0, 0];
    const further = here === null || there === null ? 0 : here - there;
    const unknown = here === null || there === null ? `, as it stands: the deflection between ${nearest.loadN.toFixed(1)} and ${loadN.toFixed(1)} N is not known` : "";
    const cause = `how the radius of ${wheel.id} follows its deflection`;
    const shift = estimateFrom(further / 2, "m", "half the further deflection", [{ cause, effect: further / Math.sqrt(12), sharedBy: cause, degreesOfFreedom: Infinity, shape: "rectangular" }]);
    return combine([nearest.estimate, shift], (r = Number.NaN, d = Number.NaN) => r - d - lugHeightM, "m", `effective radius from the hard floor at ${nearest.loadN.toFixed(0)} N (${nearest.runs.join(", ")})${less}${unknown}`);
  }
  const a = own[above - 1] as RollingRadius;
  const b = own[above] as RollingRadius;
  const [low, at, high] = [bend(a.loadN), bend(loadN), bend(b.loadN)];
  const bends = wheel.flexible && low !== null && at !== null && high !== null && high > low;
  const share = bends ? (at - low) / (high - low) : (loadN - a.loadN) / (b.loadN - a.loadN);
  return combine([a.estimate, b.estimate], (ra = Number.NaN, rb = Number.NaN) => ra + share * (rb - ra) - lugHeightM, "m", `effective radius from the hard floor, between ${a.loadN.toFixed(0)} and ${b.loadN.toFixed(0)} N${bends ? " by the wheel's deflection" : ""}${less}`);
}

/** Deflection of the wheel on a hard plate at a load, as measured; a wheel recorded as rigid needs no measurement and has none. */
export function deflectionOf(wheel: WheelRecord, loadN: number, references: References): Estimate<"m"> {
  const curve = references.deflections.find((candidate) => candidate.wheel === wheel.id);
  if (curve === undefined && !wheel.flexible) return estimateFrom(0, "m", "recorded as rigid: no deflection", []);
  if (curve === undefined) return undetermined("m", `no usable load–deflection run of flexible wheel ${wheel.id}; its deflection cannot be told from sinkage`);
  return deflectionAt(curve, loadN);
}

/**
 * Free-spin drag at a wheel speed, on a straight line between the measured speeds; undetermined outside them by more than a
 * tenth, or with no run at all.
 */
export function dragAt(wheel: WheelRecord, speedRadPerS: number, references: References): Estimate<"N.m"> {
  const own = references.drags.filter((drag) => drag.wheel === wheel.id).sort((a, b) => a.wheelSpeed.value - b.wheelSpeed.value);
  const slowest = own[0];
  const fastest = own.at(-1);
  if (slowest === undefined || fastest === undefined) return undetermined("N.m", `no usable free-spin run of wheel ${wheel.id}`);
  if (speedRadPerS < slowest.wheelSpeed.value * (1 - loadReach) || speedRadPerS > fastest.wheelSpeed.value * (1 + loadReach)) {
    return undetermined("N.m", `free spin of wheel ${wheel.id} was measured from ${slowest.wheelSpeed.value.toFixed(2)} to ${fastest.wheelSpeed.value.toFixed(2)} rad/s, not at ${speedRadPerS.toFixed(2)}`);
  }
  const above = own.findIndex((drag) => drag.wheelSpeed.value >= speedRadPerS);
  if (above <= 0) return (above === 0 ? slowest : fastest).torque;
  const a = own[above - 1] as FreeSpinDrag;
  const b = own[above] as FreeSpinDrag;
  const share = (speedRadPerS - a.wheelSpeed.value) / (b.wheelSpeed.value - a.wheelSpeed.value);
  return combine([a.torque, b.torque], (ta = Number.NaN, tb = Number.NaN) => ta + share * (tb - ta), "N.m", `free-spin drag between ${a.run} and ${b.run}`);
}
