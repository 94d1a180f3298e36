import type { BudgetRow, Estimate } from "../core/estimate.ts";
import type { Finding } from "../core/finding.ts";
import type { Fit } from "../core/fit.ts";
import type { Measure } from "../core/measure.ts";
import type { Unit } from "../core/units.ts";
import { estimateFrom, undetermined } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import { fQuantile } from "../numerics/distributions.ts";
import { lineFit } from "../numerics/lineFit.ts";
import { mean, standardDeviation } from "../numerics/statistics.ts";
import { dwellCreep } from "./dwellCreep.ts";
import { complianceFit } from "./measures/complianceFit.ts";
import { displacementAtLoad, displacementRead } from "./measures/displacementAtLoad.ts";
import { dwellOf } from "./measures/dwell.ts";
import type { Dwell } from "./measures/dwell.ts";
import { loadCycles } from "./measures/loadCycles.ts";
import type { LoadCycle } from "./measures/loadCycles.ts";
import { loadedRadius } from "./measures/loadedRadius.ts";
import { loopEnergy, loopEnergyNoise } from "./measures/loopEnergy.ts";
import { lossFactor } from "./measures/lossFactor.ts";
import { normalPress, pressCurve } from "./measures/pressCurve.ts";
import type { PressCurve } from "./measures/pressCurve.ts";
import { recomputedRows } from "./measures/recomputedRows.ts";
import type { RecomputedCause } from "./measures/recomputedRows.ts";
import { secantStiffness } from "./measures/secantStiffness.ts";
import { settlingPerCycle } from "./measures/settlingPerCycle.ts";
import { tangentStiffness } from "./measures/tangentStiffness.ts";
import type { PreparedRun, Reduced } from "./preparedRun.ts";
import { pressSegments, refused } from "./pressSegments.ts";

/** growth of the deflection from the first used cycle to the last that a person should look at, as a share */
const settlingShare = 0.05;

/** A cycle, and whether its load was held at the top. */
interface PressCycle extends LoadCycle {
  readonly dwell: Dwell | null;
}

/** What is read from each cycle, in this order. `overHold`: a held load changes it, so cycles without one are preferred. `settles`: it grows from cycle to cycle as the wheel settles. */
const readings: readonly { readonly name: string; readonly label: string; readonly unit: Unit; readonly overHold?: true; readonly settles?: true; readonly of: (curve: PressCurve, cycle: LoadCycle, loadN: number) => number }[] = [
  { name: "deflection", label: "Deflection at the set load", unit: "m", settles: true, of: displacementAtLoad },
  { name: "secantStiffness", label: "Secant stiffness at the set load", unit: "N/m", settles: true, of: secantStiffness },
  { name: "tangentStiffness", label: "Tangent stiffness at the set load", unit: "N/m", of: (curve, cycle, loadN) => tangentStiffness(curve, cycle, loadN).stiffness },
  { name: "loopEnergy", label: "Energy of the load–deflection loop", unit: "J", overHold: true, of: (curve, cycle) => loopEnergy(curve, cycle)?.loop ?? Number.NaN },
  { name: "lossFactor", label: "Loss factor", unit: "1", overHold: true, of: (curve, cycle) => lossOf(curve, cycle) },
];

function lossOf(curve: PressCurve, cycle: LoadCycle): number {
  const energy = loopEnergy(curve, cycle);
  if (energy === null) return Number.NaN;
  const stored = (energy.loading + energy.unloading) / 2;
  return stored > 0 ? lossFactor(energy.loop, stored) : Number.NaN;
}

/** A wheel pressed on a hard plate: deflection, stiffness and loss at the set load (the greatest load if none is set). */
export function reduceLoadDeflectionRun(run: PreparedRun): Reduced {
  const reading = pressCurve(run, normalPress);
  if (reading === null) return refused("press-channels-missing", "Press force and press displacement are needed, with at least 5 samples in common; record both.");
  const { curve, causes } = reading;
  const found = loadCycles(curve);
  // The loading ends where the load is reached: what creeps in a dwell is no stiffness.
  const cycles = found.map((cycle): PressCycle => {
    const dwell = dwellOf(curve, cycle);
    return { ...cycle, dwell, peak: dwell?.from ?? cycle.peak };
  });
  if (cycles.length === 0) return refused("no-loading", "The press force never rises; nothing was loaded.");
  const findings: Finding[] = [...reading.findings];
  const used = cycles.length >= 3 ? cycles.slice(1) : cycles;
  const greatestOf = (data: PressCurve): number => Math.min(...used.map((cycle) => data.force[cycle.peak] as number));
  const greatestN = greatestOf(curve);
  const loadN = run.plan.setLoadN ?? greatestN;
  if (loadN > 1.02 * greatestN) findings.push(finding("set-load-not-reached", "reject", `The set load of ${loadN.toPrecision(4)} N was not reached: the press got to ${greatestN.toPrecision(4)} N. Load it further.`, { channel: "pressForce", measured: greatestN, limit: loadN }));
  const how = cycles.length >= 3 ? `mean of ${used.length} cycles, the first of ${cycles.length} left out as conditioning` : `mean of ${used.length} ${used.length === 1 ? "cycle" : "cycles"}, none left out`;
  if (used.length === 1) findings.push(finding("one-cycle", "note", "One usable cycle: how far the wheel repeats from cycle to cycle is not known from this run."));
  findings.push(...settling(curve, used, Math.min(loadN, greatestN)));

  const unheld = used.filter((cycle) => cycle.dwell === null);
  const cyclesFor = ({ overHold }: (typeof readings)[number]): readonly PressCycle[] => (overHold === true && unheld.length > 0 ? unheld : used);
  // The greatest load is a state the wheel was in: a gain that is off moves the number of newtons, not the state.
  const evaluate = (data: PressCurve): number[] => readings.map((reading) => meanOf(cyclesFor(reading).map((cycle) => reading.of(data, cycle, run.plan.setLoadN ?? greatestOf(data)))));
  const values = evaluate(curve);
  const rows = recomputedRows(curve, causes, evaluate);
  const measures = readings.map((read, index) => {
    const { name, label, unit, settles, of } = read;
    const scatter = cyclesFor(read).map((cycle) => of(curve, cycle, loadN)).filter((value) => Number.isFinite(value));
    const noise = noiseOf(run.plan.id, name, curve, cyclesFor(read), loadN);
    const estimate = toEstimate(values[index] as number, unit, `${label.toLowerCase()}, ${loadN.toPrecision(4)} N; ${how}${cyclesFor(read).length < used.length ? "; cycles with a held load left out" : ""}`, rows[index] as BudgetRow[], beyondNoise(betweenCycles(run.plan.id, scatter, settles === true), noise, name === "tangentStiffness"), reading.unknownCause);
    return { name, label, estimate, segment: null };
  });
  const fit: Fit = complianceFit(run.plan.id, curve, used, causes, reading.findings);
  const longest = cycles.flatMap(({ dwell }) => dwell ?? []).sort((a, b) => b.to - b.from - (a.to - a.from))[0];
  const creep = longest === undefined ? { measures: [], fits: [] } : dwellCreep(run.plan.id, curve, longest, causes);
  const deflection = measures[0] as Measure & { estimate: Estimate<"m"> };
  const radius: Measure[] = run.wheel === null ? [] : [{ name: "loadedRadius", label: "Loaded radius", estimate: loadedRadius(run.wheel, run.rig, deflection.estimate), segment: null }];
  return { measures: [...measures, ...radius, ...settlingMeasures(run, curve, cycles, used, loadN, causes), ...creep.measures], fits: [fit, ...creep.fits], findings, segments: pressSegments(curve, cycles), windowChoices: [] };
}

/** Mean of what the cycles gave; a cycle without an answer (no unloading) is left out; NaN when none has one. */
function meanOf(values: readonly number[]): number {
  const given = values.filter((value) => Number.isFinite(value));
  return given.length === 0 ? Number.NaN : mean(given);
}

function toEstimate(value: number, unit: Unit, method: string, rows: readonly BudgetRow[], scatter: readonly BudgetRow[], unknownCause: string | null): Estimate {
  if (!Number.isFinite(value)) return undetermined(unit, `${method}: the log holds no cycle that gives it`);
  if (unknownCause !== null) return undetermined(unit, `${method}; no uncertainty, because ${unknownCause}`, value);
  if (rows.some((row) => !Number.isFinite(row.effect))) return undetermined(unit, `${method}; no uncertainty, because the result vanishes when a cause of uncertainty moves`, value);
  return estimateFrom(value, unit, method, [...rows, ...scatter]);
}

/** Chance that cycles which differ by their samples' noise alone are taken to differ by more. */
const alarm = 0.05;

/**
 * What single samples leave open shows between the cycles too, but of two cycles that is a poor measure. The scatter between
 * cycles stands only where it is clearly greater than the noise of their samples explains, or where that noise is not known.
 * About a fitted branch the noise leaves out how well the curve stands for the branch: there the larger of the two stands.
 */
function beyondNoise(between: BudgetRow | null, noise: BudgetRow | null, fitted: boolean): BudgetRow[] {
  if (between === null || noise === null) return [between ?? noise].filter((row) => row !== null);
  if (fitted) return [between.effect > noise.effect ? between : noise];
  const clear = between.effect ** 2 > fQuantile(1 - alarm, between.degreesOfFreedom, noise.degreesOfFreedom) * noise.effect ** 2;
  return [clear ? between : noise];
}

/**
 * Settling over all cycles and from cycle to cycle. The contact drops out of both, and so do zero and gain of the force: they
 * move the reading of every cycle alike as long as its compliance stays. Read anew at other forces, they would only bring in
 * the noise of other samples.
 */
function settlingMeasures(run: PreparedRun, curve: PressCurve, cycles: readonly LoadCycle[], used: readonly LoadCycle[], loadN: number, causes: readonly RecomputedCause<PressCurve>[]): Measure[] {
  const { total, totalError, perCycle, perCycleError } = settlingPerCycle(curve, cycles, used, loadN);
  const alongTheWay = causes.filter(({ move }) => move(curve, 1).force === curve.force);
  const rows = recomputedRows(curve, alongTheWay, (data) => {
    const moved = settlingPerCycle(data, cycles, used, loadN);
    return [moved.total, moved.perCycle];
  });
  const build = (name: string, label: string, value: number, error: number, which: number, method: string): Measure => {
    const noise: BudgetRow = { cause: `scatter about the loading curve, ${run.plan.id}`, effect: error, sharedBy: null, degreesOfFreedom: Infinity };
    return { name, label, estimate: toEstimate(value, "m", method, rows[which] as BudgetRow[], [noise], null), segment: null };
  };
  return [
    build("settlingTotal", "Settling, last cycle against the first", total, totalError, 0, `growth of the deflection at ${loadN.toPrecision(4)} N from the first of ${cycles.length} cycles to the last, conditioning included`),
    build("settlingPerCycle", "Settling per cycle", perCycle, perCycleError, 1, `slope of the deflection at ${loadN.toPrecision(4)} N over the number of the cycle, ${used.length} used cycles`),
  ];
}

/** Scatter of the mean over the cycles; of a wheel that settles about the straight line of its settling, which is a measure of its own and no error of their mean. */
function betweenCycles(run: string, values: readonly number[], settles: boolean): BudgetRow | null {
  if (values.length < 2) return null;
  const line = settles && values.length > 2 ? lineFit(values.map((_, k) => k), values) : { residualSd: standardDeviation(values), degreesOfFreedom: values.length - 1 };
  return { cause: `scatter between cycles, ${run}`, effect: line.residualSd / Math.sqrt(values.length), sharedBy: null, degreesOfFreedom: line.degreesOfFreedom };
}

/** What the noise of single samples leaves open in one cycle's reading. */
interface Noise {
  readonly standardError: number;
  readonly degreesOfFreedom: number;
}

function scaled(noise: Noise | null, by: number): Noise | null {
  return noise === null ? null : { ...noise, standardError: noise.standardError * by };
}

/** By name of the reading: of a ratio, that of its part which the noise moves most. */
const noises: Readonly<Record<string, (curve: PressCurve, cycle: LoadCycle, loadN: number) => Noise | null>> = {
  deflection: displacementRead,
  secantStiffness: (curve, cycle, loadN) => {
    const read = displacementRead(curve, cycle, loadN);
    return scaled(read, loadN / read.displacement ** 2);
  },
  tangentStiffness: (curve, cycle, loadN) => tangentStiffness(curve, cycle, loadN),
  loopEnergy: (curve, cycle) => loopEnergyNoise(curve, cycle),
  lossFactor: (curve, cycle) => scaled(loopEnergyNoise(curve, cycle), Math.abs(lossOf(curve, cycle) / (loopEnergy(curve, cycle)?.loop ?? Number.NaN))),
};

/** The same in the mean over the cycles; null where it is not known. */
function noiseOf(run: string, name: string, curve: PressCurve, cycles: readonly LoadCycle[], loadN: number): BudgetRow | null {
  const given = cycles.flatMap((cycle) => noises[name]?.(curve, cycle, loadN) ?? []).filter((noise) => Number.isFinite(noise.standardError));
  if (given.length === 0) return null;
  return { cause: `noise of single samples, ${run}`, effect: Math.hypot(...given.map((noise) => noise.standardError)) / given.length, sharedBy: null, degreesOfFreedom: given.reduce((sum, noise) => sum + noise.degreesOfFreedom, 0) };
}

/** Deflection that keeps growing from cycle to cycle: the wheel settles or creeps. */
function settling(curve: PressCurve, used: readonly LoadCycle[], loadN: number): Finding[] {
  const first = displacementAtLoad(curve, used[0] as LoadCycle, loadN);
  const last = displacementAtLoad(curve, used[used.length - 1] as LoadCycle, loadN);
  const grown = (last - first) / first;
  if (used.length < 2 || !(Math.abs(grown) > settlingShare)) return [];
  const message = `The deflection at ${loadN.toPrecision(4)} N changes by ${(100 * grown).toFixed(1)} % from the first used cycle to the last: the wheel is still settling. Add conditioning cycles.`;
  return [finding("settling-between-cycles", "look", message, { channel: "pressDisplacement", measured: grown, limit: settlingShare })];
}
