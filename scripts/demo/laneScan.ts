import type { PlannedRun } from "./dayPlan.ts";
import { dice } from "./dice.ts";
import { carriageStartMm, scan } from "./rigTruth.ts";
import type { SensorErrors } from "./rigTruth.ts";
import type { WheelTruth } from "./wheelTruth.ts";

/** The surface of one lane as it truly is, against the rails, from where the wheel touches. */
export interface Lane {
  /** rise over length, uphill positive, waves left out */
  readonly slope: number;
  height(travelM: number): number;
  slopeAt(travelM: number): number;
}

export const levelLane: Lane = { slope: 0, height: () => 0, slopeAt: () => 0 };

/** A bed is levelled to a millimetre or two a metre, and its blade leaves shallow waves. */
export function laneTruth(seed: number, run: PlannedRun): Lane {
  const random = dice(seed, `lane ${run.id}`);
  const slope = 0.0013 * random.normal();
  const waveM = 0.00015;
  const perMetre = (2 * Math.PI) / 0.8;
  const phase = 2 * Math.PI * random.uniform();
  return { slope, height: (x) => slope * x + waveM * Math.sin(perMetre * x + phase), slopeAt: (x) => slope + waveM * perMetre * Math.cos(perMetre * x + phase) };
}

const stepM = 0.075;
const besideM = 0.09;

/** Mean depth of the rut: the soil springs back, and the lugs leave ridges. */
export function rutTruth(wheel: WheelTruth, sinkageM: number): number {
  return 0.92 * sinkageM - 0.3 * wheel.lugHeightM;
}

/** Rows of surfaces.csv of one run [mm]: the lane before, and with the rut in it. */
export function laneRows(seed: number, run: PlannedRun, lane: Lane, travelM: number, rutM: number, wheel: WheelTruth, errors: SensorErrors): (readonly [run: string, scan: string, positionMm: number, heightMm: number])[] {
  const random = dice(seed, `scan ${run.id}`);
  const scanner = dice(seed, "scanner");
  const [scale, tilt] = [1 + scan.relative * scanner.normal(), scan.slope * scanner.normal()];
  const places = Array.from({ length: Math.ceil((travelM + 2 * besideM) / stepM) }, (_, i) => -besideM + i * stepM);
  return (["before", "after"] as const).flatMap((side) => {
    const offsetM = scan.offsetM * random.normal();
    return places.map((x) => {
      const rut = side === "after" && x > 0 && x < travelM ? rutM + 0.3 * wheel.lugHeightM * Math.SQRT2 * Math.sin(2 * Math.PI * random.uniform()) : 0;
      const height = (lane.height(x) - rut) * scale + tilt * x + offsetM + scan.noiseM * random.normal();
      return [run.id, side, Math.round(carriageStartMm + 1000 * x * errors.carriage), Math.round(1e5 * height) / 100] as const;
    });
  });
}
