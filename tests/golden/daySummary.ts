import { readdirSync, existsSync } from "node:fs";
import { join } from "node:path";
import type { Estimate } from "../../src/core/estimate.ts";
import type { Fit } from "../../src/core/fit.ts";
import type { DayResult } from "../../src/processing/dayResult.ts";

export const fixtures = "fixtures";

/** Folders of fixtures/ that are whole days. */
export function fixtureDays(): string[] {
  return readdirSync(fixtures).filter((name) => existsSync(join(fixtures, name, "rig.yaml"))).sort();
}

type Rounded = number | null;
type Pair = readonly [value: Rounded, standardUncertainty: Rounded];

export interface FitSummary {
  readonly model: string;
  readonly verdict: string;
  readonly parameters: Readonly<Record<string, Pair>>;
}

/** What a day gave, in numbers that a person can look through: values with their standard uncertainties, six digits. */
export interface DaySummary {
  readonly runs: Readonly<Record<string, { readonly verdict: string; readonly findings: readonly string[]; readonly measures: Readonly<Record<string, Pair>>; readonly fits: readonly FitSummary[] }>>;
  readonly pullCurves: readonly { readonly wheel: string; readonly setLoadN: Rounded; readonly fit: FitSummary; readonly atSlip: Readonly<Record<string, Pair>> }[];
  readonly soil: {
    readonly pressureSinkage: FitSummary | null;
    readonly plateWidths: readonly { readonly widthM: Rounded; readonly fit: FitSummary }[];
    readonly shearStrength: FitSummary | null;
    readonly shearCurves: readonly { readonly normalStressPa: Rounded; readonly fit: FitSummary }[];
  };
}

export function daySummary(day: DayResult): DaySummary {
  const { soil } = day;
  return {
    runs: Object.fromEntries(day.runs.map((run) => [run.plan.id, { verdict: run.verdict, findings: run.findings.map((found) => `${found.severity}: ${found.code}`), measures: Object.fromEntries(run.measures.map((measure) => [measure.name, pair(measure.estimate)])), fits: run.fits.map(fitSummary) }])),
    pullCurves: day.pullCurves.map((curve) => ({ wheel: curve.wheel, setLoadN: rounded(curve.setLoadN), fit: fitSummary(curve.fit), atSlip: Object.fromEntries(curve.atSlip.map((point) => [String(rounded(point.slip)), pair(point.estimate)])) })),
    soil: {
      pressureSinkage: soil.pressureSinkage === null ? null : fitSummary(soil.pressureSinkage),
      plateWidths: soil.plateWidths.map((plate) => ({ widthM: rounded(plate.widthM), fit: fitSummary(plate.fit) })),
      shearStrength: soil.shearStrength === null ? null : fitSummary(soil.shearStrength),
      shearCurves: soil.shearCurves.map((curve) => ({ normalStressPa: rounded(curve.normalStressPa), fit: fitSummary(curve.fit) })),
    },
  };
}

function fitSummary(fit: Fit): FitSummary {
  return { model: fit.model, verdict: fit.verdict, parameters: Object.fromEntries(fit.parameters.map((parameter) => [parameter.name, pair(parameter.estimate)])) };
}

function pair(estimate: Estimate): Pair {
  return [rounded(estimate.value), rounded(estimate.standardUncertainty)];
}

/** Six significant digits; null for what is missing or not finite. */
function rounded(value: number | null): Rounded {
  return value === null || !Number.isFinite(value) ? null : Number(value.toPrecision(6));
}

/** JSON with one measure or parameter a line, so that a change shows as a few lines. */
export function summaryText(summary: DaySummary): string {
  return `${JSON.stringify(summary, null, 1).replace(/\[\s+(null|-?[\d.e+-]+),\s+(null|-?[\d.e+-]+)\s+\]/g, "[$1, $2]")}\n`;
}
