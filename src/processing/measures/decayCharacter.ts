import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { curveFit } from "../../numerics/curveFit.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import type { PeakSize } from "./dampingByDecrement.ts";

export type DecayKind = "viscous" | "frictional" | "cannot tell";

export interface DecayCharacter {
  readonly kind: DecayKind;
  /** 2 ln of the odds for an exponential against a straight envelope; null with fewer than 4 peaks */
  readonly evidence: number | null;
  readonly findings: readonly Finding[];
}

/** Decision limit of the evidence: 2 ln 20, odds of 20 to 1. */
const limit = 2 * Math.log(20);

/**
 * Whether an oscillation dies by viscous damping or by dry friction.
 *
 *   viscous    xₙ = x₀ e^(−δ n)          frictional    xₙ = x₀ − d n
 *
 * Both envelopes have two constants and are fitted to the same peaks. With S the weighted sums of squares,
 * evidence = (S_straight − S_exponential)/s², s² the larger of 1 and the better fit's S/(m − 2); S is in units of the stated
 * uncertainties (or of s² alone when none are stated). Rule: above 2 ln 20 = 6.0 (odds 20 : 1) viscous, below −6.0
 * frictional, between: cannot tell. Fewer than 4 peaks cannot tell.
 *
 * @param peaks sizes of the peaks over the cycle
 * @returns     the kind, the evidence, and a finding unless viscous
 * @source      envelopes: S. S. Rao, Mechanical Vibrations, Coulomb damping (from memory); rule: likelihood ratio of two Gaussian models
 * @checked     tests/processing/measures/damping.test.ts
 */
export function decayCharacter(peaks: readonly PeakSize[]): DecayCharacter {
  if (peaks.length < 4) return outcome("cannot tell", null, `${peaks.length} peaks are clear of the noise, and telling needs four`);
  const x = peaks.map((peak) => peak.cycle);
  const y = peaks.map((peak) => peak.size);
  const stated = peaks.every((peak) => peak.uncertainty !== null && peak.uncertainty > 0);
  const uncertainties = peaks.map((peak) => (stated ? (peak.uncertainty as number) : 1));
  const line = lineFit(x, y, uncertainties.map((u) => 1 / u ** 2));
  const straight = sumOfSquares(x, y, uncertainties, (n) => line.intercept + line.slope * n);
  const logs = lineFit(x, y.map((size) => Math.log(size)), y.map((size, i) => (size / (uncertainties[i] as number)) ** 2));
  const curve = curveFit({ model: (n, p) => (p[0] as number) * Math.exp(-(p[1] as number) * n), x, y, start: [Math.exp(logs.intercept), -logs.slope], standardUncertainties: uncertainties });
  if (!curve.converged) return outcome("cannot tell", null, "no exponential could be fitted to the peaks");
  const best = Math.min(straight, curve.sumOfSquares) / (peaks.length - 2);
  const variance = Math.max(best, stated ? 1 : Number.MIN_VALUE);
  const evidence = Math.max(-1e6, Math.min(1e6, (straight - curve.sumOfSquares) / variance));
  if (evidence > limit) return outcome("viscous", evidence, "");
  if (evidence < -limit) return outcome("frictional", evidence, "");
  return outcome("cannot tell", evidence, "an exponential and a straight envelope fit about equally well");
}

function sumOfSquares(x: readonly number[], y: readonly number[], u: readonly number[], model: (n: number) => number): number {
  return x.reduce((sum, n, i) => sum + (((y[i] as number) - model(n)) / (u[i] as number)) ** 2, 0);
}

function outcome(kind: DecayKind, evidence: number | null, reason: string): DecayCharacter {
  const numbers = { measured: evidence, limit };
  if (kind === "frictional") return { kind, evidence, findings: [finding("decay-frictional", "look", "The ringing dies along a straight line, as under dry friction (guide, bearing, joints), not exponentially. The damping ratio then depends on the amplitude and does not describe the wheel. Look at the guide", numbers)] };
  if (kind === "cannot tell") return { kind, evidence, findings: [finding("decay-undecided", "note", `Viscous and frictional damping cannot be told apart: ${reason}. Do not read more into the damping ratio than the loss over these cycles`, numbers)] };
  return { kind, evidence, findings: [] };
}
