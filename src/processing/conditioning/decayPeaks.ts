import { effectiveSampleSize, median } from "../../numerics/statistics.ts";
import { polynomialFit } from "../../numerics/lineFit.ts";
import type { DropEvents } from "./dropEvents.ts";
import type { DropSignal } from "./dropSignal.ts";
import { movingMean } from "./movingMean.ts";

/** A peak counts while it stands this many standard uncertainties clear of rest. */
const clearOfNoise = 5;
/** Share of the period on either side of a peak that its height is fitted over. */
const around = 0.08;

/** One turning point of the decaying acceleration, counted from rest. */
export interface DecayPeak {
  readonly timeS: number;
  /** signed [m/s²] */
  readonly height: number;
  readonly uncertainty: number;
}

export interface Decay {
  /** peaks on both sides, alternating, clear of the noise; half a cycle apart */
  readonly peaks: readonly DecayPeak[];
  readonly periodS: number;
  /** level the peaks are counted from [m/s²], and its standard uncertainty */
  readonly rest: number;
  readonly restUncertainty: number;
}

/**
 * The turning points of the ringing while the wheel stays on the ground. It begins at the first rise through rest after the
 * last time the wheel may have been in the air. Rest is the mean of the quiet end of the log, or the zero of the rest before
 * release where the log ends too early.
 */
export function decayPeaks(signal: DropSignal, events: DropEvents): Decay {
  const rest = signal.after?.mean ?? 0;
  const restUncertainty = signal.after === null ? signal.zeroUncertainty : signal.after.uncertainty;
  const from = signal.timesS.findIndex((timeS) => timeS > events.settling.fromS);
  const values = signal.acceleration.subarray(Math.max(0, from)).map((value) => value - rest);
  const timesS = signal.timesS.subarray(Math.max(0, from));
  const none: Decay = { peaks: [], periodS: Number.NaN, rest, restUncertainty };
  if (from < 0 || values.length < 20 || values.some(Number.isNaN)) return none;
  const rough = turns(movingMean(values, Math.round(signal.smoothingS / signal.intervalS / 2)), 4 * signal.smoothNoise);
  if (rough.length < 3) return none;
  // The period of the first lobes, where the noise matters least.
  const firstPeriod = 2 * spacing(rough.slice(0, 6), timesS);
  const half = Math.max(1, Math.round((firstPeriod * around) / signal.intervalS));
  const noise = signal.noise / Math.sqrt(effectiveSampleSize(2 * half + 1, signal.lag1));
  const found = turns(movingMean(values, half), 3 * noise);
  const peaks: DecayPeak[] = [];
  for (const index of found) {
    const peak = fittedPeak(values, timesS, index, half, noise);
    const before = peaks.at(-1);
    if (peak === null) break;
    if (before !== undefined && Math.sign(before.height) === Math.sign(peak.height)) break;
    if (Math.abs(peak.height) < clearOfNoise * peak.uncertainty) break;
    peaks.push(peak);
  }
  const periodS = peaks.length < 2 ? Number.NaN : (2 * ((peaks.at(-1) as DecayPeak).timeS - (peaks[0] as DecayPeak).timeS)) / (peaks.length - 1);
  return { peaks, periodS, rest, restUncertainty };
}

/** Index of the extreme of every lobe between crossings of rest, from the first rise on; a lobe must pass `level`. */
function turns(smooth: Float64Array, level: number): number[] {
  const found: number[] = [];
  let side = 0;
  let extreme = -1;
  let begun = false;
  for (let i = 0; i < smooth.length; i++) {
    const value = smooth[i] as number;
    const now = value > level ? 1 : value < -level ? -1 : side;
    if (now !== side) {
      // What comes before the first rise through rest still belongs to the flight.
      if (begun && extreme >= 0) found.push(extreme);
      if (now === 1) begun = true;
      side = now;
      extreme = -1;
    }
    if (begun && side !== 0 && (extreme < 0 || side * value > side * (smooth[extreme] as number))) extreme = i;
  }
  // The last lobe may be cut off by the end of the log: its extreme counts only if the curve has come back to rest.
  if (begun && extreme >= 0 && Math.abs(smooth[smooth.length - 1] as number) <= level) found.push(extreme);
  return found;
}

function spacing(indices: readonly number[], timesS: Float64Array): number {
  return median(indices.slice(1).map((index, i) => (timesS[index] as number) - (timesS[indices[i] as number] as number)));
}

/** Height at the turning point, from a parabola over the samples around it. */
function fittedPeak(values: Float64Array, timesS: Float64Array, index: number, half: number, noise: number): DecayPeak | null {
  const from = Math.max(0, index - half);
  const to = Math.min(values.length, index + half + 1);
  if (to - from < 5) return { timeS: timesS[index] as number, height: values[index] as number, uncertainty: noise };
  const atS = timesS[index] as number;
  const { coefficients } = polynomialFit(Array.from(timesS.subarray(from, to), (timeS) => timeS - atS), values.subarray(from, to), 2);
  const [c0, c1, c2] = coefficients as [number, number, number];
  const shift = -c1 / (2 * c2);
  const inside = shift >= (timesS[from] as number) - atS && shift <= (timesS[to - 1] as number) - atS;
  if (!inside || Math.sign(c2) === Math.sign(c0)) return null;
  // At its middle a parabola through n points has 9/4 of the variance of their mean.
  return { timeS: atS + shift, height: c0 - (c1 * c1) / (4 * c2), uncertainty: 1.5 * noise };
}
