import type { Campaign, WheelRecord } from "../campaign/campaign.ts";
import { combine } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import type { FitPoint } from "../core/fit.ts";
import type { PlateCurve } from "../models/plateCurve.ts";
import type { DeflectionCurve, RunResult } from "../processing/dayResult.ts";
import { barred, measureOf, refusedPoint } from "./refusedPoint.ts";

/** A wheel as the wheel–soil model sees it. */
export interface WheelSubject {
  readonly id: string;
  /** radius of the rim, without lugs [m] */
  readonly rimM: number;
  readonly widthM: number;
  /** how many round the wheel; 0 = none */
  readonly lugs: number;
  readonly lugHeightM: number;
  /** load against deflection on a hard plate; null = taken as rigid */
  readonly curve: PlateCurve | null;
}

/**
 * What is compared with a wheel–soil model.
 *
 * @source    common practice
 * @checked   tests/fitting/wheelObservations.test.ts
 */
export const quantities = ["pull", "torque", "sinkage"] as const;
/** One of them. */
export type WheelQuantity = (typeof quantities)[number];

/** What one run measured of one wheel at one load and slip. */
export interface WheelObservation {
  readonly run: string;
  readonly bed: string | null;
  /** γ of the bed, density times gravity [N/m³]; null = its density was not stated */
  readonly unitWeight: number | null;
  readonly wheel: WheelSubject;
  /** driven 1 − v/(rω), braked rω/v − 1 (below zero) */
  readonly slip: Estimate;
  readonly loadN: number;
  /** set load, the group a run belongs to [N]; null = not stated */
  readonly setLoadN: number | null;
  /** as shares of the order of one: pull/W, torque/(R W), sinkage/R, R to the lugs' tips */
  readonly measured: Readonly<Partial<Record<WheelQuantity, Estimate<"1">>>>;
}

/** What of a campaign the observations rest on. */
export interface WheelSurroundings {
  readonly wheels: readonly WheelRecord[];
  readonly beds: readonly Pick<Campaign["beds"][number], "id" | "densityKgM3">[];
  readonly rig: { readonly gravity: number };
}

const names: Readonly<Record<WheelQuantity, string>> = { pull: "pullCoefficient", torque: "wheelTorque", sinkage: "sinkageRunning" };

/**
 * The traction runs that a wheel–soil model can be fitted to.
 *
 * @param runs          all runs of the day
 * @param campaign      wheel records, beds and gravity
 * @param deflections   measured plate curves, by wheel
 * @returns             one observation per usable run, driven or braked; the others as refused points (slip, pull coefficient) with reasons
 * @source              common practice
 * @checked             tests/fitting/wheelObservations.test.ts
 */
export function wheelObservationsFrom(runs: readonly RunResult[], campaign: WheelSurroundings, deflections: readonly DeflectionCurve[]): { readonly observations: readonly WheelObservation[]; readonly refused: readonly FitPoint[] } {
  const observations: WheelObservation[] = [];
  const refused: FitPoint[] = [];
  for (const run of runs) {
    if (run.plan.kind !== "traction") continue;
    const found = observe(run, campaign, deflections);
    if (typeof found === "string") refused.push(refusedPoint(run, run.plan.setSlip, measureOf(run, "pullCoefficient")?.estimate.value, found));
    else observations.push(found);
  }
  return { observations, refused };
}

function observe(run: RunResult, { wheels, beds, rig }: WheelSurroundings, deflections: readonly DeflectionCurve[]): WheelObservation | string {
  const reason = barred(run);
  if (reason !== null) return reason;
  const record = wheels.find((wheel) => wheel.id === run.plan.wheel);
  if (record === undefined) return "its wheel has no record";
  const load = measureOf(run, "verticalLoad")?.estimate;
  const driven = measureOf(run, "slip")?.estimate;
  const braked = measureOf(run, "skid")?.estimate;
  const slip = driven ?? (braked === undefined ? undefined : negated(braked));
  if (load === undefined || slip === undefined || slip.standardUncertainty === null) return `no slip with an uncertainty: ${slip?.method ?? "none was measured"}`;
  if (!(slip.value > -1 && slip.value <= 1)) return `a slip of ${slip.value.toPrecision(3)} is outside what the model holds for`;
  const lugHeightM = record.lugs > 0 ? record.lugHeightM : 0;
  const tipM = record.radiusM + lugHeightM;
  const measured: Partial<Record<WheelQuantity, Estimate<"1">>> = {};
  for (const quantity of quantities) {
    const estimate = measureOf(run, names[quantity])?.estimate;
    if (estimate === undefined || estimate.standardUncertainty === null || !Number.isFinite(estimate.value)) continue;
    measured[quantity] =
      quantity === "torque" ? combine([estimate, load], (torque = Number.NaN, weight = Number.NaN) => torque / (tipM * weight), "1", estimate.method) : combine([estimate], (value = Number.NaN) => (quantity === "pull" ? value : value / tipM), "1", estimate.method);
  }
  if (Object.keys(measured).length === 0) return "neither pull nor torque nor sinkage has an uncertainty";
  const density = beds.find(({ id }) => id === run.plan.bed)?.densityKgM3 ?? null;
  const curve = record.flexible ? (deflections.find((one) => one.wheel === record.id) ?? null) : null;
  if (record.flexible && curve === null) return "the wheel is flexible and has no load–deflection run";
  return {
    run: run.plan.id, bed: run.plan.bed, unitWeight: density === null ? null : density * rig.gravity, slip, loadN: load.value, setLoadN: run.plan.setLoadN, measured,
    wheel: { id: record.id, rimM: record.radiusM, widthM: record.widthM, lugs: record.lugs, lugHeightM, curve: curve === null ? null : rising(curve) },
  };
}

function negated(estimate: Estimate): Estimate {
  return { ...estimate, value: -estimate.value, budget: estimate.budget.map((row) => ({ ...row, effect: -row.effect })) };
}

/** The measured curve without a first point at nothing and without points that noise put below the one before. */
function rising({ deflectionM, loadN }: DeflectionCurve): PlateCurve {
  const kept: { d: number; f: number }[] = [];
  deflectionM.forEach((d, i) => {
    const last = kept[kept.length - 1] ?? { d: 0, f: 0 };
    const f = loadN[i] as number;
    if (d > last.d && f > last.f) kept.push({ d, f });
  });
  return { deflectionM: kept.map(({ d }) => d), loadN: kept.map(({ f }) => f) };
}
