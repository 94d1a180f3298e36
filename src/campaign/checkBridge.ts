import { unitKind } from "../core/units.ts";
import type { Unit } from "../core/units.ts";
import type { RigChannel } from "./rigSchema.ts";
import type { KeyPath, RigMistake } from "./yamlPlaces.ts";

/** A bridge calibration against the file's unit: mV/V needs no supply, volts need supply and amplification, strain comes from gauges only. */
export function checkBridge(calibration: NonNullable<RigChannel["calibration"]>, unit: Unit, path: KeyPath): RigMistake[] {
  return (["sensitivity", "strainGauge"] as const).flatMap((way): RigMistake[] => {
    const bridge = calibration[way];
    if (bridge === undefined) return [];
    const mistakes: RigMistake[] = [];
    const add = (code: string, key: string, message: string, hint: string) => mistakes.push({ code, path: [...path, ...key.split(".")], message, hint });
    const kind = unitKind(unit);
    const supplied = (["excitation", "amplification"] as const).filter((key) => bridge[key] !== undefined);
    if (kind !== "bridge output" && kind !== "voltage") add("not-a-bridge", way, `expected a file unit of bridge output like mV/V, or of voltage, for ${way}, found ${unit} (${kind})`, "Correct the unit, or state gain, polynomial or table.");
    if (kind === "voltage" && supplied.length < 2) add("bridge-supply", way, `expected excitation and amplification, because the file holds ${unit}, found ${supplied.length === 0 ? "neither" : `${supplied[0]} only`}`, "Write excitation: the bridge's supply in volt, and amplification: the amplifier's gain, 1 if there is none.");
    if (kind === "bridge output" && supplied.length > 0) add("bridge-supply", `${way}.${supplied[0]}`, `expected no ${supplied[0]}, because the file holds ${unit}, found it`, "Remove it: the reading is already divided by the supply.");
    if (way === "strainGauge" && unitKind(calibration.gives) !== "strain") add("wrong-dimension", "gives", `expected a unit of strain like m/m, um/m, found ${calibration.gives} (${unitKind(calibration.gives)})`, "Gauges give strain. If the force was calibrated against the bridge, state sensitivity or gain.");
    if (way === "sensitivity" && calibration.sensitivity?.output === 0) add("calibration-flat", "sensitivity.output", "expected an output other than 0, found 0", "Copy the rated output from the certificate.");
    return mistakes;
  });
}
