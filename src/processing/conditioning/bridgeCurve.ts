import type { RigChannel } from "../../campaign/rigSchema.ts";
import { convert, unitKind } from "../../core/units.ts";
import type { Unit } from "../../core/units.ts";

type Calibration = NonNullable<RigChannel["calibration"]>;
type Supply = Pick<NonNullable<Calibration["sensitivity"]>, "excitation" | "amplification">;

/**
 * Output of a bridge over its supply, r.
 *
 *   r = reading [mV/V] / 1000, or reading [V] / (excitation · amplification)
 *
 * @param unit    unit of the readings in the file: of bridge output, or of voltage
 * @param supply  excitation [V] and amplification, where the file holds volts
 * @returns       what takes a reading to r [V/V]
 * @source        definition of a bridge's output; common practice
 * @checked       tests/processing/conditioning/bridgeCurve.test.ts
 */
function bridgeOutput(unit: Unit, { excitation = 1, amplification = 1 }: Supply): (reading: number) => number {
  const scale = unitKind(unit) === "voltage" ? convert(1, unit, "V") / (excitation * amplification) : convert(1, unit, "mV/V") / 1000;
  return (reading) => reading * scale;
}

/**
 * Load on a bridge by its rated output.
 *
 *   F = F_rated · r / r_rated
 *
 * @param sensitivity  rated output [mV/V] and rated load [the unit that the calibration gives]
 * @param unit         unit of the readings in the file
 * @returns            what takes a reading to the load; the output at no load stays in it, for the zero to take out
 * @source             common practice of load-cell certificates
 * @checked            tests/processing/conditioning/bridgeCurve.test.ts
 */
export function sensitivityCurve(sensitivity: NonNullable<Calibration["sensitivity"]>, unit: Unit): (reading: number) => number {
  const output = bridgeOutput(unit, sensitivity);
  return (reading) => (sensitivity.load * output(reading)) / (sensitivity.output / 1000);
}

/**
 * Strain from a bridge of gauges of gauge factor k.
 *
 *   full: ε = r / k      half: ε = 2 r / k      quarter: ε = 4 r / (k (1 − 2 r))
 *
 * Half and full bridge with gauges of equal and opposite strain are linear; one gauge alone unbalances the bridge by its own change of
 * resistance, which the last formula undoes exactly: r = k ε / (4 + 2 k ε). Holds while lead resistance and the gauges' transverse
 * sensitivity are negligible or part of k.
 *
 * @param gauge  k, which bridge, and its supply where the file holds volts
 * @param unit   unit of the readings in the file
 * @param gives  unit of strain wanted
 * @returns      what takes a reading to the strain [gives]
 * @source       voltage divider of a Wheatstone bridge; common practice
 * @checked      tests/processing/conditioning/bridgeCurve.test.ts
 */
export function strainCurve(gauge: NonNullable<Calibration["strainGauge"]>, unit: Unit, gives: Unit): (reading: number) => number {
  const output = bridgeOutput(unit, gauge);
  const scale = convert(1, "m/m", gives) / gauge.gaugeFactor;
  switch (gauge.bridge) {
    case "full":
      return (reading) => scale * output(reading);
    case "half":
      return (reading) => 2 * scale * output(reading);
    case "quarter":
      return (reading) => (4 * scale * output(reading)) / (1 - 2 * output(reading));
  }
}
