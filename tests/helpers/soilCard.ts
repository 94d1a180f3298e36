import type { CardWheel, SoilCard } from "../../src/campaign/soilFileSchema.ts";
import { soilParameters } from "../../src/fitting/wheelSoilParameters.ts";
import { seededRandom } from "../../src/numerics/random.ts";

/** ln 9 kPa, n 1.05, no effect of width, c 0.4 kPa, φ 33°, ln 12 mm, c₁, c₂, n₁, √λ, κ, √μ */
export const cardConstants: readonly number[] = [Math.log(9), 1.05, 0, 0.4, 33, Math.log(12), 0.4, 0.18, 0.2, 0, 0.5, 0.7];
const spread: readonly number[] = [0.03, 0.02, 0.01, 0.05, 0.5, 0.05, 0.02, 0.02, 0.03, 0, 0.05, 0.05];
export const rigid: CardWheel = { id: "M1", rimM: 0.15, widthM: 0.1, lugs: 24, lugHeightM: 0.005, curve: null };
export const flexible: CardWheel = { id: "M2", rimM: 0.15, widthM: 0.1, lugs: 0, lugHeightM: 0, curve: { deflectionM: [0.002, 0.005, 0.01], loadN: [30, 80, 160] } };

/** A card of invented runs at 30, 60 and 100 N and slips 0.05 to 0.5. `missed`: what the model misses of each share, `scatter` of the draws as a multiple of a usual one. */
export function soilCard(options: { readonly scatter?: number; readonly missed?: number; readonly draws?: number } = {}): SoilCard {
  const { scatter = 1, missed = 0.01, draws = 100 } = options;
  const random = seededRandom(3);
  const names = soilParameters.map(({ name }) => name);
  const discrepancy = { pull: missed, torque: missed, sinkage: missed };
  const conditions = [30, 60, 100].flatMap((loadN) => [0.05, 0.15, 0.3, 0.5].map((slip) => ({ run: `R${loadN}-${slip}`, flexible: false, loadN, slip, diameterM: 0.31, widthM: 0.1, pressurePa: loadN / 0.0155 })));
  return {
    model: "stress integrals", flexibleForm: null, sentence: "12 runs of 1 wheel at 3 loads.", runs: conditions.map(({ run }) => run), constants: [],
    fitted: { names, values: [...cardConstants], covariance: names.map((_, i) => names.map((__, j) => (i === j ? (spread[i] as number) ** 2 : 0))), referenceWidthM: 0.1, unitWeight: 16_000, notes: "" },
    discrepancy,
    wheelSpread: { pull: 0, torque: 0, sinkage: 0 },
    draws: {
      columns: [...names, ...Object.keys(discrepancy)],
      rows: Array.from({ length: draws }, () => [...cardConstants.map((value, j) => value + scatter * (spread[j] as number) * random.normal()), ...Object.values(discrepancy).map((delta) => Math.log(Math.max(delta, 1e-9)))]),
      notes: "",
    },
    posterior: "4 chains of 400 draws: greatest R̂ 1.004, at least 900 effective draws.",
    wheels: [rigid, flexible],
    validity: { sentence: "", loadN: [30, 100], slip: [0.05, 0.5], diameterM: [0.31, 0.31], widthM: [0.1, 0.1], pressurePa: [30 / 0.0155, 100 / 0.0155], conditions },
    gravityMps2: 9.81, slipRadius: { policy: "unloaded", lugs: "with" }, beds: ["B1"],
  };
}

/** The card as a whole soil.json. */
export function soilFile(card: SoilCard | null = soilCard()): string {
  const nothing = { sentence: "", sinkageM: null, pressurePa: null, plateWidthsM: [], normalStressPa: null, shearDisplacementM: null };
  return JSON.stringify({ format: "drawbar soil constants", formatVersion: 1, drawbarVersion: "0.1.0", notes: "", circularPlateWidth: "radius", pressureSinkage: null, plateWidths: [], shearStrength: null, shearModulus: [], underWheels: card, validity: nothing, beds: [], runs: [], files: [] });
}
