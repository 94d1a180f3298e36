import type { Fault } from "./fault.ts";
import { editForces, editFrame, editSheet, runsOf } from "./edits.ts";
import type { MiniDay } from "./miniDay.ts";

/** A firmer bed: more pull, less sinkage. */
function firmer(day: MiniDay, run: string, share: number): void {
  const truth = day.truth.get(run) as Record<string, number>;
  editForces(day, run, (forces, timeS, { startS, endS }) => void (timeS > startS && timeS < endS && (forces.forceX -= share * 70)));
  editFrame(day, run, "Pot", (volts, timeS, { startS, liftFromS = 0 }) => (timeS > startS - 1 && timeS < liftFromS ? volts - (3 * share * 1000 * (truth["sinkageM"] as number)) / 30.02 : volts));
}

/** The bed changes from run to run. */
export const bedFaults: readonly Fault[] = [
  {
    number: 23,
    title: "Bed not prepared again: the wheel runs in an old rut",
    severity: "A",
    caughtBy: ["bed-changed", "order-trend"],
    plan: "blocks",
    headline: { run: "C2", measure: "pullCoefficient" },
    strengths: [
      { size: 0.005, says: "the last run on each bed pulls 0.5 % of the load more" },
      { size: 0.03, says: "3 % of the load more" },
      { size: 0.08, says: "8 % of the load more" },
    ],
    inject: (day, size) => {
      for (const run of ["C2", "C4", "C6"]) firmer(day, run, size);
    },
  },
  {
    number: 24,
    title: "The bed compacts through the day by walking, vibration and waiting",
    severity: "A",
    caughtBy: ["order-trend", "cone-gradient-off"],
    plan: "blocks",
    headline: { run: "C6", measure: "pullCoefficient" },
    strengths: [
      { size: 0.004, says: "pull grows by 0.4 % of the load from first to last run" },
      { size: 0.03, says: "by 3 % of the load" },
      { size: 0.08, says: "by 8 % of the load" },
    ],
    inject: (day, size) => {
      const runs = runsOf(day, "traction");
      runs.forEach((run, i) => firmer(day, run, (size * i) / (runs.length - 1)));
    },
  },
  {
    number: 26,
    title: "Cone worn, of the wrong size, or pushed at the wrong rate",
    severity: "A",
    caughtBy: ["cone-worn", "cone-rate", "cone-gradient-off"],
    plan: "blocks",
    headline: { name: "cone gradient of B01", of: (day) => day.cones.find((cone) => cone.bed === "B01")?.gradient ?? null },
    strengths: [
      { size: 20, says: "base worn from 20.27 to 20.0 mm" },
      { size: 19, says: "base worn to 19.0 mm" },
      { size: 12.83, says: "the small cone, taken for the large one" },
    ],
    inject: (day, size) => {
      editSheet(day, "cones.csv", (row) => void (row["index [kPa]"] = String(Math.round(Number(row["index [kPa]"]) * (size / 20.27) ** 2))));
      editSheet(day, "beds.csv", (row) => void (row["cone diameter [mm]"] = String(size === 12.83 ? 20.27 : size).replace(".", ",")));
    },
  },
  {
    number: 27,
    title: "Moisture or static charge of the soil changes",
    severity: "A",
    caughtBy: ["moisture-spread", "order-trend"],
    plan: "blocks",
    headline: { run: "C5", measure: "pullCoefficient" },
    strengths: [
      { size: 0.02, says: "the third bed holds 0.02 % more water: pull up by 0.1 % of the load" },
      { size: 0.2, says: "0.2 % more: pull up by 1 % of the load" },
      { size: 1, says: "1 % more: pull up by 5 % of the load" },
    ],
    inject: (day, size) => {
      for (const run of ["C5", "T3", "C6"]) firmer(day, run, 0.05 * size);
      editSheet(day, "beds.csv", (row) => void (row["bed"] === "B03" && (row["moisture [%]"] = String(Number((row["moisture [%]"] as string).replace(",", ".")) + size).replace(".", ","))));
    },
  },
];
