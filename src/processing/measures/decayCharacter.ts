import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { curveFit } from "../../numerics/curveFit.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import type { PeakSize } from "./dampingByDecrement.ts";

/** mixed: viscous with a frictional part that shows. */
export type DecayKind = "viscous" | "frictional" | "mixed" | "cannot tell";

/** How a decay dies, and what tells so. */
export interface DecayCharacter {
  readonly kind: DecayKind;
  /** 2 ln of the odds for an exponential against a straight envelope; null with fewer than 4 peaks */
  readonly evidence: number | null;
  readonly findings: readonly Finding[];
}

/** Decision limit between the two envelopes, 2 ln of odds of 20 to 1. */
const limit = 2 * Math.log(20);
/** A frictional part shows when it lowers the sum of squares by this much: three standard deviations of one constant. */
const mixedLimit = 9;
/** A straight envelope is the limit B → ∞ of the mixed one, where the fit would walk on without end. */
const mixedSteps = 100;

/**
 * Whether an oscillation dies by viscous damping, by dry friction, or by both.
 *
 *   viscous xₙ = x₀ e^(−δ n)     frictional xₙ = x₀ − d n     both xₙ = (x₀ + B) e^(−δ n) − B
 *
 * The first two have two constants each and are fitted to the same peaks, S their sums of squares in units of the stated
 * uncertainties. evidence = (S_straight − S_exponential)/s², s² the larger of 1 and the better fit's S/(m − 2); without
 * stated uncertainties s² is the latter alone. Rule: mixed when a constant B > 0 lowers the smaller S by more than 9 s², s²
 * from the fit with B; else viscous above 2 ln 20 = 6.0 (odds 20 : 1), frictional below −6.0; between, or with fewer than 4
 * peaks: cannot tell. Four peaks leave the fit with B one degree of freedom, too few to call a decay viscous.
 *
 * @param peaks sizes of the peaks over the cycle
 * @returns     the kind, the evidence, and a finding unless viscous
 * @source      envelopes: S. S. Rao, Mechanical Vibrations, Coulomb damping (from memory); rule: likelihood ratio of Gaussian models
 * @checked     tests/processing/measures/decayCharacter.test.ts
 */
export function decayCharacter(peaks: readonly PeakSize[]): DecayCharacter {
  if (peaks.length < 4) return undecided(null, `${peaks.length} peaks are clear of the noise, and telling needs four`);
  const stated = peaks.every((peak) => peak.uncertainty !== null && peak.uncertainty > 0);
  const envelope: Envelope = { x: peaks.map((peak) => peak.cycle), y: peaks.map((peak) => peak.size), u: peaks.map((peak) => (stated ? (peak.uncertainty as number) : 1)), floor: stated ? 1 : Number.MIN_VALUE };
  const straight = straightSum(envelope);
  const curve = exponential(envelope);
  if (curve === null) return undecided(null, "no exponential could be fitted to the peaks");
  const evidence = capped((straight - curve.sum) / variance(envelope, Math.min(straight, curve.sum), 2));
  const both = frictionalPart(envelope, curve, Math.min(straight, curve.sum));
  if (both !== null) return { kind: "mixed", evidence, findings: [finding("decay-mixed", "look", "The ringing dies faster towards its end than viscous damping alone allows: dry friction (guide, bearing, joints) takes part. The damping ratio holds it and is too high for the wheel; compare only runs of like amplitude. Look at the guide", { measured: both, limit: mixedLimit })] };
  if (evidence > limit && peaks.length === 4) return undecided(evidence, "an exponential fits better than a straight line, but four peaks cannot rule out that friction takes part");
  if (evidence > limit) return { kind: "viscous", evidence, findings: [] };
  if (evidence < -limit) return { kind: "frictional", evidence, findings: [finding("decay-frictional", "look", "The ringing dies along a straight line, as under dry friction (guide, bearing, joints), not exponentially. The damping ratio then depends on the amplitude and does not describe the wheel. Look at the guide", { measured: evidence, limit: -limit })] };
  return undecided(evidence, "an exponential and a straight envelope fit about equally well");
}

interface Envelope {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly u: readonly number[];
  /** least variance of one peak, in units of u² */
  readonly floor: number;
}

function variance(envelope: Envelope, sum: number, constants: number): number {
  return Math.max(envelope.floor, sum / Math.max(1, envelope.x.length - constants));
}

/** A perfect fit of made numbers would divide by zero. */
function capped(evidence: number): number {
  return Number.isNaN(evidence) ? 0 : Math.max(-1e6, Math.min(1e6, evidence));
}

function straightSum({ x, y, u }: Envelope): number {
  const line = lineFit(x, y, u.map((one) => 1 / one ** 2));
  return x.reduce((sum, n, i) => sum + (((y[i] as number) - line.intercept - line.slope * n) / (u[i] as number)) ** 2, 0);
}

interface Exponential {
  readonly sum: number;
  readonly start: number;
  readonly decrement: number;
}

function exponential({ x, y, u }: Envelope): Exponential | null {
  const logs = lineFit(x, y.map((size) => Math.log(size)), y.map((size, i) => (size / (u[i] as number)) ** 2));
  const fit = curveFit({ model: (n, p) => (p[0] as number) * Math.exp(-(p[1] as number) * n), x, y, start: [Math.exp(logs.intercept), -logs.slope], standardUncertainties: u });
  return fit.converged ? { sum: fit.sumOfSquares, start: fit.parameters[0] as number, decrement: fit.parameters[1] as number } : null;
}

/** By how much a constant B > 0 lowers the better envelope's sum of squares; null when it does not show. */
function frictionalPart(envelope: Envelope, curve: Exponential, better: number): number | null {
  const { x, y, u } = envelope;
  const model = (n: number, p: readonly number[]): number => ((p[0] as number) + (p[2] as number)) * Math.exp(-(p[1] as number) * n) - (p[2] as number);
  const fit = curveFit({ model, x, y, start: [curve.start, curve.decrement, 0], standardUncertainties: u, maximumSteps: mixedSteps });
  if (!fit.converged || !((fit.parameters[2] as number) > 0)) return null;
  const gain = capped((better - fit.sumOfSquares) / variance(envelope, fit.sumOfSquares, 3));
  return gain > mixedLimit ? gain : null;
}

function undecided(evidence: number | null, reason: string): DecayCharacter {
  return { kind: "cannot tell", evidence, findings: [finding("decay-undecided", "note", `Viscous and frictional damping cannot be told apart: ${reason}. Do not read more into the damping ratio than the loss over these cycles`, { measured: evidence, limit })] };
}
