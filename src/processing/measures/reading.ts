import { estimateFrom, mergeRows, partial, undetermined } from "../../core/estimate.ts";
import type { BudgetRow, Estimate } from "../../core/estimate.ts";
import type { Unit } from "../../core/units.ts";
import { slopeScatter } from "../../numerics/slopeScatter.ts";
import { effectiveSampleSize, lag1Autocorrelation, mean, standardDeviation } from "../../numerics/statistics.ts";

/**
 * A quantity over a window of whole wheel revolutions: its value, its values revolution by revolution, and every
 * uncertainty that the revolutions share (calibration, zero, radius …).
 */
export interface Reading<U extends Unit = Unit> {
  readonly unit: U;
  readonly value: number;
  readonly perRevolution: readonly number[];
  readonly rows: readonly BudgetRow[];
  /** present where a speed stands behind the value */
  readonly motion?: Motion;
  /** how the value came about; absent = it was read */
  readonly from?: { readonly inputs: readonly Reading[]; readonly f: (...values: number[]) => number };
}

/**
 * How unevenly the wheel and the carriage moved. A drive that runs fast for a while and then slow comes back to its place,
 * so a speed over the window is far better known than the speeds of single revolutions scatter; what counts is how far the
 * path strays from even motion.
 */
export interface Motion {
  /** the revolutions' values, had every speed been that of the window */
  readonly even: readonly number[];
  /** how far the path behind the value strays from its straight line, in equal parts of the window [unit of the value · s] */
  readonly stray: readonly number[];
  /** length of the window [s] */
  readonly windowS: number;
}

/**
 * A constant as a Reading: the same in every revolution.
 *
 * @param estimate     the constant, with its budget [its own unit]
 * @param revolutions  how many revolutions the window holds
 * @returns            a Reading without scatter; its doubt is the constant's budget
 * @source             a definition
 * @checked            tests/processing/measures/reading.test.ts
 */
export function constantReading<U extends Unit>(estimate: Estimate<U>, revolutions: number): Reading<U> {
  return { unit: estimate.unit, value: estimate.value, perRevolution: new Array<number>(revolutions).fill(estimate.value), rows: estimate.budget };
}

/**
 * A function of Readings, to first order; causes that inputs share stay coherent, and the scatter is that of the function
 * itself from revolution to revolution, so that correlated ripple of load and pull cancels where it should.
 *
 *   u_c = Σ (∂f/∂xᵢ) u_c(xᵢ) for each cause c        f_k = f(x₁ₖ, x₂ₖ …) for each revolution k
 *
 * @param inputs  the Readings, all over the same revolutions
 * @param f       called with the inputs' values in order; differentiated by central differences
 * @param unit    unit of the result
 * @returns       the Reading of f; its value is f of the values, not the mean of f over the revolutions
 * @source        JCGM 100:2008, 5.1.2 and 5.2.2
 * @checked       tests/processing/measures/reading.test.ts
 */
export function derive<U extends Unit>(inputs: readonly Reading[], f: (...values: number[]) => number, unit: U): Reading<U> {
  const values = inputs.map((input) => input.value);
  const revolutions = inputs[0]?.perRevolution.length ?? 0;
  const rows = inputs.flatMap((input, index) => {
    const scale = Math.hypot(...input.rows.map((row) => row.effect));
    const slope = partial(f, values, index, scale);
    return input.rows.map((row) => ({ ...row, effect: row.effect * slope }));
  });
  const perRevolution = Array.from({ length: revolutions }, (_, i) => f(...inputs.map((input) => input.perRevolution[i] as number)));
  const reading = { unit, value: f(...values), perRevolution, rows: mergeRows(rows), from: { inputs, f } };
  const motion = motionOf(inputs, f, values, revolutions);
  return motion === null ? reading : { ...reading, motion };
}

/** The strayings of the inputs' paths add with their signs: what a pair of speeds has in common drops out of their ratio. */
function motionOf(inputs: readonly Reading[], f: (...values: number[]) => number, values: readonly number[], revolutions: number): Motion | null {
  const moving = inputs.flatMap(({ motion }, index) => (motion === undefined ? [] : [{ ...motion, slope: partial(f, values, index, Math.abs(values[index] as number) * 0.01) }]));
  const [first] = moving;
  if (first === undefined) return null;
  const even = Array.from({ length: revolutions }, (_, i) => f(...inputs.map((input) => (input.motion?.even ?? input.perRevolution)[i] as number)));
  return { even, stray: first.stray.map((_, i) => moving.reduce((sum, { stray, slope }) => sum + slope * (stray[i] as number), 0)), windowS: first.windowS };
}

/**
 * A Reading as an Estimate: the scatter between revolutions becomes a budget row with the effective number of revolutions,
 * and uneven motion another.
 *
 *   u = s / √n_eff        n_eff from the lag-1 autocorrelation of the revolution means, never above n
 *   u = scatter of the slope of a path that strays so from its straight line; see slopeScatter
 *
 * A run's n is its revolutions, not its samples. With fewer than two there is no scatter to judge by, and the uncertainty
 * is not determined.
 *
 * @param reading  the quantity over whole revolutions
 * @param run      the run's id, which names the scatter's budget row
 * @param method   how the value came about, in words
 * @returns        the Estimate [the reading's unit]; undetermined below two revolutions
 * @source n_eff: AR(1) variance of the mean, finite n; see effectiveSampleSize
 * @checked tests/processing/measures/reading.test.ts
 */
export function toEstimate<U extends Unit>(reading: Reading<U>, run: string, method: string): Estimate<U> {
  const n = reading.perRevolution.length;
  if (n < 2) return undetermined(reading.unit, `${method}; the uncertainty needs at least two whole revolutions, the window holds ${n}`, reading.value);
  const rows = [scatterRow(reading.motion?.even ?? reading.perRevolution, run)];
  if (reading.motion !== undefined) {
    const { standardError, degreesOfFreedom } = slopeScatter(reading.motion.stray, reading.motion.windowS);
    rows.push({ cause: `uneven motion, ${run}`, effect: standardError, sharedBy: null, degreesOfFreedom });
  }
  return estimateFrom(reading.value, reading.unit, method, [...reading.rows, ...rows]);
}

function scatterRow(perRevolution: readonly number[], run: string): BudgetRow {
  const n = perRevolution.length;
  // The sample autocorrelation of a short series is biased by about −1/n; below five revolutions it says nothing.
  const lag1 = n < 5 ? 0 : Math.max(0, lag1Autocorrelation(perRevolution) + 1 / n);
  const count = Math.max(2, effectiveSampleSize(n, Math.min(lag1, 0.9)));
  return { cause: `scatter between revolutions, ${run}`, effect: standardDeviation(perRevolution) / Math.sqrt(count), sharedBy: null, degreesOfFreedom: count - 1 };
}

/**
 * Mean and scatter of a Reading's revolutions, for the checks.
 *
 * @param reading  the quantity over whole revolutions
 * @returns        mean and standard deviation (n − 1) of the revolution values [the reading's unit]; no scatter where there is one revolution
 * @source         definitions of mean and standard deviation
 * @checked        tests/processing/measures/reading.test.ts
 */
export function spread(reading: Reading): { readonly mean: number; readonly sd: number } {
  return { mean: mean(reading.perRevolution), sd: reading.perRevolution.length > 1 ? standardDeviation(reading.perRevolution) : 0 };
}
