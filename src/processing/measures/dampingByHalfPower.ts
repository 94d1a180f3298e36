import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { halfPower } from "../../numerics/halfPower.ts";
import { paddedTransform, powerOfTwo } from "../../numerics/spectrum.ts";
import type { Decay, DecayPeak } from "../conditioning/decayPeaks.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import { blockMeans } from "./dampingByFit.ts";

const pointsPerPeriod = 24;
/** The record is continued by zeros to this many times its length, so that the peak has lines enough. */
const padding = 16;
/** Longest decay factor at the record's end: beyond it the cut makes the peak wider than the damping does. */
const longestLeft = 0.05;

/**
 * Damping ratio of the ringing after the last flight, from the half-power bandwidth of its spectrum.
 *
 *   ζ = (f₂ − f₁) / (2 f_peak),   X the transform of a(t) − rest from the first peak to the end of the log
 *
 * [1]. Holds for one lightly damped linear mode whose ringing has died within the log: what is left at its end, e^(−ζωT),
 * makes the peak wider by up to four times itself. A frequency that changes with the swing makes it wider too; half the
 * change between first and last cycle counts as doubt.
 *
 * @param signal the zeroed acceleration
 * @param decay  its peaks
 * @returns      ζ; undetermined with fewer than 3 peaks, or when more than 5 % of the swing is left at the end of the log
 * @source       A. K. Chopra, Dynamics of Structures, chapter 3 (from memory)
 * @checked      tests/processing/measures/dampingByHalfPower.test.ts
 */
export function dampingByHalfPower(signal: DropSignal, decay: Decay): Estimate<"1"> {
  const first = decay.peaks[0];
  const last = decay.peaks.at(-1);
  if (first === undefined || last === undefined || decay.peaks.length < 3) return undetermined("1", `peaks that stand clear of the noise after the last flight: ${decay.peaks.length}; a bandwidth needs three`);
  const endS = signal.timesS[signal.timesS.length - 1] as number;
  const blocks = blockMeans(signal, first.timeS, endS, decay.periodS / pointsPerPeriod);
  const stepS = ((blocks.at(-1)?.timeS ?? 0) - (blocks[0]?.timeS ?? 0)) / (blocks.length - 1);
  const size = powerOfTwo(padding * blocks.length);
  const spectrum = paddedTransform(blocks.map((block) => block.value - decay.rest), size);
  const lines = size / 2;
  const found = halfPower(Array.from({ length: lines }, (_, k) => k / (size * stepS)), Array.from({ length: lines }, (_, k) => Math.hypot(spectrum[2 * k] as number, spectrum[2 * k + 1] as number)));
  if (found === null) return undetermined("1", "the spectrum of the ringing does not fall to half power on both sides of its peak");
  const omega = 2 * Math.PI * found.peakHz;
  const ratio = found.dampingRatio;
  const left = Math.abs(last.height / first.height) ** ((endS - first.timeS) / (last.timeS - first.timeS));
  if (!(left < longestLeft)) return undetermined("1", `the log ends while ${(100 * left).toFixed(0)} % of the swing is left, and the cut makes the spectrum's peak too wide; log longer`, ratio);
  const blockNoise = signal.noise * Math.sqrt(signal.intervalS / stepS);
  const height = Math.abs(first.height) / (2 * ratio * omega * stepS);
  return estimateFrom(ratio, "1", "half-power bandwidth of the spectrum of the ringing after the last flight", [
    { cause: `noise of the spectrum, ${signal.run}`, effect: (2 * ratio * blockNoise * Math.sqrt(blocks.length)) / height, sharedBy: null, degreesOfFreedom: signal.zeroDegreesOfFreedom },
    { cause: `ringing left at the end of the log, ${signal.run}`, effect: (4 * left * ratio) / Math.sqrt(3), sharedBy: null, degreesOfFreedom: Infinity },
    { cause: `frequency that changes with the swing, ${signal.run}`, effect: drift(decay.peaks) / 4, sharedBy: null, degreesOfFreedom: Infinity },
    { cause: `spacing of the spectrum's lines, ${signal.run}`, effect: 1 / (size * stepS) / found.peakHz / Math.sqrt(12), sharedBy: null, degreesOfFreedom: Infinity },
    // Bandwidth and damping ratio are one to first order only.
    { cause: "half-power formula beyond first order", effect: ratio ** 2 / 10, sharedBy: null, degreesOfFreedom: Infinity },
  ]);
}

/** Change of the cycle's length between the first whole cycle and the last, as a share. */
function drift(peaks: readonly DecayPeak[]): number {
  const cycle = (from: number): number => (peaks[from + 2]?.timeS ?? Number.NaN) - (peaks[from]?.timeS ?? Number.NaN);
  const [early, late] = [cycle(0), cycle(peaks.length - 3)];
  return Math.abs(late - early) / ((late + early) / 2);
}
