import type { RunPlan } from "../campaign/campaign.ts";
import type { Finding } from "../core/finding.ts";
import type { Segment } from "../core/segment.ts";
import type { Intervals } from "../numerics/intervals.ts";
import type { Curve, CurveSide, RunResult } from "../processing/dayResult.ts";
import { fitJson } from "./fitJson.ts";
import { estimateJson, finite, sortedJson } from "./stableJson.ts";
import type { Json } from "./stableJson.ts";

/** One run: what was planned, what came out, why, and from which bytes. Traces stay in the report: they are for drawing only. */
export function runJson(run: RunResult): Json {
  return {
    id: run.plan.id,
    verdict: run.verdict,
    reasons: run.reasons,
    plan: planJson(run.plan),
    measures: run.measures.map((measure) => ({
      name: measure.name,
      label: measure.label,
      estimate: estimateJson(measure.estimate),
      segment: measure.segment === null ? null : segmentJson(measure.segment),
    })),
    curves: run.curves.map(curveJson),
    fits: run.fits.map(fitJson),
    findings: run.findings.map(findingJson),
    issues: run.issues.map((issue) => ({ code: issue.code, at: issue.at, message: issue.message, hint: issue.hint })),
    segments: run.segments.map(segmentJson),
    windowChoices: run.windowChoices.map((choice) => ({ label: choice.label, fromS: finite(choice.fromS), toS: finite(choice.toS), pullCoefficient: finite(choice.pullCoefficient) })),
    sampling: run.sampling.map((log) => ({ logger: log.logger, file: log.file, statedRateHz: log.statedRateHz, intervals: log.intervals === null ? null : intervalsJson(log.intervals) })),
    alignments: run.alignments.map((alignment) => ({
      logger: alignment.logger,
      method: alignment.method,
      offset: estimateJson(alignment.offset),
      ratePpm: { value: finite(alignment.ratePpm.value), standardUncertainty: alignment.ratePpm.standardUncertainty === null ? null : finite(alignment.ratePpm.standardUncertainty) },
    })),
    sources: run.sources.map((source) => ({ file: source.file, sha256: source.sha256, format: source.format, bytes: source.bytes, rowsRead: source.rowsRead, rowsRefused: source.rowsRefused })),
    steps: run.steps.map((step) => ({ name: step.name, version: step.version, parameters: sortedJson(step.parameters) })),
  };
}

/** Digits of a point of a curve: far beyond what is measured, and more than a picture shows. */
const curveDigits = 7;

function curveJson(curve: Curve): Json {
  const point = (value: number | null): number | null => (value === null || !Number.isFinite(value) ? null : Number(value.toPrecision(curveDigits)));
  const side = ({ label, unit, values }: CurveSide): Json => ({ label, unit, values: values.map(point) });
  return { name: curve.name, method: curve.method, x: side(curve.x), y: side(curve.y), yUncertainty: curve.yUncertainty === null ? null : curve.yUncertainty.map(point) };
}

export function findingJson(finding: Finding): Json {
  return {
    code: finding.code,
    severity: finding.severity,
    channel: finding.channel,
    fromS: finding.fromS === null ? null : finite(finding.fromS),
    toS: finding.toS === null ? null : finite(finding.toS),
    message: finding.message,
    measured: finding.measured === null ? null : finite(finding.measured),
    limit: finding.limit === null ? null : finite(finding.limit),
  };
}

function planJson(plan: RunPlan): Json {
  return {
    sheetId: plan.sheetId,
    kind: plan.kind,
    wheel: plan.wheel,
    bed: plan.bed,
    setLoadN: plan.setLoadN,
    setSlip: plan.setSlip,
    setSpeedMps: plan.setSpeedMps,
    repeat: plan.repeat,
    pass: plan.pass,
    block: plan.block,
    dropHeightM: plan.dropHeightM,
    plate: plan.plate === null ? null : { shape: plan.plate.shape, widthM: plan.plate.widthM, lengthM: plan.plate.lengthM },
    shearAreaM2: plan.shearAreaM2,
    normalStressPa: plan.normalStressPa,
    contactAngleRad: plan.contactAngleRad,
    footprint: plan.footprint === null ? null : { from: plan.footprint.from, ground: plan.footprint.ground },
    obstacle: plan.obstacle === null ? null : { heightM: plan.obstacle.heightM, edge: plan.obstacle.edge, friction: plan.obstacle.friction, climbed: plan.obstacle.climbed },
    remark: plan.remark,
    excluded: plan.excluded,
    line: plan.line,
    more: sortedJson(plan.more),
  };
}

function intervalsJson({ count, median, low, high, shortest, longest, jitter, gaps, missing, duplicates, backward, rollovers }: Intervals): Json {
  return { count, medianS: median, onePercentS: low, ninetyNinePercentS: high, shortestS: shortest, longestS: longest, jitterS: jitter, gaps, missing, duplicates, backward, rollovers };
}

function segmentJson(segment: Segment): Json {
  return { kind: segment.kind, fromS: finite(segment.fromS), toS: finite(segment.toS), reason: segment.reason };
}
