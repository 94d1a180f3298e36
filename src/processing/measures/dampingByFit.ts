import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { BudgetRow, Estimate } from "../../core/estimate.ts";
import type { Fit, FitPoint } from "../../core/fit.ts";
import { curveFit } from "../../numerics/curveFit.ts";
import type { CurveFit } from "../../numerics/curveFit.ts";
import { effectiveSampleSize, lag1Autocorrelation } from "../../numerics/statistics.ts";
import type { Decay, DecayPeak } from "../conditioning/decayPeaks.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";

/** Samples are averaged to about so many points a period before the fit. */
const pointsPerPeriod = 40;
/** Residual scatter, as a share of the decay's own scatter, from which one decaying mode does not describe the data. */
const largestMisfit = 0.3;

/** Damping ratio and natural frequency, and the fit they come from; null where there is no decay to fit. */
export interface FittedDecay {
  readonly ratio: Estimate<"1">;
  readonly naturalFrequency: Estimate<"Hz">;
  readonly fit: Fit | null;
}

/** Parameters A, ζ, ω, φ, b, B, ψ, C. */
const model = (t: number, p: readonly number[]): number => {
  const [amplitude, ratio, omega, phase, rest, second, early, aside] = p as [number, number, number, number, number, number, number, number];
  const left = Math.exp(-ratio * omega * t);
  const angle = omega * Math.sqrt(Math.max(0, 1 - ratio * ratio)) * t + phase + early * (1 - left ** 2);
  return amplitude * left * Math.cos(angle) + left ** 2 * (second * Math.cos(2 * angle) + aside * Math.sin(2 * angle)) + rest;
};

/**
 * Damping ratio and undamped natural frequency of the ringing after the last flight, by a fitted free decay.
 *
 *   a(t) = A e^(−ζωt) cos θ + e^(−2ζωt) (B cos 2θ + C sin 2θ) + b,   θ = ω √(1 − ζ²) t + φ + ψ (1 − e^(−2ζωt)),   t from the first peak
 *
 * The acceleration of a free linear decay has the form of its displacement; B, C and ψ are the first corrections for a wheel
 * whose stiffness and losses change with load, and die twice as fast. What comes after them is about (B² + C²)/A² of a
 * cycle's decrement and stands in the uncertainty. ζ [1], ω/2π [Hz] of small swings. Holds for one mode with viscous
 * damping while the wheel stays on the ground; the residuals' correlation widens the uncertainties.
 *
 * @param signal the zeroed acceleration
 * @param decay  its peaks
 * @returns      ζ, ω/2π and the Fit; undetermined with fewer than 3 peaks or when one mode does not describe the decay
 * @source       free vibration of a damped linear oscillator, e.g. S. S. Rao, Mechanical Vibrations; second harmonic: A. H. Nayfeh and D. T. Mook, Nonlinear Oscillations, quadratic stiffness (both from memory)
 * @checked      tests/processing/measures/damping.test.ts
 */
export function dampingByFit(signal: DropSignal, decay: Decay): FittedDecay {
  const first = decay.peaks[0];
  const last = decay.peaks.at(-1);
  if (first === undefined || last === undefined || decay.peaks.length < 3) {
    const reason = `peaks that stand clear of the noise after the last flight: ${decay.peaks.length}; a fitted decay needs three`;
    return { ratio: undetermined("1", reason), naturalFrequency: undetermined("Hz", reason), fit: null };
  }
  const points = blockMeans(signal, first.timeS, last.timeS + decay.periodS / 2, decay.periodS / pointsPerPeriod);
  const x = points.map((point) => point.timeS - first.timeS);
  const y = points.map((point) => point.value);
  const fitted = curveFit({ model, x, y, start: startOf(decay, first, last), lower: [0, 0, 0, -2 * Math.PI, -Infinity, -Infinity, -Math.PI, -Infinity], upper: [Infinity, 0.99, Infinity, 2 * Math.PI, Infinity, Infinity, Math.PI, Infinity] });
  return reported(signal.run, fitted, x, y);
}

function startOf(decay: Decay, first: DecayPeak, last: DecayPeak): number[] {
  const cycles = (decay.peaks.length - 1) / 2;
  const delta = Math.max(1e-3, Math.log(Math.abs(first.height / last.height)) / cycles);
  const ratio = Math.min(0.9, delta / Math.hypot(2 * Math.PI, delta));
  const omega = (2 * Math.PI) / decay.periodS / Math.sqrt(1 - ratio * ratio);
  return [Math.abs(first.height), ratio, omega, first.height > 0 ? 0 : Math.PI, decay.rest, 1e-2 * Math.abs(first.height), 1e-2, 1e-2 * Math.abs(first.height)];
}

/** Mean of a short stretch. */
interface Block {
  readonly timeS: number;
  readonly value: number;
}

/**
 * Means of the acceleration over equal short stretches.
 *
 *   value = mean a,  timeS = mean t   over each stretch of about `widthS`
 *
 * [s], [m/s²]
 *
 * @param signal the zeroed acceleration
 * @param fromS  start of the first stretch
 * @param toS    no stretch reaches beyond
 * @param widthS length of a stretch, rounded to whole samples, at least one
 * @returns      the means in order
 * @source       definition
 * @checked      tests/processing/measures/damping.test.ts
 */
export function blockMeans(signal: DropSignal, fromS: number, toS: number, widthS: number): Block[] {
  const size = Math.max(1, Math.round(widthS / signal.intervalS));
  const from = signal.timesS.findIndex((timeS) => timeS >= fromS);
  const blocks: Block[] = [];
  for (let i = from; i >= 0 && i + size <= signal.timesS.length && (signal.timesS[i + size - 1] as number) < toS; i += size) {
    let value = 0;
    let timeS = 0;
    for (let j = i; j < i + size; j++) {
      value += signal.acceleration[j] as number;
      timeS += signal.timesS[j] as number;
    }
    blocks.push({ timeS: timeS / size, value: value / size });
  }
  return blocks;
}

function reported(run: string, fitted: CurveFit, x: readonly number[], y: readonly number[]): FittedDecay {
  const residuals = fitted.residuals;
  const lag1 = residuals.some((r) => r !== 0) ? Math.min(0.99, Math.max(0, lag1Autocorrelation(residuals))) : 0;
  const widening = residuals.length / effectiveSampleSize(residuals.length, lag1);
  const covariance = fitted.covariance.map((row) => row.map((value) => value * widening));
  const degreesOfFreedom = Math.max(1, residuals.length / widening - 8);
  const spread = Math.sqrt(y.reduce((sum, value) => sum + (value - (fitted.parameters[4] as number)) ** 2, 0) / y.length);
  const misfit = fitted.residualSd / spread;
  const trouble = !fitted.converged ? `the fit did not settle: ${fitted.reason}` : fitted.atLimit.some(Boolean) ? "a parameter ended on its bound" : !(misfit <= largestMisfit) ? `one decaying mode leaves ${(100 * misfit).toFixed(0)} % of the scatter unexplained` : null;
  const method = "free decay with viscous damping fitted to the acceleration after the last flight";
  const rows = (k: number, factor: number): BudgetRow[] => [{ cause: `scatter about the fitted decay, ${k === 1 ? "ratio" : k === 2 ? "frequency" : `parameter ${k}`}, ${run}`, effect: factor * Math.sqrt(covariance[k]?.[k] ?? Number.NaN), sharedBy: null, degreesOfFreedom }];
  const valueOf = (k: number): number => fitted.parameters[k] as number;
  const further = { cause: `large swings beyond the second harmonic, ${run}`, effect: (Math.hypot(valueOf(5), valueOf(7)) / valueOf(0)) ** 2 / (2 * Math.PI), sharedBy: null, degreesOfFreedom: Infinity };
  const ratio = trouble === null ? estimateFrom(valueOf(1), "1", method, [...rows(1, 1), further]) : undetermined("1", `${method}: ${trouble}`);
  const naturalFrequency = trouble === null ? estimateFrom(valueOf(2) / (2 * Math.PI), "Hz", `${method}; undamped`, rows(2, 1 / (2 * Math.PI))) : undetermined("Hz", `${method}: ${trouble}`);
  const parameters = [
    { name: "amplitude", symbol: "A", estimate: estimateFrom(valueOf(0), "m/s2", method, rows(0, 1)) },
    { name: "damping ratio", symbol: "ζ", estimate: estimateFrom(valueOf(1), "1", method, rows(1, 1)) },
    { name: "undamped angular frequency", symbol: "ω", estimate: estimateFrom(valueOf(2), "rad/s", method, rows(2, 1)) },
    { name: "phase", symbol: "φ", estimate: estimateFrom(valueOf(3), "rad", method, rows(3, 1)) },
    { name: "rest level", symbol: "b", estimate: estimateFrom(valueOf(4), "m/s2", method, rows(4, 1)) },
    { name: "second harmonic, cosine", symbol: "B", estimate: estimateFrom(valueOf(5), "m/s2", method, rows(5, 1)) },
    { name: "early phase", symbol: "ψ", estimate: estimateFrom(valueOf(6), "rad", method, rows(6, 1)) },
    { name: "second harmonic, sine", symbol: "C", estimate: estimateFrom(valueOf(7), "m/s2", method, rows(7, 1)) },
  ];
  const points: FitPoint[] = x.map((t, i) => ({ run, x: t, y: y[i] as number, yUncertainty: null, kept: true, reason: "" }));
  const fit: Fit = {
    model: "free decay with viscous damping",
    formula: "a(t) = A exp(−ζ ω t) cos θ + exp(−2 ζ ω t) (B cos 2θ + C sin 2θ) + b, θ = ω √(1 − ζ²) t + φ + ψ (1 − exp(−2 ζ ω t)); t [s] from the first peak, a [m/s²]",
    parameters,
    covariance,
    points,
    residuals,
    degreesOfFreedom: fitted.degreesOfFreedom,
    verdict: trouble === null ? "determined" : fitted.converged && fitted.atLimit.some(Boolean) ? "atLimit" : "undetermined",
    sentence: trouble ?? `one decaying mode describes the ringing; ${(100 * misfit).toFixed(1)} % of its scatter is left`,
    findings: [],
  };
  return { ratio, naturalFrequency, fit };
}
