import type { BedRecord, WheelRecord } from "../campaign/campaign.ts";
import type { DayResult } from "../processing/dayResult.ts";
import { dropFitsJson } from "./dropFitsJson.ts";
import { enduranceJson } from "./enduranceJson.ts";
import { bandJson, fitJson } from "./fitJson.ts";
import { pullCurveJson } from "./pullCurveJson.ts";
import { findingJson, runJson } from "./runJson.ts";
import { estimateJson, finite, sortedJson, stableJson } from "./stableJson.ts";
import type { Json } from "./stableJson.ts";
import { wheelSoilJson } from "./wheelSoilJson.ts";

/** results.json: everything the day gave, in SI units, with uncertainties and budgets. Described by `resultsSchema`. */
export function resultsJson(day: DayResult): string {
  const { campaign, soil } = day;
  const results: Json = {
    format: "drawbar results",
    formatVersion: 1,
    drawbarVersion: day.drawbarVersion,
    notes: {
      units: "SI throughout unless a key or a unit field says otherwise; slip is positive when driven, negative when skidding",
      uncertainties: "standardUncertainty is one standard deviation; null = not determined, and method says why. Budget effects are signed changes of the value per one standard uncertainty of the cause.",
      degreesOfFreedom: "null = unlimited",
      null: "null stands for every number that is missing or not finite",
    },
    rig: sortedJson(campaign.rig),
    files: campaign.files.map((file) => ({ file: file.file, sha256: file.sha256 })),
    wheels: campaign.wheels.map(wheelJson),
    beds: campaign.beds.map(bedJson),
    coneReadings: campaign.cones.map((cone) => ({ bed: cone.bed, position: cone.position, place: cone.place === undefined ? null : { xM: finite(cone.place.xM), yM: finite(cone.place.yM) }, depthM: finite(cone.depthM), indexPa: finite(cone.indexPa), line: cone.line })),
    issues: campaign.issues.map((issue) => ({ code: issue.code, at: issue.at, message: issue.message, hint: issue.hint, run: issue.run })),
    findings: day.findings.map(findingJson),
    unclaimedFiles: day.unclaimedFiles,
    runs: day.runs.map(runJson),
    rollingRadii: day.rollingRadii.map((radius) => ({ wheel: radius.wheel, loadN: finite(radius.loadN), runs: radius.runs, estimate: estimateJson(radius.estimate) })),
    deflections: day.deflections.map((curve) => ({
      wheel: curve.wheel,
      runs: curve.runs,
      loadN: curve.loadN.map(finite),
      deflectionM: curve.deflectionM.map(finite),
      uncertaintyM: curve.uncertaintyM.map(finite),
    })),
    circumferences: day.circumferences.map((round) => ({
      wheel: round.wheel,
      setLoadN: round.setLoadN === null ? null : finite(round.setLoadN),
      measure: round.measure,
      runs: round.runs,
      mean: estimateJson(round.mean),
      range: estimateJson(round.range),
      amplitude: estimateJson(round.amplitude),
      fit: fitJson(round.fit),
    })),
    conformity: day.conformity.map(({ index, area, ...one }) => ({ ...one, setLoadN: finite(one.setLoadN), index: estimateJson(index), area: estimateJson(area) })),
    coreDifferences: day.coreDifferences.map((pair) => ({
      wheel: pair.wheel,
      frame: pair.frame,
      setLoadN: pair.setLoadN === null ? null : finite(pair.setLoadN),
      runs: pair.runs,
      differences: pair.differences.map(({ measure, withCore, bare, core }) => ({ measure, withCore: estimateJson(withCore), bare: estimateJson(bare), core: estimateJson(core) })),
    })),
    climbCurves: day.climbCurves.map((curve) => ({
      wheel: curve.wheel,
      edge: curve.edge,
      runs: curve.runs,
      climbed: curve.climbed,
      failed: curve.failed,
      fit: fitJson(curve.fit),
      heights: curve.heights.map(({ chance, estimate, low, high }) => ({ chance, estimate: estimateJson(estimate), low: low === null ? null : finite(low), high: high === null ? null : finite(high) })),
      frictionAtHalf: estimateJson(curve.frictionAtHalf),
      heightByFriction: estimateJson(curve.heightByFriction),
      band: bandJson(curve.band),
    })),
    pullCurves: day.pullCurves.map(pullCurveJson),
    dropFits: day.dropFits.map(dropFitsJson),
    endurance: day.endurance === null ? null : enduranceJson(day.endurance),
    covariateEffects: day.covariateEffects.map(({ wheel, covariate, estimate, runs, middle }) => ({ wheel, covariate, estimate: estimateJson(estimate), runs, middle: finite(middle) })),
    repeatability: day.repeatability.map((row) => ({
      measure: row.measure,
      unit: row.unit,
      pooledSd: row.pooledSd === null ? null : finite(row.pooledSd),
      degreesOfFreedom: finite(row.degreesOfFreedom),
      conditions: row.conditions.map((condition) => ({ wheel: condition.wheel, condition: condition.condition, runs: condition.runs, mean: finite(condition.mean), sd: condition.sd === null ? null : finite(condition.sd), scatter: condition.scatter === null ? null : { sd: finite(condition.scatter.sd), degreesOfFreedom: finite(condition.scatter.degreesOfFreedom) }, estimate: estimateJson(condition.estimate) })),
    })),
    rankings: day.rankings.map(({ label, better, condition, repeated, places, unranked }) => ({
      label,
      better,
      condition,
      repeated,
      places: places.map(({ wheel, estimate, behind, probability, apart }) => ({ wheel, estimate: estimateJson(estimate), behind: behind === null ? null : estimateJson(behind), probability: probability === null ? null : finite(probability), apart })),
      unranked,
    })),
    coneTrend: day.coneTrend === null ? null : fitJson(day.coneTrend),
    coneIndexTrend: day.coneIndexTrend === null ? null : fitJson(day.coneIndexTrend),
    cones: day.cones.map((cone) => ({ bed: cone.bed, acceptance: cone.acceptance, gradient: estimateJson(cone.gradient), index: estimateJson(cone.index), profiles: cone.profiles.map(({ position, indexPa }) => ({ position, indexPa: finite(indexPa) })), findings: cone.findings.map(findingJson) })),
    soil: {
      pressureSinkage: soil.pressureSinkage === null ? null : fitJson(soil.pressureSinkage),
      plateWidths: soil.plateWidths.map((plate) => ({ widthM: finite(plate.widthM), runs: plate.runs, fit: fitJson(plate.fit), band: bandJson(plate.band) })),
      shearStrength: soil.shearStrength === null ? null : fitJson(soil.shearStrength),
      jointRegion: soil.jointRegion.map(([cohesion, angle]) => [finite(cohesion), finite(angle)]),
      shearCurves: soil.shearCurves.map((curve) => ({ normalStressPa: finite(curve.normalStressPa), runs: curve.runs, fit: fitJson(curve.fit) })),
    },
    wheelSoil: wheelSoilJson(day.wheelSoil),
  };
  return stableJson(results);
}

function wheelJson(wheel: WheelRecord): Json {
  return {
    id: wheel.id,
    radiusM: wheel.radiusM,
    widthM: wheel.widthM,
    massKg: wheel.massKg,
    lugs: wheel.lugs,
    lugHeightM: wheel.lugHeightM,
    flexible: wheel.flexible,
    description: wheel.description,
    bareFrame: wheel.bareFrame,
    factors: sortedJson(wheel.factors),
    line: wheel.line,
  };
}

function bedJson(bed: BedRecord): Json {
  return { id: bed.id, densityKgM3: bed.densityKgM3, moisture: bed.moisture, targetGradientPaM: bed.targetGradientPaM, remark: bed.remark, more: sortedJson(bed.more), line: bed.line };
}
