import type { RunKind } from "../../campaign/rigSchema.ts";

/** The numbers a card shows: few enough to be read standing at the rig. */
export const keyMeasures: Readonly<Record<RunKind, readonly string[]>> = {
  traction: ["pullCoefficient", "slip", "skid", "verticalLoad", "sinkageRunning"],
  hardFloor: ["rollingRadius", "verticalLoad"],
  freeSpin: ["freeSpinDrag", "wheelSpeed"],
  plate: ["pressureAt10mm", "sinkageExponent"],
  shear: ["shearStrength", "shearModulus", "normalStress"],
  drop: ["restitution", "impactSpeed", "peakAcceleration"],
  loadDeflection: ["deflection", "secantStiffness", "lossFactor"],
  footprint: ["contactArea", "meanPressure", "conformityIndex"],
  sweep: ["pullCoefficientAt20", "responseLag", "sweepHysteresis", "verticalLoad"],
  obstacle: ["climbed", "peakTorque", "hubRise"],
  endurance: ["distance", "pullCoefficient", "slip", "slipChange"],
};
