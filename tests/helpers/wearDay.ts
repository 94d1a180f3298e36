import type { DayFiles } from "./tinyDay.ts";
import { madeLog, truth } from "../processing/endurance/madeEndurance.ts";
import { seededRandom } from "../../src/numerics/random.ts";

/** The made wear: 2 mm³ for each newton and kilometre of sliding, of aluminium, under the made run's load and slip. */
export const wear = { rate: 2e-12, density: 2700, missionM: 40_000, newMassKg: 1.2 };
const meanSlip = truth.slip(0.5);
export const lossPerMetre = (wear.rate * wear.density * truth.load * meanSlip) / (1 - meanSlip);
export const distancesKm = [0, 1, 3, 10, 20, 30];
export const doubts = { massKg: 0.0002, soilMassKg: 0.0005 };

/** Rows of inspections.csv of one made wheel: soil sticks to it, and both weighings scatter. */
export function inspectionRows(wheel: string, seed: number): string[] {
  const random = seededRandom(seed);
  return distancesKm.map((km) => {
    const soil = km === 0 ? 0 : 0.02 + 0.01 * random.uniform();
    const weighed = wear.newMassKg - lossPerMetre * km * 1000 + soil + doubts.massKg * random.normal();
    const soilWeighed = km === 0 ? 0 : soil + doubts.soilMassKg * random.normal();
    return `${wheel},${km},${(1000 * weighed).toFixed(3)},${(1000 * soilWeighed).toFixed(3)},${(100 - 0.01 * km).toFixed(3)},no,`;
  });
}

const rig = `rig: Wear bench
gravity: 9.81
slipRadius: { policy: unloaded, lugs: without, uncertainty: 0.0001 }
zero: { state: wheelLifted, beforeS: 2, afterS: 2 }
massBelowSensor: 0
endurance:
  missionDistance: ${wear.missionM}
  massUncertainty: ${doubts.massKg}
  soilMassUncertainty: ${doubts.soilMassKg}
  wearingDensity: ${wear.density}
  wearingDensityUncertainty: 10
  weibullShape: 2
  claim: { reliability: 0.9, confidence: 0.9 }
  lifeLine: { range: 100, cycles: 1e6, exponent: 4, cutOff: null, scatterFactor: 3 }
loggers:
  main:
    files: logs/{run}.csv
    kinds: [endurance]
    clock: { kind: elapsed, column: t, unit: s }
    channels:
      drawbarPull: { column: Fx, unit: N, sign: 1, range: [-500, 500], uncertainty: { relative: 0.002, offset: 0.1 } }
      verticalLoad: { column: Fz, unit: N, sign: 1, range: [-256, 256], uncertainty: { relative: 0.002, offset: 0.1 } }
      wheelAngle: { column: A, unit: rad, sign: 1 }
      carriagePosition: { column: X, unit: m, sign: 1, uncertainty: { relative: 0.001, offset: 0.001 } }
`;

/** A day with one short endurance run and the inspections of two wheels. */
export function wearDay(): DayFiles {
  const { timesS, columns } = madeLog({ legs: 2, legS: 100 });
  const named = ["Fx", "Fz", "A", "X"].map((name) => columns.find((column) => column.name === name)?.samples as ArrayLike<number>);
  const rows = Array.from(timesS, (t, i) => [t.toFixed(2), ...named.map((samples) => (samples[i] as number).toFixed(5))].join(","));
  return {
    "rig.yaml": rig,
    "runs.csv": "run,kind,wheel,load [N],repeat\nE1,endurance,W1,60,1\n",
    "wheels.csv": "wheel,radius [mm],width [mm],mass [kg],lugs,lug height [mm],flexible\nW1,100,80,1.2,0,0,no\nW2,100,80,1.2,0,0,no\n",
    "inspections.csv": ["wheel,distance [km],mass [g],soil mass [g],radius [mm],failed,remark", ...inspectionRows("W1", 11), ...inspectionRows("W2", 12), ""].join("\n"),
    "logs/E1.csv": ["t,Fx,Fz,A,X", ...rows, ""].join("\n"),
  };
}
