import { indexAt, sampleCount } from "../../core/recording.ts";
import type { Finding } from "../../core/finding.ts";
import { realSpectrum } from "../../numerics/spectrum.ts";
import { median } from "../../numerics/statistics.ts";
import { medianInterval } from "../conditioning/risingTime.ts";
import type { Timed } from "../conditioning/window.ts";
import type { RevolutionWindow } from "../conditioning/window.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { outerDiameter, timed } from "../rolling.ts";
import { judged, percent } from "./judged.ts";
import { aliasOf } from "./lugSampling.ts";

/** Frequencies of the mains. */
const mainsHz = [50, 60] as const;
/** Samples that are looked at: enough to tell lines a fraction of a hertz apart, at any rate in use. */
const most = 8192;
/** The mains keep their frequency within this [Hz]; a line stands above its neighbours by this many times. */
const keptHz = 0.3;
const clear = 8;
/** A mains line this near to a multiple of the lugs' passing could be theirs [Hz]. */
const lugsOwnHz = 0.6;

/**
 * Mains or motor-drive pickup: a line at 50 or 60 Hz (or where the sampling folds it to) in force and torque while the wheel
 * turns, as amplitude in shares of the load. Averaged away by itself, but what brings it often moves the mean as well.
 */
export function linePickup(run: PreparedRun, window: RevolutionWindow, loadN: number, turningRadS: number): Finding[] {
  const radius = outerDiameter(run) / 2;
  const passingHz = ((run.wheel?.lugs ?? 0) * Math.abs(turningRadS)) / (2 * Math.PI);
  return (["drawbarPull", "verticalLoad", "wheelTorque"] as const).flatMap((name) => {
    const found = timed(run, name, name === "wheelTorque" ? "N.m" : "N");
    if (found === null || (name === "wheelTorque" && radius === 0)) return [];
    const arm = name === "wheelTorque" ? radius : 1;
    const shown = windowSpectrum(found, window);
    const lines = shown === null ? [] : mainsHz.map((hz) => ({ hz, amplitudeN: lineAt(shown, hz, passingHz) / arm })).filter(({ amplitudeN }) => amplitudeN > 0);
    const strongest = lines.sort((a, b) => b.amplitudeN - a.amplitudeN)[0];
    if (strongest === undefined) return [];
    const share = strongest.amplitudeN / Math.abs(loadN);
    return judged("line-pickup", share, run.rig.tolerances.linePickup, () => `A line at ${strongest.hz} Hz with an amplitude of ${percent(share)} of the load stands in ${name} while the motor runs. Look for a ground loop or unshielded motor cables; compare the zero with the motor switched on and off, for such pickup moves it too`, { channel: name, fromS: window.segment.fromS, toS: window.segment.toS });
  });
}

/** Spectrum of a channel over the window, and how it was sampled. */
interface WindowSpectrum {
  readonly rateHz: number;
  readonly count: number;
  readonly frequenciesHz: ArrayLike<number>;
  readonly amplitudes: Float64Array;
}

function windowSpectrum(channel: Timed, window: RevolutionWindow): WindowSpectrum | null {
  const rateHz = 1 / medianInterval(channel.time);
  const from = indexAt(channel.time, window.segment.fromS);
  const to = Math.min(indexAt(channel.time, window.segment.toS), from + most, sampleCount(channel.time));
  const values = Array.from(channel.samples.subarray(from, to));
  if (values.length < 64 || values.some(Number.isNaN)) return null;
  const level = values.reduce((sum, value) => sum + value, 0) / values.length;
  // A Hann window keeps the slow ripple from leaking this far; it halves the amplitude.
  const spectrum = realSpectrum(values.map((value, i) => (value - level) * (1 - Math.cos((2 * Math.PI * i) / values.length))), rateHz);
  const amplitudes = Float64Array.from(spectrum.real, (real, i) => (2 * Math.hypot(real, spectrum.imaginary[i] as number)) / values.length);
  return { rateHz, count: values.length, frequenciesHz: spectrum.frequenciesHz, amplitudes };
}

/** Amplitude of a mains line; 0 where it does not stand clear, or cannot be told from the lugs. */
function lineAt({ rateHz, count, frequenciesHz, amplitudes }: WindowSpectrum, hz: number, passingHz: number): number {
  const shownHz = aliasOf(hz, rateHz);
  const stepHz = rateHz / count;
  if (shownHz < 4 * Math.max(stepHz, keptHz)) return 0;
  for (let k = 1; passingHz > 0 && k * passingHz < 2 * hz; k++) if (Math.abs(k * passingHz - hz) < lugsOwnHz) return 0;
  const near: number[] = [];
  const beside: number[] = [];
  amplitudes.forEach((amplitude, i) => {
    const away = Math.abs((frequenciesHz[i] as number) - shownHz);
    if (away <= Math.max(keptHz, 2 * stepHz)) near.push(amplitude);
    else if (away > 4 * Math.max(keptHz, stepHz) && away < 5 + 8 * stepHz) beside.push(amplitude);
  });
  const peak = Math.max(...near);
  return beside.length >= 5 && peak > clear * median(beside) ? peak : 0;
}
