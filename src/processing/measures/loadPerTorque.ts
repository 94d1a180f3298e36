import { lineFit } from "../../numerics/lineFit.ts";
import type { Reading } from "./reading.ts";

/** How the load follows the torque within a run. */
export interface LoadPerTorque {
  /** slope of load over torque [1/m] */
  readonly slope: Reading<"1/m">;
  /** correlation coefficient [1] */
  readonly correlation: Reading<"1">;
}

/**
 * How much the vertical load moves with the torque inside the revolutions: an arm that carries the wheel turns torque into load.
 *
 *   W = W₀ + b T, least squares over the angle steps of each revolution;   b = 1/L for an arm of length L that reacts the torque
 *
 * Tells coupling, not its cause: lugs make load and torque swing together too. A slope counts where it stands clear of its
 * scatter from revolution to revolution.
 *
 * @param load     mean load in each angle step, a row a revolution [N]; NaN = no sample there
 * @param torque   mean torque in the same steps [N·m]
 * @returns        slope and correlation over the revolutions; null where a revolution has fewer than 8 steps or no torque ripple at all
 * @source         least squares; the lever of a trailing arm, common practice
 * @checked        tests/processing/measures/loadPerTorque.test.ts
 */
export function loadPerTorque(load: readonly (readonly number[])[], torque: readonly (readonly number[])[]): LoadPerTorque | null {
  const fits = load.map((row, turn) => {
    const pairs = row.flatMap((w, i) => {
      const t = torque[turn]?.[i] ?? Number.NaN;
      return Number.isFinite(w) && Number.isFinite(t) ? [{ w, t }] : [];
    });
    if (pairs.length < 8 || pairs.every((pair) => pair.t === pairs[0]?.t)) return null;
    const [t, w] = [pairs.map((pair) => pair.t), pairs.map((pair) => pair.w)];
    const { slope } = lineFit(t, w);
    const back = w.every((value) => value === w[0]) ? 0 : lineFit(w, t).slope;
    return { slope, correlation: Math.sign(slope) * Math.sqrt(Math.max(0, slope * back)) };
  });
  if (fits.length === 0 || fits.some((fit) => fit === null)) return null;
  const solved = fits as { slope: number; correlation: number }[];
  const reading = <U extends "1" | "1/m">(unit: U, values: number[]): Reading<U> => ({ unit, value: values.reduce((sum, value) => sum + value, 0) / values.length, perRevolution: values, rows: [] });
  return { slope: reading("1/m", solved.map((fit) => fit.slope)), correlation: reading("1", solved.map((fit) => fit.correlation)) };
}
