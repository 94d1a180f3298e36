import type { BudgetRow, Estimate } from "../core/estimate.ts";
import type { Finding } from "../core/finding.ts";
import type { Fit, FitPoint } from "../core/fit.ts";
import type { Unit } from "../core/units.ts";
import { estimateFrom, undetermined } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import { binMeans } from "./measures/binMeans.ts";
import { normalStress } from "./measures/normalStress.ts";
import { pressCurve, shearPress } from "./measures/pressCurve.ts";
import type { PressCurve } from "./measures/pressCurve.ts";
import { recomputedRows } from "./measures/recomputedRows.ts";
import { fittedShearCurve, weightedShearModulus } from "./measures/shearModulus.ts";
import type { ShearCurve } from "./measures/shearModulus.ts";
import { shearStrengthOf } from "./measures/shearStrengthOf.ts";
import type { ShearPoint, ShearStrength } from "./measures/shearStrengthOf.ts";
import { virginLoading } from "./measures/virginLoading.ts";
import type { PreparedRun, Reduced } from "./preparedRun.ts";
import { refused } from "./pressSegments.ts";
import { shearPastPeak } from "./shearPastPeak.ts";

/** points a shear curve is thinned to */
const mostPoints = 60;
/** share of the fitted strength that the travel should reach; below, the strength is mostly extrapolated */
const reached = 0.85;
/** late rise beyond the fitted curve's own, as a share, that shows another curve than the exponential */
const unexplained = 0.03;

const names: readonly { readonly name: string; readonly symbol: string; readonly label: string; readonly unit: Unit }[] = [
  { name: "shearStrength", symbol: "τ_max", label: "Shear strength", unit: "Pa" },
  { name: "shearModulus", symbol: "K", label: "Shear deformation modulus, curve fit", unit: "m" },
  { name: "shearModulusWeighted", symbol: "K_w", label: "Shear deformation modulus, weighted logarithmic formula", unit: "m" },
];

/** What one shear curve gives: the strength by its shape, and K both ways. */
interface Reading {
  readonly strength: ShearStrength;
  readonly curve: ShearCurve;
  readonly weighted: number;
}

/**
 * With a peak, τ_max is the peak and K fits the points up to it; without one, τ_max and K are those of the fitted
 * exponential, whose strength the travel must come near.
 */
function read(points: readonly ShearPoint[]): Reading | null {
  const strength = shearStrengthOf(points);
  if (strength === null) return null;
  const peaked = strength.shape === "peaked";
  const used = peaked ? points.filter((point) => point.displacementM <= strength.peakDisplacementM) : points;
  const curve = fittedShearCurve(used, peaked ? strength.stressPa : null);
  return curve === null ? null : { strength, curve, weighted: weightedShearModulus(used, curve.strengthPa) };
}

/** A plate or ring sheared under a normal stress: strength, shear modulus, and the normal stress it really had. */
export function reduceShearRun(run: PreparedRun): Reduced {
  const { shearAreaM2, id } = run.plan;
  if (shearAreaM2 === null) return refused("shear-area-not-stated", "The run sheet states no shear area; without it there is no stress. Fill in shear area.");
  const reading = pressCurve(run, shearPress);
  if (reading === null) return refused("shear-channels-missing", "Shear force and shear displacement are needed, with at least 5 samples in common; record both.");
  const { curve, causes } = reading;
  const { kept: forwards } = virginLoading(curve.displacement);
  const toPoints = (data: PressCurve): ShearPoint[] => binMeans(forwards.map((i) => data.displacement[i] as number), forwards.map((i) => (data.force[i] as number) / shearAreaM2), mostPoints).map(({ x, y }) => ({ displacementM: x, stressPa: y }));
  const points = toPoints(curve);
  const result = read(points);
  if (result === null) return refused("no-shear-curve", "The shear stress over displacement is no curve that rises to a strength: too few points, or no strength within reach. Shear further.");
  const { strength, curve: fitted } = result;
  const peaked = strength.shape === "peaked";
  const travelM = (points[points.length - 1] as ShearPoint).displacementM;
  const share = 1 - Math.exp(-travelM / fitted.shearModulusM);
  const findings: Finding[] = [...reading.findings, ...(peaked ? [] : doubts(strength, fitted, travelM, share))];
  const from = curve.timesS[0] as number;
  const to = curve.timesS[forwards[forwards.length - 1] as number] as number;
  const normal = normalStress(run, shearAreaM2, from, to);
  findings.push(...normal.findings);

  const values = [fitted.strengthPa, fitted.shearModulusM, result.weighted];
  const rows = recomputedRows(curve, causes, (data) => {
    const again = read(toPoints(data));
    return again === null ? [Number.NaN, Number.NaN, Number.NaN] : [again.curve.strengthPa, again.curve.shearModulusM, again.weighted];
  });
  const rule = peaked ? `peaked: greatest mean of three neighbouring points, at ${(1000 * strength.peakDisplacementM).toFixed(1)} mm; K from the points up to it` : `no peak (${strength.shape} at the end): strength of the fitted exponential, of which ${(100 * share).toFixed(0)} % was reached`;
  const own = [Math.sqrt((fitted.covariance[0] as readonly number[])[0] as number), Math.sqrt((fitted.covariance[1] as readonly number[])[1] as number)];
  const estimates = names.map(({ unit }, i): Estimate => {
    const effect = own[Math.min(i, 1)] as number;
    const scatter: BudgetRow = { cause: "scatter about the shear curve", effect, sharedBy: null, degreesOfFreedom: Math.max(1, fitted.effectivePoints - 2) };
    const all = [scatter, ...(rows[i] as BudgetRow[])];
    if (!Number.isFinite(values[i])) return undetermined(unit, `${rule}: the data give no value`);
    if (reading.unknownCause !== null && i > 0) return undetermined(unit, `${rule}; no uncertainty, because ${reading.unknownCause}`, values[i] as number);
    if (all.some((row) => !Number.isFinite(row.effect))) return undetermined(unit, `${rule}; no uncertainty, because the shape of the curve changes when a cause of uncertainty moves`, values[i] as number);
    return estimateFrom(values[i] as number, unit, rule, all);
  });
  const outer = (i: number, j: number): number => (rows[i] as BudgetRow[]).reduce((sum, row, k) => sum + row.effect * ((rows[j] as BudgetRow[])[k] as BudgetRow).effect, (fitted.covariance[i] as readonly number[])[j] as number);
  const kept = new Set(peaked ? points.filter((point) => point.displacementM <= strength.peakDisplacementM) : points);
  const fit: Fit = {
    model: "shear stress over displacement",
    formula: "τ = τ_max (1 − e^(−j/K)); τ in Pa, j and K in m",
    parameters: names.slice(0, 2).map(({ name, symbol }, i) => ({ name, symbol, estimate: estimates[i] as Estimate })),
    covariance: [[outer(0, 0), outer(0, 1)], [outer(1, 0), outer(1, 1)]],
    points: points.map((point): FitPoint => ({ run: id, x: point.displacementM, y: point.stressPa, yUncertainty: null, kept: kept.has(point), reason: kept.has(point) ? "" : "after the peak: the exponential has none" })),
    residuals: fitted.residuals,
    degreesOfFreedom: kept.size - (peaked ? 1 : 2),
    verdict: "determined",
    sentence: `${rule}.`,
    findings,
  };
  const measures = names.map(({ name, label }, i) => ({ name, label, estimate: estimates[i] as Estimate, segment: null }));
  const past = peaked ? shearPastPeak(id, reading, (data) => toPoints(data).map(({ displacementM, stressPa }) => ({ x: displacementM, y: stressPa }))) : { fits: [], measures: [] };
  return {
    measures: [...measures, ...past.measures, { name: "normalStress", label: "Normal stress", estimate: normal.estimate, segment: null }],
    fits: [fit, ...past.fits],
    findings,
    segments: [{ kind: "loading", fromS: from, toS: to, reason: "from where the shear force sets in to the end of the shearing" }],
    windowChoices: [],
  };
}

/** What makes the strength of a curve without a peak doubtful. */
function doubts(strength: ShearStrength, fitted: ShearCurve, travelM: number, share: number): Finding[] {
  const found: Finding[] = [];
  if (share < reached) found.push(finding("shear-too-short", "look", `The travel of ${(1000 * travelM).toFixed(0)} mm reaches ${(100 * share).toFixed(0)} % of the fitted strength; the rest is extrapolated. Shear further.`, { channel: "shearForce", measured: share, limit: reached }));
  const at = (j: number): number => 1 - Math.exp(-j / fitted.shearModulusM);
  const expected = (at(travelM) - at((2 / 3) * travelM)) / at(0.9 * travelM);
  const excess = strength.lateRise - expected;
  if (excess > unexplained) found.push(finding("shear-still-rising", "look", `The stress still rises at the end of the travel, by ${(100 * strength.lateRise).toFixed(1)} % over the last third, more than the fitted curve's ${(100 * expected).toFixed(1)} %: the strength depends on how far you shear. State the travel with it.`, { channel: "shearForce", measured: strength.lateRise, limit: expected + unexplained }));
  return found;
}
