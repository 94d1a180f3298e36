import { undetermined } from "../core/estimate.ts";
import type { Measure } from "../core/measure.ts";
import { interpolateAt } from "../numerics/resample.ts";
import { welchPower } from "../numerics/spectrum.ts";
import { mean, standardDeviation } from "../numerics/statistics.ts";
import { sampleCount, timeAt } from "../core/recording.ts";
import { stepMeans, turnsOf } from "./byAngle.ts";
import { medianInterval } from "./conditioning/risingTime.ts";
import type { RevolutionWindow, Timed } from "./conditioning/window.ts";
import type { Curve } from "./dayResult.ts";
import { loadPerTorque } from "./measures/loadPerTorque.ts";
import { orderAmplitude } from "./measures/orderAmplitude.ts";
import type { TurnSamples } from "./measures/orderAmplitude.ts";
import { toEstimate } from "./measures/reading.ts";
import { find } from "./preparedRun.ts";
import type { PreparedRun } from "./preparedRun.ts";
import { doubtRows, timed } from "./rolling.ts";

const channels = [
  { name: "drawbarPull", short: "pull", label: "Pull", unit: "N" },
  { name: "verticalLoad", short: "load", label: "Load", unit: "N" },
  { name: "wheelTorque", short: "torque", label: "Torque", unit: "N.m" },
] as const;
/** Steps of the angle a mean revolution is kept in, at most; and lines of a spectrum. */
const mostSteps = 120;
const mostLines = 120;
/** Curves are for drawing: five digits are finer than a screen, and spare the results file. */
const drawn = (value: number): number => Number(value.toPrecision(5));
/** Steps of the angle in which load is held against torque. */
const couplingSteps = 48;
/** Samples a lug: fewer cannot show its ripple. */
const samplesPerLug = 4;
/** The spectrum goes this far past the lugs' passing, in orders of the wheel. */
const ordersShown = 3.5;

/** What comes round with the wheel: ripple at once a revolution and at the lugs' passing, the mean revolution, the pull's spectrum, load against torque. */
export function ripple(run: PreparedRun, window: RevolutionWindow): { readonly measures: readonly Measure[]; readonly curves: readonly Curve[] } {
  const angle = timed(run, "wheelAngle", "rad");
  if (angle === null) return { measures: [], curves: [] };
  const found = channels.flatMap((channel) => {
    const there = find(run, channel.name, channel.unit);
    return there === null ? [] : [{ ...channel, ...there, turns: turnsOf({ time: there.time, samples: there.channel.samples }, angle, window) }];
  });
  const measures = found.flatMap((channel) => amplitudes(run, window, channel));
  const curves = found.map(({ short, label, unit, turns }) => meanRevolution(`${short}ByAngle`, label, unit, turns));
  const load = found.find(({ name }) => name === "verticalLoad");
  const torque = found.find(({ name }) => name === "wheelTorque");
  const coupling = load === undefined || torque === undefined ? null : loadPerTorque(stepMeans(load.turns, couplingSteps), stepMeans(torque.turns, couplingSteps));
  if (coupling !== null) {
    measures.push(
      { name: "loadPerTorque", label: "Load per torque within the run", estimate: toEstimate(coupling.slope, run.plan.id, `slope of load over torque in ${couplingSteps} steps of the angle, revolution by revolution`), segment: window.segment },
      { name: "loadTorqueCorrelation", label: "Correlation of load and torque within the run", estimate: toEstimate(coupling.correlation, run.plan.id, `over ${couplingSteps} steps of the angle, revolution by revolution`), segment: window.segment },
    );
  }
  const pull = timed(run, "drawbarPull", "N");
  return { measures, curves: [...curves, ...(pull === null ? [] : spectrum(run, pull, window))] };
}

interface Found {
  readonly short: string;
  readonly label: string;
  readonly unit: "N" | "N.m";
  readonly channel: Parameters<typeof doubtRows>[0];
  readonly turns: readonly TurnSamples[];
}

function amplitudes(run: PreparedRun, window: RevolutionWindow, { short, label, unit, channel, turns }: Found): Measure[] {
  const lugs = run.wheel?.lugs ?? 0;
  const perTurn = Math.min(...turns.map(({ values }) => values.length));
  const orders = [{ order: 1, name: "Revolution", words: "once a revolution" }, ...(lugs > 1 ? [{ order: lugs, name: "Lug", words: `${lugs} times a revolution, as the lugs pass` }] : [])];
  const seen = orders.filter(({ order }) => perTurn >= samplesPerLug * order);
  const found = orderAmplitude(turns, seen.map(({ order }) => order));
  return orders.map((one): Measure => {
    const perRevolution = found?.[seen.indexOf(one)];
    const reading = perRevolution === undefined ? null : { unit, value: mean(perRevolution), perRevolution, rows: doubtRows(channel, mean(perRevolution), run.plan.id, false) };
    const estimate = reading === null ? undetermined(unit, `${perTurn} samples a revolution do not show what comes ${one.words}`) : toEstimate(reading, run.plan.id, `amplitude of what comes ${one.words} and keeps its place on the wheel`);
    return { name: `${short}Ripple${one.name}`, label: `${label} ripple ${one.order === 1 ? one.words : "as the lugs pass"}`, estimate, segment: window.segment };
  });
}

/** The mean over the revolutions at each angle of the wheel, with the standard uncertainty of that mean. */
function meanRevolution(name: string, label: string, unit: "N" | "N.m", turns: readonly TurnSamples[]): Curve {
  const steps = Math.max(1, Math.min(mostSteps, ...turns.map(({ values }) => values.length)));
  const rows = stepMeans(turns, steps);
  const columns = Array.from({ length: steps }, (_, step) => rows.map((row) => row[step] as number).filter(Number.isFinite));
  const uncertainty = columns.map((values) => (values.length < 2 ? Number.NaN : standardDeviation(values) / Math.sqrt(values.length)));
  return {
    name,
    x: { label: "wheel angle", unit: "rad", values: columns.map((_, step) => drawn((2 * Math.PI * (step + 0.5)) / steps)) },
    y: { label: label.toLowerCase(), unit, values: columns.map((values) => (values.length === 0 ? null : drawn(mean(values)))) },
    yUncertainty: uncertainty.some(Number.isNaN) ? null : uncertainty.map(drawn),
    method: `mean of ${turns.length} revolutions at each of ${steps} steps of the wheel's angle; its standard uncertainty from their scatter`,
  };
}

/** Amplitudes of the pull by frequency over the window, at most 120 lines: of neighbours the largest. */
function spectrum(run: PreparedRun, pull: Timed, window: RevolutionWindow): Curve[] {
  const { fromS, toS } = window.segment;
  const interval = medianInterval(pull.time);
  const count = Math.floor((toS - fromS) / interval);
  if (count < 16) return [];
  const times = Float64Array.from({ length: sampleCount(pull.time) }, (_, i) => timeAt(pull.time, i));
  const even = interpolateAt(times, pull.samples, Float64Array.from({ length: count }, (_, i) => fromS + i * interval));
  if (even.some(Number.isNaN)) return [];
  const { frequenciesHz, power } = welchPower(even, 1 / interval, { segmentLength: count });
  const turnsPerS = (window.boundariesS.length - 1) / (toS - fromS);
  const shownHz = ordersShown * Math.max(4, run.wheel?.lugs ?? 0) * turnsPerS;
  const lines = Array.from(frequenciesHz).filter((frequency) => frequency > 0 && frequency <= shownHz).length;
  const group = Math.max(1, Math.ceil(lines / mostLines));
  const largest = Array.from({ length: Math.floor(lines / group) }, (_, k) => {
    const from = 1 + k * group;
    let at = from;
    for (let i = from; i < from + group; i++) if ((power[i] as number) > (power[at] as number)) at = i;
    return { hz: frequenciesHz[at] as number, amplitude: Math.sqrt(2 * (power[at] as number)) };
  });
  return [{
    name: "pullSpectrum",
    x: { label: "frequency", unit: "Hz", values: largest.map(({ hz }) => drawn(hz)) },
    y: { label: "amplitude of the pull", unit: "N", values: largest.map(({ amplitude }) => drawn(amplitude)) },
    yUncertainty: null,
    method: `discrete Fourier transform of the window under a Hann window; the wheel turns ${turnsPerS.toFixed(4)} times a second`,
  }];
}
