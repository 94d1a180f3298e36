import type { Fit } from "../core/fit.ts";
import { significant } from "../core/significant.ts";
import { furtherFit } from "./furtherFit.ts";
import type { FormPoint } from "./measures/formFit.ts";
import type { PressCurve, PressReading } from "./measures/pressCurve.ts";
import { missedStretches, pressureWithKnee, saturatingCurve } from "./measures/saturatingCurve.ts";
import { sinkagePowerLaw } from "./measures/sinkagePowerLaw.ts";

/** share of the power law's miss below which the other form describes a bed better; noise alone gives 0.95 to 1.05 */
const clearly = 0.8;

/** The form with a plateau for a plate curve of which it foretells stretches left out clearly better than a power law does; null for any other curve. */
export function plateKnee(run: string, reading: PressReading, toPoints: (data: PressCurve) => readonly FormPoint[]): Fit | null {
  const points = toPoints(reading.curve);
  const byKnee = missedStretches(points, (left) => {
    const found = saturatingCurve(left);
    return found === null ? null : (z) => pressureWithKnee(z, found.values);
  });
  const byPower = missedStretches(points, (left) => {
    const { exponent, stiffness } = sinkagePowerLaw(left.map(({ x, y }) => ({ sinkageM: x, pressurePa: y })));
    return (z) => stiffness * z ** exponent;
  });
  if (!(byKnee < clearly * byPower)) return null;
  const fit = furtherFit(
    {
      model: "pressure over sinkage with a knee, one plate",
      formula: "p = p_s (1 − e^(−z/z_s)) + m z; p_s in Pa, z_s in m, m in Pa/m",
      constants: [{ name: "plateauPressure", symbol: "p_s", unit: "Pa" }, { name: "buildUpSinkage", symbol: "z_s", unit: "m" }, { name: "pressureRise", symbol: "m", unit: "Pa/m" }],
      fit: saturatingCurve,
    },
    run, reading, toPoints,
  );
  if (fit === null) return null;
  const sentence = `Stretches of the sinkage left out in turn are missed by ${percent(byKnee)} of the pressure, by the power law by ${percent(byPower)}: this form describes the run better. It says nothing of another plate width.`;
  return { ...fit, sentence };
}

function percent(share: number): string {
  return `${significant(100 * share, 2)} %`;
}
