import { combine } from "../../src/core/estimate.ts";
import type { Estimate } from "../../src/core/estimate.ts";
import type { DayResult } from "../../src/processing/dayResult.ts";
import { travelSpeed } from "../demo/dayPlan.ts";
import { dice } from "../demo/dice.ts";
import { editForces, editSheet, phasesOf, replaceText, rollingRuns, textOf } from "./edits.ts";
import type { Fault, Headline } from "./fault.ts";
import { editLog } from "./logTable.ts";
import { miniRates } from "./miniDay.ts";
import type { MiniDay } from "./miniDay.ts";
import { remakeRun } from "./miniRun.ts";

/** Pull of W3 less that of W1, means over the blocks. */
const difference: Headline = {
  name: "pull coefficient of W3 less that of W1",
  of: (day) => {
    const pulls = (ids: readonly string[]): Estimate[] => ids.flatMap((id) => pullOf(day, id));
    const [a, b] = [pulls(["T1", "T2", "T3"]), pulls(["C1", "C2", "C3", "C4", "C5", "C6"])];
    if (a.length === 0 || b.length === 0) return null;
    const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
    return combine([...a, ...b], (...values) => mean(values.slice(0, a.length)) - mean(values.slice(a.length)), "1", "difference of means");
  },
};

function pullOf(day: DayResult, id: string): Estimate[] {
  const found = day.runs.find((run) => run.plan.id === id)?.measures.find((measure) => measure.name === "pullCoefficient")?.estimate;
  return found === undefined || found.standardUncertainty === null ? [] : [found];
}

function morePull(day: MiniDay, run: string, share: number): void {
  editForces(day, run, (forces, timeS, { startS, endS }) => void (timeS > startS && timeS < endS && (forces.forceX -= share * 70)));
}

/** Ampere a newton metre of the invented motor. */
const ampereNm = 0.4;

/** Torque from the motor's current, whose gearbox is cold at first. */
function byCurrent(day: MiniDay, cold: number): void {
  const random = dice(day.seed, "motor current");
  rollingRuns(day).forEach((run, i) => {
    const { torqueNm = 0, freeSpinTorqueNm = 0 } = day.truth.get(run) as Record<string, number>;
    const { leadS } = phasesOf(day, run);
    const torque = (torqueNm + freeSpinTorqueNm) * (1 + cold * Math.exp(-i / 3));
    editLog(day, `logs/${run}_drive.csv`, (table) => {
      table.head += ",I [A]";
      table.names.push("I");
      table.decimals.push(4);
      table.rows.forEach((row, k) => {
        const timeS = k / miniRates.driveHz - leadS;
        const { startS, endS } = phasesOf(day, run);
        row.push((timeS > startS && timeS < endS ? torque * ampereNm : 0) + 0.003 * random.normal());
      });
    });
  });
  replaceText(day, "rig.yaml", /\n +wheelTorque: \{ output[^\n]*/, "");
  replaceText(day, "rig.yaml", /( +)carriagePosition: \{ column: X/, `$1wheelTorque: { column: I, unit: A, sign: 1, calibration: { gives: N.m, gain: ${1 / ampereNm}, offset: 0, date: 2026-10-01, certificate: MOT-1 }, uncertainty: { relative: 0.01, offset: 0.02 } }\n$1carriagePosition: { column: X`);
}

/** A second press run of W3 at the end of the day, with another deflection at every load. */
function pressedAgain(day: MiniDay, softer: number): void {
  day.files.set("logs/L2-W3_press.csv", textOf(day, "logs/L-W3_press.csv").replace("Run;L-W3", "Run;L2-W3"));
  editLog(day, "logs/L2-W3_press.csv", (table, column) => {
    const at = column("Travel");
    const rest = table.rows[0]?.[at] as number;
    for (const row of table.rows) row[at] = rest + ((row[at] as number) - rest) * (1 + softer);
  });
  const lines = textOf(day, "runs.csv").trimEnd().split("\r\n");
  const pressed = lines.find((line) => line.startsWith("L-W3;")) as string;
  day.files.set("runs.csv", `${[...lines, pressed.replace("L-W3;", "L2-W3;")].join("\r\n")}\r\n`);
}

/** What makes one wheel look better than another, or another day's wheel. */
export const compareFaults: readonly Fault[] = [
  {
    number: 47,
    title: "Motor current taken for torque while the gearbox warms",
    severity: "A",
    caughtBy: ["torque-from-current", "torque-per-current"],
    plan: "rolling",
    headline: { run: "T2", measure: "wheelTorque" },
    strengths: [
      { size: 0.02, says: "2 % more current at the first run, fading over the next ones" },
      { size: 0.2, says: "20 % more" },
      { size: 0.8, says: "80 % more" },
    ],
    inject: byCurrent,
  },
  {
    number: 48,
    title: "Compared wheels ran at different speeds",
    severity: "A",
    caughtBy: ["speeds-compared"],
    plan: "blocks",
    headline: difference,
    strengths: [
      { size: 1.02, says: "one of them 2 % faster" },
      { size: 1.2, says: "20 % faster" },
      { size: 1.5, says: "50 % faster" },
    ],
    // The soil holds 0.05 of the load more per e-fold of speed.
    inject: (day, size) => {
      for (const run of ["T1", "T2", "T3"]) {
        remakeRun(day, run, { speedMps: travelSpeed * size });
        morePull(day, run, 0.05 * Math.log(size));
      }
      editSheet(day, "runs.csv", (row) => void (/^T\d$/.test(row["run"] ?? "") && (row["speed [mm/s]"] = String(1000 * travelSpeed * size).replace(".", ","))));
    },
  },
  {
    number: 49,
    title: "One wheel ran early, the other late, while the bed changed",
    severity: "A",
    caughtBy: ["wheels-confounded", "order-trend"],
    plan: "blocks",
    headline: difference,
    strengths: [
      { size: 0.001, says: "late runs pull 0.1 % of the load more" },
      { size: 0.01, says: "1 % more" },
      { size: 0.03, says: "3 % more" },
    ],
    inject: (day, size) => {
      for (const run of ["T1", "T2", "T3"]) morePull(day, run, size);
      const [heading = "", ...rows] = textOf(day, "runs.csv").trimEnd().split("\r\n");
      const late = (row: string): boolean => /^T\d;/.test(row);
      day.files.set("runs.csv", `${[heading, ...rows.filter((row) => !late(row)), ...rows.filter(late)].join("\r\n")}\r\n`);
      editSheet(day, "runs.csv", (row) => void (/^[CT]\d$/.test(row["run"] ?? "") && (row["block"] = row["run"]?.startsWith("T") === true ? "B" : "A")));
    },
  },
  {
    number: 50,
    title: "A wheel wears or settles during the campaign",
    severity: "A",
    caughtBy: ["stiffness-changed"],
    plan: "rolling",
    headline: { run: "T2", measure: "sinkageRunning" },
    strengths: [
      { size: 0.02, says: "2 % softer at the end of the day" },
      { size: 0.1, says: "10 % softer" },
      { size: 0.5, says: "50 % softer" },
    ],
    inject: pressedAgain,
  },
  {
    number: 53,
    title: "A number is wanted beyond what was measured",
    severity: "A",
    caughtBy: ["drag-unknown", "radius-unknown"],
    plan: "rolling",
    headline: { run: "T2", measure: "grossTractionRatio" },
    strengths: [
      { size: 1, says: "free spin at one slow speed only" },
      { size: 2, says: "hard floor at 40 N only, a flexible wheel run at 70 N" },
      { size: 3, says: "neither free spin nor hard floor" },
    ],
    inject: (day, size) => {
      const gone = [["F2-W3"], ["H70-W3"], ["F1-W3", "F2-W3", "H40-W3", "H70-W3"]][size - 1] as readonly string[];
      editSheet(day, "runs.csv", (row) => (gone.includes(row["run"] ?? "") ? false : undefined));
      for (const run of gone) for (const end of ["frame.txt", "drive.csv"]) day.files.delete(`logs/${run}_${end}`);
    },
  },
];
