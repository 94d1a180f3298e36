import { estimateFrom, undetermined } from "../../src/core/estimate.ts";
import type { WheelSoilResult } from "../../src/processing/wheelSoilResult.ts";

const band = (at: number) => ({ x: [0, 0.3, 0.6], value: [at, at + 0.2, at + 0.3], low: [at - 0.02, at + 0.18, Number.NaN], high: [at + 0.02, at + 0.22, Number.NaN] });
const point = (at: number) => [{ run: "T1", slip: 0.3, measured: at + 0.21, uncertainty: 0.01 }];
const each = (value: number) => ({ pull: value, torque: value, sinkage: Number.NaN });

/** A wheel–soil result with every kind of row: determined, not determined, a model without a forecast. */
export function sampleWheelSoil(wheel: string): WheelSoilResult {
  return {
    verdict: "determined", sentence: "6 runs of 1 wheel at 2 loads. The data determine 1 of 2 independent combinations; alone: p₁₀.", runs: ["T1"], refused: [{ run: "T9", x: 0.2, y: Number.NaN, yUncertainty: null, kept: false, reason: "excluded: <dropped>" }],
    parameters: [
      { name: "pressureAt10mm", symbol: "p₁₀", estimate: estimateFrom(9000, "Pa", "fitted", [{ cause: "scatter", effect: 300, sharedBy: null, degreesOfFreedom: Infinity }]), believed: { value: 20000, sd: 30000, reason: "from loose dust to firm sand" }, narrowing: 0.05, interval: [8400, 9600], profile: { low: 8500, high: 9700 }, bootstrap: [8300, 9700], share: "determined", sentence: "The data determine p₁₀." },
      { name: "sinkageExponent", symbol: "n", estimate: undetermined("1", "n is not determined by these data."), believed: { value: 1, sd: 0.3, reason: "dry granular soils lie near 1" }, narrowing: 0.95, interval: [0.4, 1.6], profile: { low: 0.5, high: null }, bootstrap: null, share: "undetermined", sentence: "n is not determined by these data: it stays within what was believed before." },
    ],
    fitted: { values: [2.2, 1], covariance: [[0.01, 0], [0, 0.09]], referenceWidthM: 0.08, unitWeight: 16_000 },
    discrepancy: { pull: 0.012, "pull, flexible": 0.03 }, bedSpread: { pull: 0.004, torque: 0, sinkage: 0.006 }, wheelSpread: { pull: 0.008, torque: 0, sinkage: 0 },
    points: [{ run: "T1", quantity: "pull", measured: 0.21, fitted: 0.2, weight: 1.2, unseen: { foretold: 0.1, uncertainty: 0.02 }, reason: "" }, { run: "T2", quantity: "torque", measured: 0.5, fitted: 0.3, weight: 0.11, unseen: { foretold: 0.3, uncertainty: 0.02 }, reason: "6.5 standard uncertainties from the model: counts as 0.11 of a point" }], combinations: [{ narrowing: 0.05, weights: [{ symbol: "p₁₀", weight: 0.99 }] }],
    nextTests: [{ name: "runs at 120 N", ratios: [1, 0.3] }],
    scores: [{ model: "stress integrals, wider circle", heldOut: "load", points: 12, error: each(0.01), logScore: each(2.3), inside: 0.92, insideBy: each(0.92), failed: [] }, { model: "plain curve", heldOut: "wheel", points: 0, error: each(Number.NaN), logScore: each(Number.NaN), inside: Number.NaN, insideBy: each(Number.NaN), failed: [`${wheel}: a plain curve says nothing of it`] }],
    flexibleForm: "wider circle", forecasts: [40, 80].map((loadN) => ({ wheel, loadN, points: { pull: point(0), torque: point(0.1), sinkage: [] }, bands: { pull: band(0), torque: band(0.1), sinkage: band(0.05) } })),
    range: { loadN: [40, 80], slip: [0.05, 0.6], diameterM: [0.21, 0.21], widthM: [0.08, 0.08], pressurePa: [4761.9, 9523.8] },
    conditions: [{ run: "T1", flexible: true, loadN: 40, slip: 0.05, diameterM: 0.21, widthM: 0.08, pressurePa: 4761.9 }, { run: "T2", flexible: true, loadN: 80, slip: 0.6, diameterM: 0.21, widthM: 0.08, pressurePa: 9523.8 }],
    wheels: [{ id: wheel, rimM: 0.1, widthM: 0.08, lugs: 24, lugHeightM: 0.005, curve: { deflectionM: [0.001, 0.002], loadN: [40, 90] } }],
    posterior: { sentence: "4 chains of 500 draws: greatest R̂ 1.004, at least 450 effective draws.", converged: true, greatestRhat: 1.004, leastEffective: 450, insideReplicates: 0.94, drawColumns: ["pressureAt10mm", "sinkageExponent"], draws: Array.from({ length: 20 }, (_, i) => [2.2 + 0.01 * Math.sin(i), 1 + 0.3 * Math.cos(2 * i)]) },
  };
}
