import { gravity } from "../demo/rigTruth.ts";
import { travelSpeed } from "../demo/dayPlan.ts";
import { editForces, editFrame, editSheet } from "./edits.ts";
import type { Fault } from "./fault.ts";
import { remakeRun } from "./miniRun.ts";

const sinkage = { run: "T2", measure: "sinkageRunning" } as const;

/** Surface, deflection and soil in the wheel. */
export const sinkageFaults: readonly Fault[] = [
  {
    number: 43,
    title: "The bed slopes against the rails: sinkage counted from the wrong surface",
    severity: "A",
    caughtBy: ["bed-slope"],
    plan: "rolling",
    headline: sinkage,
    strengths: [
      { size: 0.2, says: "by 0.2 mm a metre" },
      { size: 1, says: "by 1 mm a metre" },
      { size: 8, says: "by 8 mm a metre" },
    ],
    inject: (day, size) => editFrame(day, "T2", "Pot", (volts, timeS, { startS, endS }) => volts + (size * travelSpeed * Math.max(0, Math.min(timeS, endS) - startS)) / 30.02),
  },
  {
    number: 44,
    title: "A flexible wheel's deflection is counted as sinkage",
    severity: "A",
    caughtBy: ["deflection-differs", "rigid-deflects"],
    plan: "rolling",
    headline: sinkage,
    strengths: [
      { size: 1, says: "the press run is one of a stiffer flexible wheel" },
      { size: 2, says: "the press run is one of the rigid drum" },
      { size: 3, says: "no press run, and the record says rigid" },
    ],
    inject: (day, size) => {
      if (size < 3) return remakeRun(day, "L-W3", { wheel: size === 1 ? "W5" : "W1" });
      editSheet(day, "runs.csv", (row) => (row["run"] === "L-W3" ? false : undefined));
      day.files.delete("logs/L-W3_press.csv");
      editSheet(day, "wheels.csv", (row) => void (row["wheel"] === "W3" && (row["flexible"] = "no")));
    },
  },
  {
    number: 45,
    title: "Soil gathers inside the wheel",
    severity: "A",
    caughtBy: ["soil-carried", "zero-drift", "zero-drift-of-mean"],
    plan: "rolling",
    headline: { run: "T2", measure: "verticalLoad" },
    strengths: [
      { size: 0.02, says: "20 g" },
      { size: 0.15, says: "150 g" },
      { size: 0.6, says: "600 g" },
    ],
    inject: (day, size) =>
      editForces(day, "T2", (forces, timeS, { startS }) => {
        // scooped up in the first second, carried through the run and still there when the wheel is lifted
        forces.forceZ -= size * gravity * Math.min(1, Math.max(0, timeS - startS));
      }),
  },
];
