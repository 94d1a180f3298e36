import { editLog } from "./logTable.ts";
import { phasesOf, textOf } from "./edits.ts";
import type { Fault } from "./fault.ts";
import { miniRates } from "./miniDay.ts";
import type { MiniDay } from "./miniDay.ts";

const frame = "logs/T2_frame.txt";
const drive = "logs/T2_drive.csv";
const pull = { run: "T2", measure: "pullCoefficient" } as const;
const middleS = (day: MiniDay): number => (phasesOf(day, "T2").startS + phasesOf(day, "T2").endS) / 2;

const two = (value: number): string => String(value).padStart(2, "0");

/** Writes T2's wall-clock stamps anew: milliseconds of the day at each row, as the faulty clock shows them. */
function restamp(day: MiniDay, showMs: (timeS: number) => number): void {
  editLog(day, frame, (table, column) => {
    const at = column("Time");
    table.rows.forEach((row, i) => {
      const ms = Math.round(showMs(i / miniRates.frameHz));
      const s = Math.floor(ms / 1000);
      row[at] = `06.10.2026 ${two(Math.floor(s / 3600))}:${two(Math.floor(s / 60) % 60)}:${two(s % 60)},${String(ms - 1000 * s).padStart(3, "0")}`;
    });
  });
}

/** What clocks and rows do to a day. */
export const clockFaults: readonly Fault[] = [
  {
    number: 33,
    title: "Angle and position lag behind their own logger's event line",
    severity: "A",
    caughtBy: ["clock-lag"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0.06, says: "by 0.06 s" },
      { size: 0.6, says: "by 0.6 s" },
      { size: 3, says: "by 3 s" },
    ],
    inject: (day, size) =>
      editLog(day, drive, (table, column) => {
        const rows = Math.round(size * miniRates.driveHz);
        for (const at of [column("Enc"), column("X")]) {
          const values = table.rows.map((row) => row[at] as number);
          table.rows.forEach((row, i) => (row[at] = values[Math.max(0, i - rows)] as number));
        }
      }),
  },
  {
    number: 33,
    title: "One of the two shared events is marked late in one logger",
    severity: "A",
    caughtBy: ["clock-rate", "clocks-apart"],
    plan: "rolling",
    headline: { run: "T2", measure: "carriageSpeed" },
    strengths: [
      { size: 0.02, says: "by 0.02 s" },
      { size: 0.1, says: "by 0.1 s" },
      { size: 0.4, says: "by 0.4 s" },
    ],
    inject: (day, size) =>
      editLog(day, drive, (table, column) => {
        const at = column("Trig");
        const rows = Math.round(size * miniRates.driveHz);
        const values = table.rows.map((row) => row[at] as number);
        table.rows.forEach((row, i) => void (i < table.rows.length / 2 && (row[at] = values[Math.max(0, i - rows)] as number)));
      }),
  },
  {
    number: 34,
    title: "Rows are missing",
    severity: "B",
    caughtBy: ["gap", "revolutions-refused", "few-revolutions"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0.03, says: "3 rows in the middle of the run" },
      { size: 0.5, says: "half a second" },
      { size: 5, says: "5 s" },
    ],
    inject: (day, size) => editLog(day, frame, (table) => void (table.rows = table.rows.filter((_, i) => Math.abs(i / miniRates.frameHz - middleS(day)) > size / 2))),
  },
  {
    number: 34,
    title: "Rows come twice, or out of order",
    severity: "B",
    caughtBy: ["time-repeated", "time-backwards"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 1, says: "one row twice" },
      { size: 2, says: "two neighbouring rows exchanged" },
      { size: 200, says: "two blocks of 100 rows exchanged" },
    ],
    inject: (day, size) =>
      editLog(day, frame, (table) => {
        const at = Math.round(middleS(day) * miniRates.frameHz);
        const rows = table.rows;
        table.rows = size === 1 ? [...rows.slice(0, at), ...rows.slice(at - 1)] : [...rows.slice(0, at), ...rows.slice(at + size / 2, at + size), ...rows.slice(at, at + size / 2), ...rows.slice(at + size)];
      }),
  },
  {
    number: 35,
    title: "The clock is set while it runs: summer time, twelve hours, midnight",
    severity: "B",
    caughtBy: ["time-backwards", "gap", "clock-rate", "clocks-apart", "no-motion"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0, says: "put forward by an hour in the middle of the run" },
      { size: 1, says: "12:59:59 is followed by 01:00:00" },
      { size: 2, says: "23:59:59 is followed by 00:00:00 of the same date" },
    ],
    inject: (day, size) => {
      const toMs = (timeS: number): number => 1000 * (timeS - middleS(day));
      const hourMs = 3_600_000;
      if (size === 0) restamp(day, (timeS) => 2 * hourMs + toMs(timeS) + (timeS > middleS(day) ? hourMs : 0));
      else if (size === 1) restamp(day, (timeS) => (toMs(timeS) < 0 ? 13 : 1) * hourMs + toMs(timeS));
      else restamp(day, (timeS) => (toMs(timeS) < 0 ? 24 * hourMs : 0) + toMs(timeS));
    },
  },
  {
    number: 36,
    title: "Decimal marks are swapped or lost on the way through a spreadsheet",
    severity: "A",
    caughtBy: ["speed-off", "encoder-ratio", "slip-off", "ambiguous-decimal", "travel-short"],
    plan: "rolling",
    headline: { run: "T2", measure: "carriageSpeed" },
    strengths: [
      { size: 1, says: "decimal commas between commas" },
      { size: 2, says: "commas taken out: 152.4 became 1524" },
      { size: 3, says: "point read as thousands in most rows: 152.4 became 1.524" },
    ],
    inject: (day, size) => {
      const [head = "", ...rows] = textOf(day, drive).split("\r\n");
      const spoil = (row: string): string => {
        if (row === "") return row;
        if (size === 1) return row.replaceAll(".", ",");
        const cells = row.split(",");
        cells[2] = size === 2 ? (cells[2] ?? "").replace(".", "") : (Number((cells[2] ?? "").replace(".", "")) / 1000).toFixed(3);
        return cells.join(",");
      };
      day.files.set(drive, [head, ...rows.map(spoil)].join("\r\n"));
    },
  },
];
