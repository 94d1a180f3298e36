import { significant } from "../core/significant.ts";
import type { PossibleTest } from "./nextTests.ts";
import type { WheelObservation, WheelQuantity } from "./wheelObservations.ts";
import { quantities } from "./wheelObservations.ts";
import { shareOf } from "./wheelSoilModel.ts";
import { missKey } from "./wheelMisfit.ts";
import type { Belief, WheelModelToFit, WheelSoilFit } from "./wheelSoilFit.ts";
import { soilParameters } from "./wheelSoilParameters.ts";

/** how well a plate run gives ln p and a shear run φ, where the day has none to judge by */
const plateDoubt = 0.05;
const shearDoubtDeg = 1;
const slips = [0.1, 0.2, 0.4];

/**
 * Tests that could separate what the runs leave tied together, with what each would see.
 *
 * @param observations   the runs there are: their wheels and loads are varied
 * @param fit            of the stress integrals
 * @param toFit          its model
 * @param transfer       doubts of plates and shear runs under a wheel: of ln p, and of φ [°]; null = not declared, counted as 0.3 and 4°
 * @returns              candidates: half and twice the load, a wheel twice as wide, plates of one width, plates of two widths, shear runs
 * @source               common practice; each number as sharp as the runs' own and the model's error allow
 * @checked              tests/fitting/wheelSoilResult.test.ts
 */
export function separatingTests(observations: readonly WheelObservation[], fit: WheelSoilFit, toFit: WheelModelToFit, transfer: { readonly plate: number | null; readonly shearDeg: number | null }): PossibleTest[] {
  const wheel = (observations[0] as WheelObservation).wheel;
  const loads = observations.map(({ loadN }) => loadN);
  const [least, most] = [Math.min(...loads), Math.max(...loads)];
  const runs = (name: string, at: WheelObservation["wheel"], loadN: number): PossibleTest => ({ name, rows: slips.flatMap((slip) => quantities.flatMap((quantity) => row(fit, toFit, quantity, at, slip, loadN))) });
  const index = (name: string): number => soilParameters.findIndex((parameter) => parameter.name === name);
  const unit = (entries: Readonly<Record<string, number>>): number[] => soilParameters.map(({ name }) => entries[name] ?? 0);
  const plate = Math.hypot(plateDoubt, transfer.plate ?? 0.3);
  const at = (sinkageM: number, width: number): PossibleTest["rows"][number] => {
    const share = fit.fitted[index("widthShare")] as number;
    // ln k at b over b₀: ∂/∂χ of ln (1 + χ b₀/b) − ln (1 + χ)
    return { slopes: unit({ pressureAt10mm: 1, sinkageExponent: Math.log(sinkageM / 0.01), widthShare: 1 / width / (1 + share / width) - 1 / (1 + share) }), uncertainty: plate };
  };
  return [
    runs(`runs at ${significant(least / 2, 2)} N, slips 0.1, 0.2, 0.4`, wheel, least / 2),
    runs(`runs at ${significant(2 * most, 2)} N, slips 0.1, 0.2, 0.4`, wheel, 2 * most),
    runs(`runs of a wheel twice as wide as ${wheel.id}`, { ...wheel, id: `${wheel.id}, twice as wide`, widthM: 2 * wheel.widthM }, (least + most) / 2),
    { name: "plates of one width, 5 to 40 mm deep", rows: [0.005, 0.01, 0.02, 0.04].map((z) => at(z, 1)) },
    { name: "plates of two widths, 5 to 40 mm deep", rows: [0.005, 0.01, 0.02, 0.04].flatMap((z) => [at(z, 0.5), at(z, 1.5)]) },
    { name: "shear runs at three normal stresses", rows: [{ slopes: unit({ frictionAngle: 1 }), uncertainty: Math.hypot(shearDoubtDeg, transfer.shearDeg ?? 4) }, { slopes: unit({ shearModulus: 1 }), uncertainty: Math.log(1.6) }] },
  ];
}

function row(fit: WheelSoilFit, { model, beliefs, upper }: WheelModelToFit, quantity: WheelQuantity, wheel: WheelObservation["wheel"], slip: number, loadN: number): PossibleTest["rows"] {
  const share = (p: readonly number[]): number => shareOf(model(p, wheel, slip, loadN), quantity, wheel);
  const slopes = fit.fitted.map((value, j) => {
    const size = 1e-3 * (beliefs[j] as Belief).sd;
    // one-sided and inwards: a parameter may rest on its bound, and the models have no answer beyond it
    const step = value + size > (upper[j] as number) ? -size : size;
    const moved = (by: number): number[] => fit.fitted.map((other, k) => (k === j ? value + by : other));
    return (share(moved(step)) - share(fit.fitted)) / step;
  });
  const own = fit.data.filter((datum) => datum.quantity === quantity).map(({ ownUncertainty }) => ownUncertainty);
  const typical = own.length === 0 ? 0.01 : (own.sort((a, b) => a - b)[Math.floor(own.length / 2)] as number);
  return slopes.every(Number.isFinite) ? [{ slopes, uncertainty: Math.hypot(typical, fit.discrepancy[missKey(quantity, wheel)] ?? 0) }] : [];
}
