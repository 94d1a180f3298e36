import type { Rig } from "./rigSchema.ts";
import type { KeyPath, RigMistake } from "./yamlPlaces.ts";

/** Tare and inertia against the rest of the description: one way to know the weight, an attitude that is known, moments that can be worked out. */
export function checkLoadPath(rig: Rig): RigMistake[] {
  return [...checkTare(rig), ...checkInertia(rig)];
}

function checkTare(rig: Rig): RigMistake[] {
  const { tare } = rig;
  if (tare === undefined) return [];
  const mistakes: RigMistake[] = [];
  const add = (code: string, path: KeyPath, message: string, hint: string) => mistakes.push({ code, path: ["tare", ...path], message, hint });
  const { stated, readings, axle } = tare;
  if ((stated === undefined) === (readings === undefined)) add("tare-way", [], `expected exactly one of stated and readings, found ${stated === undefined ? "neither" : "both"}`, "Keep the better one: readings at three attitudes find the weight as the sensor feels it.");
  if (rig.zero === undefined) add("missing-zero", [], "expected zero, because the tare is counted from the attitude of the zero, found nothing", "Describe the zero blocks: zero: { state: …, beforeS: …, afterS: … }.");
  if (stated !== undefined && rig.massBelowSensor === undefined) add("missing-mass", ["stated"], "expected massBelowSensor beside it, found nothing", "Weigh what hangs below the sensor without the wheel.");
  if (stated !== undefined && (stated.centreOfMass === undefined) !== (stated.centreUncertainty === undefined)) add("tare-centre", ["stated"], "expected centreOfMass and centreUncertainty together, found one of them", "State both, or neither if no torque is to be corrected.");
  const torques = readings?.at.filter((reading) => reading.wheelTorque !== undefined).length ?? 0;
  if (readings !== undefined && torques > 0 && (torques < readings.at.length || readings.torqueUncertainty === undefined)) add("tare-torque", ["readings"], "expected wheelTorque in every reading, and torqueUncertainty, found some of it", "State all of it, or none if no torque is to be corrected.");
  if (readings !== undefined && new Set(readings.at.map((reading) => reading.tilt)).size < 3) add("tare-attitudes", ["readings", "at"], "expected readings at three attitudes or more, found fewer", "Tilt the carriage with the wheel lifted and read again.");
  if (axle === undefined && (stated?.centreOfMass !== undefined || torques > 0)) add("missing-axle", ["axle"], "expected axle, because the torque of the weight depends on where each wheel sits, found nothing", "Write axle: { forward: 0, up: 0 } if the sensor's origin is on the axle.");
  if (tare.attitude === undefined && !Object.values(rig.loggers).some((logger) => Object.hasOwn(logger.channels, "tilt"))) add("missing-attitude", ["attitude"], "expected a channel tilt or attitude, found neither", "Record the tilt, or write attitude: { zero: …, run: …, uncertainty: … }.");
  return mistakes;
}

function checkInertia({ inertia }: Rig): RigMistake[] {
  if (inertia === undefined || (inertia.turning === undefined) === (inertia.turningUncertainty === undefined)) return [];
  return [{ code: "inertia-turning", path: ["inertia"], message: "expected turning and turningUncertainty together, found one of them", hint: "State both, or neither." }];
}
