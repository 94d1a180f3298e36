import type { Fault } from "./fault.ts";
import { editSheet, replaceText } from "./edits.ts";
import { editLog } from "./logTable.ts";
import type { MiniDay } from "./miniDay.ts";

/** Changes a column of the first trial's log; time from its start, and when the wheel first turned. */
function editLane(day: MiniDay, name: string, change: (value: number, timeS: number, startS: number) => number): void {
  editLog(day, "logs/O1_lane.csv", (table, column) => {
    const [time, angle, at] = [column("Time"), column("Angle"), column(name)];
    const startS = table.rows.find((row) => (row[angle] as number) > 1)?.[time] as number;
    table.rows.forEach((row) => (row[at] = change(row[at] as number, row[time] as number, startS)));
  });
}

/** Changes the cells of the pad, in kPa; the greatest of them is handed in. */
function editPad(day: MiniDay, change: (kPa: number, greatest: number) => number): void {
  const path = "logs/G1_pad.csv";
  const rows = Buffer.from(day.files.get(path) as Uint8Array).toString().trimEnd().split("\r\n").map((line) => line.split(";").map((cell) => Number(cell.replace(",", "."))));
  const greatest = Math.max(...rows.flat());
  day.files.set(path, `${rows.map((row) => row.map((kPa) => change(kPa, greatest).toFixed(2).replace(".", ",")).join(";")).join("\r\n")}\r\n`);
}

const peak = { run: "O1", measure: "peakTorque" } as const;
const asked = { run: "O1", measure: "staticTorque" } as const;

/** What goes wrong at a step and on a pressure pad. */
export const stepFaults: readonly Fault[] = [
  {
    number: 9,
    title: "Zero of the torque drifts while a wheel is driven over a step",
    severity: "A",
    caughtBy: ["zero-drift"],
    plan: "steps",
    headline: peak,
    strengths: [
      { size: 0.02, says: "by 0.02 N·m, all of it in the first second of motion" },
      { size: 0.2, says: "by 0.2 N·m" },
      { size: 1, says: "by 1 N·m" },
    ],
    inject: (day, size) => editLane(day, "Torque", (torque, timeS, startS) => torque + size * Math.min(1, Math.max(0, timeS - startS))),
  },
  {
    number: 10,
    title: "Zero of a step trial taken with the wheel on the floor",
    severity: "A",
    caughtBy: ["zero-touching", "wheel-weight", "zero-drift"],
    plan: "steps",
    headline: asked,
    strengths: [
      { size: 0.05, says: "a twentieth of the load rests on the floor during both zeros" },
      { size: 0.2, says: "a fifth of the load" },
      { size: 0.6, says: "most of the load" },
    ],
    // the hub goes no higher than where the floor still bears that share
    inject: (day, size) => {
      editLog(day, "logs/O1_lane.csv", (table, column) => {
        const [load, hub] = [column("Load"), column("Hub")];
        const values = table.rows.map((row) => row[load] as number);
        const hanging = Math.min(...values);
        const bears = hanging + size * (Math.max(...values) - hanging);
        const held = table.rows.find((row) => (row[load] as number) > bears)?.[hub] as number;
        const half = table.rows.length / 2;
        const lifted = (row: (typeof table.rows)[number], i: number): boolean => (row[load] as number) < bears && (i < half || i > half);
        table.rows.forEach((row, i) => {
          if (!lifted(row, i)) return;
          row[load] = bears + 0.2 * Math.sin(7 * i);
          row[hub] = held;
        });
      });
    },
  },
  {
    number: 37,
    title: "A trial stands on the sheet beside another step's height",
    severity: "A",
    caughtBy: ["obstacle-height", "climb-outcome-differs"],
    plan: "steps",
    headline: asked,
    strengths: [
      { size: 8.5, says: "half a millimetre higher than the step that was there" },
      { size: 10.5, says: "2.5 mm higher" },
      { size: 20, says: "12 mm higher" },
    ],
    inject: (day, size) => editSheet(day, "runs.csv", (row) => void (row.run === "O1" && (row["obstacle height [mm]"] = String(size).replace(".", ",")))),
  },
  {
    number: 39,
    title: "Torque at a step beyond the amplifier's range",
    severity: "A",
    caughtBy: ["flat-top"],
    plan: "steps",
    headline: peak,
    strengths: [
      { size: 0.99, says: "cut off at 99 % of its greatest value" },
      { size: 0.9, says: "at 90 %" },
      { size: 0.5, says: "at half" },
    ],
    inject: (day, size) => {
      let greatest = -Infinity;
      editLane(day, "Torque", (torque) => ((greatest = Math.max(greatest, torque)), torque));
      editLane(day, "Torque", (torque) => Math.min(torque, size * greatest));
    },
  },
  {
    number: 15,
    title: "A pressure pad's unit is wrong",
    severity: "A",
    caughtBy: ["footprint-load"],
    plan: "steps",
    headline: { run: "G1", measure: "peakPressure" },
    strengths: [
      { size: 0, says: "pad in kPa described as psi" },
      { size: 1, says: "pad in kPa described as N/cm²" },
      { size: 2, says: "pad in kPa described as bar" },
    ],
    inject: (day, size) => replaceText(day, "rig.yaml", 'decimal: ",", unit: kPa', `decimal: ",", unit: ${["psi", "N/cm2", "bar"][size]}`),
  },
  {
    number: 39,
    title: "A pressure pad beyond its range",
    severity: "A",
    caughtBy: ["pad-cut-off", "footprint-load"],
    plan: "steps",
    headline: { run: "G1", measure: "peakPressure" },
    strengths: [
      { size: 0.99, says: "cells end at 99 % of the greatest pressure" },
      { size: 0.9, says: "at 90 %" },
      { size: 0.7, says: "at 70 %" },
    ],
    inject: (day, size) => editPad(day, (kPa, greatest) => Math.min(kPa, size * greatest)),
  },
];
