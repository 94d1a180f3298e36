import type { Fault } from "./fault.ts";
import { addFrameColumn, editForces, editFrame, lastTimeS, replaceText, rollingRuns } from "./edits.ts";
import type { RunPhases } from "./miniDay.ts";
import { gravity, massBelowSensorKg } from "../demo/rigTruth.ts";
import { wheels } from "../demo/wheelTruth.ts";

const pull = { run: "T2", measure: "pullCoefficient" } as const;
const load = { run: "T2", measure: "verticalLoad" } as const;
const below = (massBelowSensorKg + (wheels.find((wheel) => wheel.id === "W3")?.massKg ?? 0)) * gravity;

export const zeroFaults: readonly Fault[] = [
  {
    number: 9,
    title: "Zero drifts between the blocks before and after the run",
    severity: "A",
    caughtBy: ["zero-drift", "zero-drift-of-mean"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0.6, says: "pull drifts by 0.6 N, all of it in the first second of motion" },
      { size: 3, says: "pull drifts by 3 N" },
      { size: 9, says: "pull drifts by 9 N" },
    ],
    inject: (day, size) =>
      editForces(day, "T2", (forces, timeS, { startS }) => {
        forces.forceX += size * Math.min(1, Math.max(0, timeS - startS));
      }),
  },
  {
    number: 10,
    title: "Zero taken while the wheel touches the ground",
    severity: "A",
    caughtBy: ["zero-touching", "wheel-weight"],
    plan: "rolling",
    headline: load,
    strengths: [
      { size: 0.5, says: "wheel rests with 0.5 N during both zeros" },
      { size: 2, says: "wheel rests with 2 N" },
      { size: 6, says: "wheel rests with 6 N" },
    ],
    inject: (day, size) => {
      // The hub hangs where the ground first bears that much, and goes down from there.
      let heldS = Number.NaN;
      editForces(day, "T2", (forces, timeS) => {
        if (Number.isNaN(heldS) && forces.forceZ + below > size && timeS > 2.2) heldS = timeS;
        forces.forceZ = Math.max(forces.forceZ, size - below);
      });
      let held = Number.NaN;
      editFrame(day, "T2", "Pot", (volts, timeS) => {
        if (Math.abs(timeS - heldS) < 1e-6) held = volts;
        return volts;
      });
      editFrame(day, "T2", "Pot", (volts) => Math.max(volts, held));
    },
  },
  {
    number: 11,
    title: "Zero taken at another tilt than the run",
    severity: "A",
    caughtBy: ["tilt-at-zero"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0.3, says: "0.3 degrees between zero and run" },
      { size: 1.5, says: "1.5 degrees" },
      { size: 5, says: "5 degrees" },
    ],
    inject: (day, size) => {
      for (const run of rollingRuns(day)) {
        const tilted = (timeS: number, { touchS = Infinity, liftFromS = -Infinity }: RunPhases): number => (timeS > touchS - 0.4 && timeS < liftFromS + 0.3 ? size : 0);
        editForces(day, run, (forces, timeS, phases) => {
          forces.forceX += below * Math.sin((tilted(timeS, phases) * Math.PI) / 180);
        });
        addFrameColumn(day, run, "Tilt", "deg", tilted);
      }
      replaceText(day, "rig.yaml", "      sync: { column: Sync, unit: V }", "      sync: { column: Sync, unit: V }\n      tilt: { column: Tilt, unit: deg, sign: 1 }");
    },
  },
  {
    number: 13,
    title: "Weight below the sensor forgotten or counted twice",
    severity: "A",
    caughtBy: ["hanging-load", "load-off"],
    plan: "rolling",
    headline: load,
    strengths: [
      { size: 0.05, says: "massBelowSensor 50 g too small" },
      { size: 0.35, says: "massBelowSensor 0.35 kg too small" },
      { size: 1.4, says: "massBelowSensor left out, 1.4 kg" },
    ],
    // The zero is taken with the sensor bare; the wheel is hung on just after.
    inject: (day, size) => {
      for (const run of rollingRuns(day)) {
        const lastS = lastTimeS(day, run);
        editForces(day, run, (forces, timeS) => {
          if (timeS < 2.02 || timeS > lastS - 2.02) forces.forceZ += below;
        });
      }
      replaceText(day, "rig.yaml", "state: wheelLifted", "state: sensorBare");
      replaceText(day, "rig.yaml", "massBelowSensor: 1.4", `massBelowSensor: ${1.4 - size}`);
    },
  },
];
