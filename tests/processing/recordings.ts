import { rigSchema } from "../../src/campaign/rigSchema.ts";
import type { Rig } from "../../src/campaign/rigSchema.ts";
import type { WheelRecord } from "../../src/campaign/campaign.ts";
import type { Channel, Doubt, Recording } from "../../src/core/recording.ts";
import type { Unit } from "../../src/core/units.ts";

export const doubt: Doubt = { noise: 0, offset: 0.1, relativeGain: 0.002, calibration: "CELL-1" };

/** A recording on a stamped clock from functions of time. */
export function record(rateHz: number, lengthS: number, channels: Readonly<Record<string, { unit: Unit; of: (timeS: number, index: number) => number; doubt?: Doubt | null }>>, startS = 0): Recording {
  const count = Math.round(lengthS * rateHz) + 1;
  const timesS = Float64Array.from({ length: count }, (_, i) => startS + i / rateHz);
  const made: Channel[] = Object.entries(channels).map(([name, { unit, of, doubt: stated }]) => ({ name, unit, samples: timesS.map((t, i) => of(t, i)), doubt: stated === undefined ? doubt : stated }));
  return { time: { kind: "stamped", timesS }, startedAt: null, channels: made, sources: [], history: [] };
}

export const wheel: WheelRecord = { id: "W1", radiusM: 0.1, widthM: 0.08, massKg: 1.2, lugs: 24, lugHeightM: 0.005, flexible: false, description: "", bareFrame: null, factors: {}, line: 2 };

/** A small valid rig description; `changes` replace whole keys. */
export function rigWith(changes: Readonly<Record<string, unknown>> = {}): Rig {
  return rigSchema.parse({
    rig: "Test bench",
    gravity: 9.81,
    slipRadius: { policy: "effective", lugs: "with" },
    zero: { state: "wheelLifted", beforeS: 2, afterS: 2 },
    massBelowSensor: 0.8,
    loggers: {
      main: {
        files: "logs/{run}.csv",
        kinds: ["traction", "hardFloor", "freeSpin"],
        clock: { kind: "elapsed", column: "t", unit: "s" },
        channels: {
          drawbarPull: { column: "Fx", unit: "N", sign: 1, range: [-500, 500], uncertainty: { relative: 0.002, offset: 0.1 } },
          verticalLoad: { column: "Fz", unit: "N", sign: 1, range: [-1000, 1000], uncertainty: { relative: 0.002, offset: 0.1 } },
        },
      },
    },
    ...changes,
  });
}
