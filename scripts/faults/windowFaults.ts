import { travelSpeed } from "../demo/dayPlan.ts";
import type { Fault } from "./fault.ts";
import { editCounts, editDrive, editForces, editFrame } from "./edits.ts";

const pull = { run: "T2", measure: "pullCoefficient" } as const;
const diameterM = 0.21;

/** How far the carriage has gone [m], leaving out the ramp. */
const travelled = (timeS: number, startS: number): number => Math.max(0, timeS - startS) * travelSpeed;

/** Stretches of a run that do not belong into its mean. */
export const windowFaults: readonly Fault[] = [
  {
    number: 17,
    title: "Inertia of the pulling weight stands in the pull",
    severity: "A",
    caughtBy: ["speed-spread", "speed-off", "pull-trend"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0.001, says: "30 kg still gaining 1 mm/s every second" },
      { size: 0.008, says: "8 mm/s every second" },
      { size: 0.03, says: "30 mm/s every second" },
    ],
    // Wheel and carriage gain speed alike, so that slip stays.
    inject: (day, size) => {
      const gain = (timeS: number, startS: number, endS: number): number => (0.5 * size * Math.max(0, Math.min(timeS, endS) - startS) ** 2) / travelSpeed;
      editForces(day, "T2", (forces, timeS, { startS, endS }) => void (timeS > startS && timeS < endS && (forces.forceX += 30 * size)));
      let before = Number.NaN;
      let at = 0;
      let rate = 0;
      editCounts(day, "T2", (count, timeS, { startS, endS }) => {
        if (!Number.isNaN(before) && timeS > startS + 1 && timeS < startS + 2) rate = (count - before) / (timeS - at);
        before = count;
        at = timeS;
        // counts a second at steady speed, known once the wheel has run for a while
        return count + (rate === 0 ? 0 : rate * gain(timeS, startS, endS));
      });
      editDrive(day, "T2", "X", (mm, timeS, { startS, endS }) => mm + 1000 * travelSpeed * gain(timeS, startS, endS));
    },
  },
  {
    number: 20,
    title: "The wheel has not settled when the window begins",
    severity: "A",
    caughtBy: ["pull-trend", "window-sensitive"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0.02, says: "pull 2 % of the load too high at the start, gone after three diameters" },
      { size: 0.1, says: "10 % of the load" },
      { size: 0.3, says: "30 % of the load" },
    ],
    inject: (day, size) => editForces(day, "T2", (forces, timeS, { startS, endS }) => void (timeS > startS && timeS < endS && (forces.forceX -= size * 70 * Math.exp(-travelled(timeS, startS) / (3 * diameterM))))),
  },
  {
    number: 21,
    title: "The bed's end reaches into the window",
    severity: "A",
    caughtBy: ["pull-trend", "window-sensitive", "local-hole"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0.02, says: "pull rises by 2 % of the load over the last two diameters and a half" },
      { size: 0.1, says: "by 10 % of the load" },
      { size: 0.3, says: "by 30 % of the load" },
    ],
    inject: (day, size) => editForces(day, "T2", (forces, timeS, { startS, endS }) => void (timeS > startS && timeS < endS && (forces.forceX -= size * 70 * Math.min(1, Math.max(0, 1 - (endS - timeS) * travelSpeed / (2.5 * diameterM)))))),
  },
  {
    number: 25,
    title: "Cone read in the wheel's path",
    severity: "B",
    caughtBy: ["local-hole"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0.03, says: "one hole: the pull falls by 3 % of the load over 60 mm" },
      { size: 0.15, says: "by 15 % of the load" },
      { size: 0.6, says: "by 60 % of the load" },
    ],
    inject: (day, size) => {
      const dip = (timeS: number, startS: number, endS: number): number => Math.exp(-0.5 * ((travelled(timeS, startS) - 0.55 * (endS - startS) * travelSpeed) / 0.03) ** 2);
      editForces(day, "T2", (forces, timeS, { startS, endS }) => void (forces.forceX += size * 70 * dip(timeS, startS, endS)));
      editFrame(day, "T2", "Pot", (volts, timeS, { startS, endS }) => volts + (10 * size * dip(timeS, startS, endS)) / 30.02);
    },
  },
];
