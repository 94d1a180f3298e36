import type { BudgetRow } from "../core/estimate.ts";
import type { Finding } from "../core/finding.ts";
import type { Channel, TimeBase } from "../core/recording.ts";
import type { Unit } from "../core/units.ts";
import { mean } from "../numerics/statistics.ts";
import { meanOver, slopeOver, strayOver } from "./conditioning/slope.ts";
import { revolutionWindow } from "./conditioning/window.ts";
import type { RevolutionWindow, Timed } from "./conditioning/window.ts";
import type { Motion, Reading } from "./measures/reading.ts";
import { find } from "./preparedRun.ts";
import type { PreparedRun } from "./preparedRun.ts";

/** Outer diameter of the wheel, lugs included [m]; 0 when the wheel is unknown. */
export function outerDiameter(run: PreparedRun): number {
  return run.wheel === null ? 0 : 2 * (run.wheel.radiusM + run.wheel.lugHeightM);
}

/** The steady window of a rolling run; `travels` is false for a wheel spinning in the air. */
export function rollingWindow(run: PreparedRun, travels: boolean): { readonly window: RevolutionWindow | null; readonly findings: readonly Finding[] } {
  const angle = timed(run, "wheelAngle", "rad");
  const position = travels ? timed(run, "carriagePosition", "m") : null;
  const missing = [...(angle === null ? ["wheelAngle"] : []), ...(travels && position === null ? ["carriagePosition"] : [])];
  if (angle === null || missing.length > 0) {
    return { window: null, findings: missing.map((name) => ({ code: "channel-missing", severity: "reject" as const, channel: name, fromS: null, toS: null, message: `No logger of this run records ${name}; whole revolutions cannot be found without it`, measured: null, limit: null })) };
  }
  const needed = [angle, position, timed(run, "verticalLoad", "N"), timed(run, "drawbarPull", "N"), timed(run, "wheelTorque", "N.m")].filter((candidate) => candidate !== null);
  const { tolerances } = run.rig;
  return revolutionWindow({ angle, position, needed, wheelDiameterM: outerDiameter(run), settlingDiameters: tolerances.settlingDiameters, endDiameters: tolerances.endDiameters, fewest: tolerances.revolutions });
}

export function timed(run: PreparedRun, name: string, unit: Unit): Timed | null {
  const found = find(run, name, unit);
  return found === null ? null : { time: found.time, samples: found.channel.samples };
}

/** Mean of a channel over the window, with calibration and zero as budget rows; null when no logger recorded it. */
export function meanReading<U extends Unit>(run: PreparedRun, name: string, unit: U, window: RevolutionWindow): Reading<U> | null {
  const found = find(run, name, unit);
  if (found === null) return null;
  const perRevolution = eachRevolution(window, (fromS, toS) => meanOver(found.time, found.channel.samples, fromS, toS).mean);
  const value = mean(perRevolution);
  return { unit, value, perRevolution, rows: doubtRows(found.channel, value, run.plan.id, true) };
}

/** Parts of a revolution in which the straying from even motion is averaged: fine enough for the drive's slow ripples, coarse enough that every part holds samples. */
const partsPerRevolution = 8;

/** Slope of a channel over the window: a speed. The channel's offset does not touch it. */
export function slopeReading<U extends Unit>(run: PreparedRun, name: string, unit: Unit, gives: U, window: RevolutionWindow): Reading<U> | null {
  const found = find(run, name, unit);
  if (found === null) return null;
  const { samples } = found.channel;
  const perRevolution = eachRevolution(window, (fromS, toS) => slopeOver(found.time, samples, fromS, toS).slope);
  const { fromS, toS } = window.segment;
  const value = slopeOver(found.time, samples, fromS, toS).slope;
  const motion: Motion = { even: perRevolution.map(() => value), stray: strayOver(found.time, samples, fromS, toS, partsPerRevolution * perRevolution.length), windowS: toS - fromS };
  return { unit: gives, value, perRevolution, motion, rows: [...doubtRows(found.channel, value, run.plan.id, false), ...clockRows(run, found.time, value)] };
}

/** A clock that was brought onto another leaves its rate's doubt in every speed; between two speeds of one logger it cancels. */
function clockRows(run: PreparedRun, time: TimeBase, value: number): BudgetRow[] {
  const step = run.recordings.find((recording) => recording.time === time)?.history.find((candidate) => candidate.name === "align");
  const rateUncertainty = step?.parameters.rateUncertainty;
  if (step === undefined || typeof rateUncertainty !== "number") return [];
  return [{ cause: `clock rate of ${step.parameters.logger}, ${run.plan.id}`, effect: rateUncertainty * value, sharedBy: null, degreesOfFreedom: Infinity }];
}

export function eachRevolution(window: RevolutionWindow, f: (fromS: number, toS: number) => number): number[] {
  return window.boundariesS.slice(1).map((toS, i) => f(window.boundariesS[i] as number, toS));
}

/**
 * What a channel's calibration and zero bring to a mean. The gains of two channels on one certificate are separate causes:
 * a six-axis matrix does not err by one common factor.
 */
export function doubtRows(channel: Channel, value: number, run: string, withOffset: boolean): BudgetRow[] {
  const { doubt } = channel;
  if (doubt === null) return [];
  const shared = `calibration ${doubt.calibration}`;
  const rows: BudgetRow[] = [{ cause: `${shared}, ${channel.name}`, effect: doubt.relativeGain * value, sharedBy: shared, degreesOfFreedom: Infinity }];
  if (withOffset) {
    rows.push({ cause: `zero of ${channel.name}, ${run}`, effect: doubt.offset, sharedBy: null, degreesOfFreedom: Infinity });
    rows.push({ cause: `drift of ${channel.name} between the zero blocks, ${run}`, effect: doubt.drift ?? 0, sharedBy: null, degreesOfFreedom: Infinity, shape: "rectangular" });
  }
  return rows;
}

/** Channels without a stated uncertainty: their share is missing from every budget, and that is said. */
export function doubtFindings(run: PreparedRun, names: readonly string[]): Finding[] {
  return run.recordings.flatMap((recording) =>
    recording.channels
      .filter((channel) => names.includes(channel.name) && channel.doubt === null)
      .map((channel) => ({ code: "doubt-not-stated", severity: "note" as const, channel: channel.name, fromS: null, toS: null, message: `rig.yaml states no calibration uncertainty for ${channel.name}; the results' uncertainty leaves it out`, measured: null, limit: null })),
  );
}
