import type { InspectionRecord } from "../campaign/campaign.ts";
import type { EnduranceResult, LoadDamage, WearTrend } from "../processing/enduranceResult.ts";
import { bandJson, fitJson } from "./fitJson.ts";
import { findingJson } from "./runJson.ts";
import { estimateJson, finite } from "./stableJson.ts";
import type { Json } from "./stableJson.ts";

/** Inspections and endurance runs, wear and its trends, damage, lives and demonstration. */
export function enduranceJson({ wheels, lives, demonstration }: EnduranceResult): Json {
  return {
    wheels: wheels.map((one) => ({
      wheel: one.wheel,
      inspections: one.inspections.map(({ record, mass, refused }) => ({ ...inspectionJson(record), mass: estimateJson(mass), refused })),
      trends: one.trends.map(trendJson),
      massLossPerDistance: estimateJson(one.massLossPerDistance),
      specificWear: estimateJson(one.specificWear),
      damage: one.damage === null ? null : damageJson(one.damage),
      findings: one.findings.map(findingJson),
    })),
    lives: {
      lives: lives.lives.map(({ wheel, distanceM, failed }) => ({ wheel, distanceM: finite(distanceM), failed })),
      survival: lives.survival.map(({ distanceM, share }) => ({ distanceM: finite(distanceM), share: finite(share) })),
      fit: fitJson(lives.fit),
      b10: estimateJson(lives.b10),
      b10Interval: intervalJson(lives.b10Interval),
    },
    demonstration: {
      verdict: demonstration.verdict,
      sentence: demonstration.sentence,
      reliability: demonstration.reliability === null ? null : finite(demonstration.reliability),
      needed: demonstration.needed.map(({ wheels: count, missions, distanceM }) => ({ wheels: count, missions: finite(missions), distanceM: finite(distanceM) })),
    },
  };
}

function inspectionJson(record: InspectionRecord): { readonly [key: string]: Json } {
  return {
    distanceM: record.distanceM,
    weighedKg: record.massKg,
    soilMassKg: record.soilMassKg,
    cleanedMassKg: record.cleanedMassKg,
    radiusM: record.radiusM,
    stiffnessNm: record.stiffnessNm,
    pullCoefficient: record.pullCoefficient,
    run: record.run,
    brokenElements: record.brokenElements,
    failed: record.failed,
    remark: record.remark,
    line: record.line,
  };
}

function trendJson(trend: WearTrend): Json {
  return {
    quantity: trend.quantity,
    form: trend.form,
    choice: trend.choice,
    fit: fitJson(trend.fit),
    band: bandJson(trend.band),
    predictionBand: bandJson(trend.predictionBand),
    atMission: estimateJson(trend.atMission),
    prediction: intervalJson(trend.prediction),
  };
}

function damageJson(damage: LoadDamage): Json {
  return {
    runs: damage.runs,
    distance: estimateJson(damage.distance),
    cycles: finite(damage.cycles),
    largestRangeN: damage.largestRangeN === null ? null : finite(damage.largestRangeN),
    damage: estimateJson(damage.damage),
    damageInterval: intervalJson(damage.damageInterval),
    atMission: estimateJson(damage.atMission),
    missionInterval: intervalJson(damage.missionInterval),
  };
}

function intervalJson(interval: { readonly low: number; readonly high: number } | null): Json {
  return interval === null ? null : { low: finite(interval.low), high: finite(interval.high) };
}
