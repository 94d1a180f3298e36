import type { Campaign, InspectionRecord } from "../campaign/campaign.ts";
import type { Rig } from "../campaign/rigSchema.ts";
import { estimateFrom, undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import type { Unit } from "../core/units.ts";
import type { RunResult } from "../processing/dayResult.ts";
import type { EnduranceResult, WearQuantity, WearTrend, WheelEndurance, WheelLife } from "../processing/enduranceResult.ts";
import { demonstration } from "./demonstration.ts";
import { judgedInspections } from "./inspectionFindings.ts";
import type { JudgedInspection } from "./inspectionFindings.ts";
import { lifeFit } from "./lifeFit.ts";
import { loadDamage } from "./loadDamage.ts";
import { barred, measureOf } from "./refusedPoint.ts";
import { soilFreeMass } from "./soilFreeMass.ts";
import { specificWear } from "./specificWear.ts";
import { wearTrend } from "./wearTrend.ts";

/**
 * What inspections and endurance runs say together: wear, its trend to the mission distance, damage, lives, demonstration.
 *
 *   one trend per wheel and quantity; one distribution of lives over all wheels
 *
 * @param runs       all runs of the day
 * @param campaign   the day's records
 * @returns          null when the day has neither inspections nor endurance runs
 * @source           common practice
 * @checked          tests/closure/endurance.test.ts
 */
export function enduranceFrom(runs: readonly RunResult[], { rig, inspections }: Pick<Campaign, "rig" | "inspections">): EnduranceResult | null {
  const driven = runs.filter((run) => run.plan.kind === "endurance" && run.plan.wheel !== null);
  const names = [...new Set([...inspections.map((one) => one.wheel), ...driven.map((run) => run.plan.wheel as string)])];
  if (names.length === 0) return null;
  const lives: WheelLife[] = [];
  const wheels = names.map((wheel): WheelEndurance => {
    const { judged, findings } = judgedInspections(inspections.filter((one) => one.wheel === wheel).map((record) => ({ record, mass: soilFreeMass(record, rig.endurance) })));
    const own = driven.filter((run) => run.plan.wheel === wheel);
    const life = lifeOf(wheel, judged);
    if (life !== null) lives.push(life);
    const trends = trendsOf(judged, runs, rig);
    const lossPerDistance = massLoss(trends.find((trend) => trend.quantity === "mass"));
    return { wheel, inspections: judged, trends, massLossPerDistance: lossPerDistance, specificWear: specificWear(lossPerDistance, own, wearingDensity(rig.endurance)), damage: loadDamage(own, rig.endurance), findings };
  });
  return { wheels, lives: lifeFit(lives), demonstration: demonstration(lives, rig.endurance) };
}

/** A wheel's last sound distance, or the one at which it was found failed; null without an inspection that counts. */
function lifeOf(wheel: string, judged: readonly JudgedInspection[]): WheelLife | null {
  const last = judged.filter((one) => one.refused === null).at(-1);
  return last === undefined ? null : { wheel, distanceM: last.record.distanceM, failed: last.record.failed };
}

const read: readonly { readonly quantity: WearQuantity; readonly label: string; readonly unit: Unit; readonly of: (one: JudgedInspection, runs: readonly RunResult[], endurance: Rig["endurance"]) => Estimate | null }[] = [
  { quantity: "mass", label: "Mass without soil", unit: "kg", of: ({ record, mass }) => (record.massKg === null && record.cleanedMassKg === null ? null : mass) },
  { quantity: "radius", label: "Radius", unit: "m", of: ({ record }, _, endurance) => stated(record, record.radiusM, "m", "radius", endurance?.radiusUncertainty) },
  { quantity: "stiffness", label: "Stiffness", unit: "N/m", of: ({ record }, _, endurance) => stated(record, record.stiffnessNm, "N/m", "stiffness", endurance?.stiffnessUncertainty) },
  { quantity: "pullCoefficient", label: "Pull coefficient", unit: "1", of: ({ record }, runs, endurance) => stated(record, record.pullCoefficient, "1", "pull coefficient", endurance?.pullUncertainty) ?? pullOf(record.run, runs) },
];

/** Quantities that were written down at no inspection have no trend. */
function trendsOf(judged: readonly JudgedInspection[], runs: readonly RunResult[], rig: Rig): WearTrend[] {
  return read.flatMap(({ quantity, label, unit, of }) => {
    const points = judged.flatMap((one) => {
      const estimate = of(one, runs, rig.endurance);
      return estimate === null ? [] : [{ at: `${one.record.wheel} after ${one.record.distanceM / 1000} km`, distanceM: one.record.distanceM, estimate, refused: one.refused }];
    });
    return points.length === 0 ? [] : [wearTrend(points, quantity, label, unit, rig.endurance?.missionDistance ?? null)];
  });
}

/** A reading as it was written down, with the uncertainty that rig.yaml gives such readings. */
function stated({ wheel, distanceM }: InspectionRecord, value: number | null, unit: Unit, what: string, u: number | undefined): Estimate | null {
  if (value === null) return null;
  if (u === undefined) return undetermined(unit, `rig.yaml states no uncertainty of a ${what} under endurance`, value);
  return estimateFrom(value, unit, "as written down", [{ cause: `reading of ${what}, wheel ${wheel} after ${distanceM / 1000} km`, effect: u, sharedBy: null, degreesOfFreedom: Infinity }]);
}

function pullOf(id: string | null, runs: readonly RunResult[]): Estimate | null {
  const run = runs.find((candidate) => candidate.plan.id === id);
  if (run === undefined) return null;
  const reason = barred(run);
  return reason !== null ? undetermined("1", `run ${run.plan.id}: ${reason}`) : (measureOf(run, "pullCoefficient")?.estimate ?? undetermined("1", `run ${run.plan.id} measured no pull coefficient`));
}

/** Mean loss over the distance inspected, from the trend's change. */
function massLoss(trend: WearTrend | undefined): Estimate<"kg/m"> {
  const change = trend?.fit.parameters[1]?.estimate;
  if (trend === undefined || change === undefined) return undetermined("kg/m", trend?.fit.sentence ?? "the wheel was never weighed");
  const last = Math.max(...trend.fit.points.filter((point) => point.kept).map((point) => point.x));
  return estimateFrom(-change.value / last, "kg/m", `change of the trend over ${last / 1000} km, a ${trend.form}`, change.budget.map((row) => ({ ...row, effect: -row.effect / last })));
}

function wearingDensity(endurance: Rig["endurance"]): Estimate<"kg/m3"> | null {
  if (endurance?.wearingDensity === undefined) return null;
  const { wearingDensity: value, wearingDensityUncertainty: u } = endurance;
  if (u === undefined) return undetermined("kg/m3", "rig.yaml states no wearingDensityUncertainty under endurance", value);
  return estimateFrom(value, "kg/m3", "as stated", [{ cause: "density of what wears", effect: u, sharedBy: "rig.yaml", degreesOfFreedom: Infinity }]);
}
