import { decoupling } from "../demo/rigTruth.ts";
import type { Fault } from "./fault.ts";
import { editForces, editFrame, replaceText, rollingRuns, runsOf } from "./edits.ts";
import type { MiniDay } from "./miniDay.ts";

const pull = { run: "T2", measure: "pullCoefficient" } as const;
const matrixOf = (rows: readonly (readonly number[])[]): string => rows.map((row) => `    - [${row.join(", ")}]`).join("\n");
const own = matrixOf(decoupling);

function withMatrix(day: MiniDay, cell: (row: number, column: number) => number): void {
  replaceText(day, "rig.yaml", own, matrixOf(decoupling.map((row, i) => row.map((_, j) => cell(i, j)))));
}

const of = (row: number, column: number): number => decoupling[row]?.[column] ?? Number.NaN;

/** Force sensor: cross-talk, signs, units, friction. */
export const sensorFaults: readonly Fault[] = [
  {
    number: 12,
    title: "Cross-talk matrix left out or transposed",
    severity: "A",
    caughtBy: ["cross-talk", "side-force"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0.3, says: "cross terms 30 % too small: an old certificate" },
      { size: 1, says: "no cross terms at all" },
      { size: 2, says: "rows and columns exchanged" },
    ],
    inject: (day, size) => withMatrix(day, (i, j) => (i === j ? of(i, j) : size === 2 ? (i < 3 === j < 3 ? of(j, i) : of(i, j)) : (1 - size) * of(i, j))),
  },
  {
    number: 14,
    title: "A sign is wrong: pull counted backwards, or torque",
    severity: "A",
    caughtBy: ["power-from-nothing", "torque-sign", "pull-sign", "torque-against-pull", "energy-excess", "load-off"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0, says: "torque reversed" },
      { size: 1, says: "pull reversed" },
      { size: 2, says: "load reversed" },
    ],
    inject: (day, size) => {
      const [from, to] = [["momentY, sign: 1", "momentY, sign: -1"], ["forceX, sign: -1", "forceX, sign: 1"], ["forceZ, sign: 1", "forceZ, sign: -1"]][size] as [string, string];
      replaceText(day, "rig.yaml", from, to);
    },
  },
  {
    number: 15,
    title: "A unit is wrong: pound-force, kilogram-force",
    severity: "A",
    caughtBy: ["load-off", "torque-against-pull", "torque-implausible", "energy-excess"],
    plan: "rolling",
    headline: { run: "T2", measure: "drawbarPull" },
    strengths: [
      { size: 0, says: "pull in pound-force taken for newton" },
      { size: 1, says: "all forces in pound-force taken for newton" },
      { size: 2, says: "all forces in kilogram-force taken for newton" },
    ],
    inject: (day, size) => withMatrix(day, (i, j) => of(i, j) / (size === 0 ? (i === 0 ? 4.448222 : 1) : i > 2 ? 1 : size === 1 ? 4.448222 : 9.80665)),
  },
  {
    number: 15,
    title: "A unit is wrong: inch, centimetre",
    severity: "A",
    caughtBy: ["deflection-differs", "sinkage-negative", "sinkage-implausible"],
    plan: "rolling",
    headline: { run: "T2", measure: "sinkageRunning" },
    strengths: [
      { size: 2.54, says: "hub height in centimetres taken for inches" },
      { size: 0.1, says: "hub height in centimetres taken for millimetres" },
      { size: 25.4, says: "hub height in millimetres taken for inches" },
    ],
    inject: (day, size) => {
      replaceText(day, "rig.yaml", "gain: 30.02", `gain: ${30.02 * size}`);
      replaceText(day, "rig.yaml", "range: [0, 300]", "range: [0, 9000]");
    },
  },
  {
    number: 16,
    title: "Carriage friction inside the pull reading",
    severity: "A",
    caughtBy: ["floor-offset"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0.2, says: "0.2 N of carriage friction" },
      { size: 1, says: "1 N" },
      { size: 4, says: "4 N" },
    ],
    inject: (day, size) => {
      for (const run of rollingRuns(day)) editForces(day, run, (forces, timeS, { touchS, startS, endS }) => void (touchS !== undefined && timeS > startS && timeS < endS && (forces.forceX += size)));
    },
  },
  {
    number: 18,
    title: "Off-loading pulley's friction or slanting rope: the load falls as the wheel sinks",
    severity: "A",
    caughtBy: ["load-shifts", "load-off"],
    plan: "rolling",
    headline: { run: "T2", measure: "verticalLoad" },
    strengths: [
      { size: 0.05, says: "the load falls by 0.05 N per millimetre" },
      { size: 0.5, says: "0.5 N per millimetre" },
      { size: 2, says: "2 N per millimetre" },
    ],
    inject: (day, size) => {
      for (const run of runsOf(day, "traction")) {
        const truth = day.truth.get(run) as Record<string, number>;
        const further = 1000 * ((truth["sinkageM"] as number) - (truth["standingSinkageM"] as number));
        editForces(day, run, (forces, timeS, { startS, liftFromS = 0 }) => void (timeS < liftFromS && timeS > startS && (forces.forceZ -= size * further * (1 - Math.exp(-(timeS - startS) / 0.2)))));
      }
    },
  },
  {
    number: 19,
    title: "The arm's torque reaction lifts the wheel or presses it down",
    severity: "A",
    caughtBy: ["load-shifts", "load-off"],
    plan: "rolling",
    headline: { run: "T2", measure: "verticalLoad" },
    strengths: [
      { size: 0.1, says: "0.1 N per newton metre" },
      { size: 1, says: "1 N per newton metre" },
      { size: 5, says: "5 N per newton metre" },
    ],
    inject: (day, size) => {
      for (const run of runsOf(day, "traction")) editForces(day, run, (forces) => void (forces.forceZ -= size * forces.momentY));
    },
  },
  {
    number: 22,
    title: "Side walls or floor of the bin too near",
    severity: "A",
    caughtBy: ["bed-too-small"],
    plan: "rolling",
    headline: { run: "T2", measure: "sinkageRunning" },
    strengths: [
      { size: 0.05, says: "soil 200 mm deep, walls 85 mm away: 5 % less sinkage" },
      { size: 0.15, says: "soil 150 mm deep, walls 50 mm away: 15 % less sinkage" },
      { size: 0.4, says: "soil 80 mm deep, walls 20 mm away: 40 % less sinkage" },
    ],
    inject: (day, size) => {
      const truth = day.truth.get("T2") as Record<string, number>;
      editFrame(day, "T2", "Pot", (volts, timeS, { startS, liftFromS = 0 }) => (timeS > startS - 1 && timeS < liftFromS ? volts - (size * 1000 * (truth["sinkageM"] as number)) / 30.02 : volts));
      const [depth, clearance] = size < 0.1 ? [200, 85] : size < 0.2 ? [150, 50] : [80, 20];
      replaceText(day, "beds.csv", /^(.*)\r\n(.*)\r\n/, (_, head, row) => `${head};soil depth [mm];side clearance [mm]\r\n${row};${depth};${clearance}\r\n`);
    },
  },
];
