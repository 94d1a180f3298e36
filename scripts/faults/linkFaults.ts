import { editSheet, textOf } from "./edits.ts";
import type { Fault } from "./fault.ts";
import type { MiniDay } from "./miniDay.ts";

function exchange(day: MiniDay, a: string, b: string): void {
  const [first, second] = [day.files.get(a), day.files.get(b)];
  if (first === undefined || second === undefined) throw new Error(`the day has no ${a} or ${b}`);
  day.files.set(a, second);
  day.files.set(b, first);
}

function copy(day: MiniDay, from: string, to: string): void {
  const content = day.files.get(from);
  if (content === undefined) throw new Error(`the day has no ${from}`);
  day.files.set(to, content);
}

/** Files, names and rows that do not belong together. */
export const linkFaults: readonly Fault[] = [
  {
    number: 37,
    title: "A run carries another wheel's name",
    severity: "A",
    caughtBy: ["wheel-mass-differs", "wheel-weight"],
    plan: "rolling",
    headline: { run: "T2", measure: "sinkageRunning" },
    strengths: [
      { size: 1, says: "W4 in one traction run: 0.15 kg heavier, no references of its own" },
      { size: 2, says: "W5 in one traction run: 0.28 kg heavier" },
      { size: 3, says: "W1 in one traction run: 0.34 kg heavier and rigid" },
    ],
    // The sheet says W3 everywhere; the files of T2 are those of the other wheel, hanging heavier on the sensor.
    inject: (day, size) => editSheet(day, "runs.csv", (row) => void (row["run"] === "T2" && (row["wheel"] = ["W4", "W5", "W1"][size - 1] as string))),
  },
  {
    number: 37,
    title: "Two runs' drive logs are exchanged",
    severity: "A",
    caughtBy: ["slip-off", "encoder-ratio", "clock-rate", "clocks-apart", "run-label-differs", "clock-lag"],
    plan: "rolling",
    headline: { run: "T2", measure: "slip" },
    strengths: [
      { size: 1, says: "of 20 and 10 % slip" },
      { size: 3, says: "of 20 and 40 % slip" },
      { size: 4, says: "of 20 % slip and a braked run" },
    ],
    inject: (day, size) => exchange(day, "logs/T2_drive.csv", `logs/T${size}_drive.csv`),
  },
  {
    number: 38,
    title: "One run's file overwritten by another's",
    severity: "A",
    caughtBy: ["same-bytes", "same-numbers", "run-label-differs"],
    plan: "rolling",
    headline: { run: "T2", measure: "pullCoefficient" },
    strengths: [
      { size: 1, says: "one of its two logs is a copy" },
      { size: 2, says: "both are copies" },
      { size: 3, says: "both were copied, opened, given the right name and saved again" },
    ],
    inject: (day, size) => {
      copy(day, "logs/T3_frame.txt", "logs/T2_frame.txt");
      if (size > 1) copy(day, "logs/T3_drive.csv", "logs/T2_drive.csv");
      if (size < 3) return;
      const content = day.files.get("logs/T2_frame.txt") as Uint8Array;
      day.files.set("logs/T2_frame.txt", Buffer.from(Buffer.from(content).toString("latin1").replace("Run\tT3", "Run\tT2"), "latin1"));
      day.files.set("logs/T2_drive.csv", textOf(day, "logs/T2_drive.csv").replaceAll("\r\n", "\n"));
    },
  },
];
