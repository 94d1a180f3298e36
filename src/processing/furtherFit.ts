import type { BudgetRow, Estimate } from "../core/estimate.ts";
import type { Fit } from "../core/fit.ts";
import type { Unit } from "../core/units.ts";
import { estimateFrom, undetermined } from "../core/estimate.ts";
import type { FormFit, FormPoint } from "./measures/formFit.ts";
import type { PressCurve, PressReading } from "./measures/pressCurve.ts";
import { recomputedRows } from "./measures/recomputedRows.ts";

/** A second form of a press run's curve, beside the one its kind of run reports first. */
export interface FurtherForm {
  readonly model: string;
  readonly formula: string;
  readonly constants: readonly { readonly name: string; readonly symbol: string; readonly unit: Unit }[];
  /** null where the points hold no such curve */
  readonly fit: (points: readonly FormPoint[]) => FormFit | null;
}

/** The second form fitted to a run, its constants with what scatter and every cause of the reading do to them; null where the run holds no such curve. */
export function furtherFit(form: FurtherForm, run: string, reading: PressReading, toPoints: (data: PressCurve) => readonly FormPoint[]): Omit<Fit, "sentence"> | null {
  const points = toPoints(reading.curve);
  const found = form.fit(points);
  if (found === null) return null;
  const rows = recomputedRows(reading.curve, reading.causes, (data) => form.fit(toPoints(data))?.values ?? form.constants.map(() => Number.NaN));
  const method = `least squares over ${points.length} points`;
  const estimates = form.constants.map(({ unit }, i): Estimate => {
    const value = found.values[i] as number;
    const scatter: BudgetRow = { cause: `scatter about the curve, ${run}`, effect: Math.sqrt((found.covariance[i] as readonly number[])[i] as number), sharedBy: null, degreesOfFreedom: Math.max(1, found.effectivePoints - form.constants.length) };
    const all = [scatter, ...(rows[i] as BudgetRow[])];
    if (found.atBound[i] === true) return undetermined(unit, `${method}; it rests at its bound: the points do not tell it`, value);
    if (reading.unknownCause !== null) return undetermined(unit, `${method}; no uncertainty, because ${reading.unknownCause}`, value);
    if (all.some((row) => !Number.isFinite(row.effect))) return undetermined(unit, `${method}; no uncertainty, because the curve is another one when a cause of uncertainty moves`, value);
    return estimateFrom(value, unit, method, all);
  });
  const shared = (i: number, j: number): number => (rows[i] as BudgetRow[]).reduce((sum, row, k) => sum + row.effect * ((rows[j] as BudgetRow[])[k] as BudgetRow).effect, 0);
  return {
    model: form.model,
    formula: form.formula,
    parameters: form.constants.map(({ name, symbol }, i) => ({ name, symbol, estimate: estimates[i] as Estimate })),
    covariance: found.covariance.map((row, i) => row.map((value, j) => value + shared(i, j))),
    points: points.map(({ x, y }) => ({ run, x, y, yUncertainty: null, kept: true, reason: "" })),
    residuals: found.residuals,
    degreesOfFreedom: points.length - form.constants.length,
    verdict: found.atBound.includes(true) ? "atLimit" : "determined",
    findings: [],
  };
}
