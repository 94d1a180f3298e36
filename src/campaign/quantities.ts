import type { Unit } from "../core/units.ts";

/** One quantity a rig can record: the SI unit drawbar keeps it in, and what its positive direction means. */
interface QuantityRow {
  readonly unit: Unit;
  /** what "sign: 1" means; null = has no direction */
  readonly positive: string | null;
  readonly label: string;
}

/** The channel names that drawbar computes with. Any other name must be declared `extra: true` and is only carried along. */
export const quantities = {
  drawbarPull: { unit: "N", positive: "the wheel pulls the carriage forwards", label: "Drawbar pull" },
  verticalLoad: { unit: "N", positive: "the wheel presses on the ground", label: "Vertical load" },
  sideForce: { unit: "N", positive: "the wheel pushes the carriage to the left, seen along the travel", label: "Side force" },
  wheelTorque: { unit: "N.m", positive: "the motor drives the wheel forwards", label: "Wheel torque" },
  wheelAngle: { unit: "rad", positive: "the wheel rolls forwards", label: "Wheel angle" },
  carriagePosition: { unit: "m", positive: "the carriage moves forwards", label: "Carriage position" },
  hubHeight: { unit: "m", positive: "the hub rises", label: "Hub height" },
  surfaceHeight: { unit: "m", positive: "the soil surface ahead of the wheel is higher", label: "Surface height" },
  tilt: { unit: "rad", positive: "the nose of the carriage rises", label: "Tilt" },
  motorCurrent: { unit: "A", positive: "the motor drives the wheel forwards", label: "Motor current" },
  temperature: { unit: "Cel", positive: null, label: "Temperature" },
  sync: { unit: "V", positive: null, label: "Shared event line" },
  bridge1: { unit: "mV/V", positive: null, label: "Bridge 1" },
  bridge2: { unit: "mV/V", positive: null, label: "Bridge 2" },
  bridge3: { unit: "mV/V", positive: null, label: "Bridge 3" },
  bridge4: { unit: "mV/V", positive: null, label: "Bridge 4" },
  bridge5: { unit: "mV/V", positive: null, label: "Bridge 5" },
  bridge6: { unit: "mV/V", positive: null, label: "Bridge 6" },
  hubAcceleration: { unit: "m/s2", positive: "the hub accelerates upwards", label: "Hub acceleration" },
  dropHeight: { unit: "m", positive: "the hub rises; zero at first touch", label: "Hub height above first touch" },
  pressForce: { unit: "N", positive: "the press pushes down", label: "Press force" },
  pressDisplacement: { unit: "m", positive: "the press moves down", label: "Press displacement" },
  normalForce: { unit: "N", positive: "the shear plate is pressed down", label: "Normal force" },
  shearForce: { unit: "N", positive: "the soil resists the shear motion", label: "Shear force" },
  shearDisplacement: { unit: "m", positive: "the shear plate advances", label: "Shear displacement" },
} as const satisfies Record<string, QuantityRow>;

export type QuantityName = keyof typeof quantities;

export function isQuantity(name: string): name is QuantityName {
  return Object.hasOwn(quantities, name);
}
