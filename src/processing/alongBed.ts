import type { RevolutionWindow } from "./conditioning/window.ts";
import type { Corrected, Forces } from "./forcesOnWheel.ts";
import { alongSlope } from "./measures/alongSlope.ts";
import { constantReading } from "./measures/reading.ts";
import type { PreparedRun } from "./preparedRun.ts";
import { scannedBed } from "./scannedBed.ts";

/** Pull and load turned into the slope of the bed where the lane was scanned; as they are where it was not. */
export function alongBed(run: PreparedRun, window: RevolutionWindow, forces: Forces): Corrected {
  const { bed, findings } = scannedBed(run, window);
  if (bed === null) return { forces, touched: [], says: "", findings };
  const turned = alongSlope(forces.pull, forces.load, constantReading(bed.slope, forces.load.perRevolution.length));
  return { forces: { ...turned, torque: forces.torque }, touched: ["load", "pull"], says: "turned into the slope of the scanned bed", findings };
}
