import { closeSync, openSync, writeSync } from "node:fs";
import { dice } from "../demo/dice.ts";

export interface MadeLog {
  readonly path: string;
  readonly title: string;
  /** wanted columns, beside the time in `t` */
  readonly columns: readonly string[];
}

/** Two large logs of an invented logger: nine columns at 1 kHz, and two at 25.6 kHz. */
export function makeLogs(folder: string, bytes: number): MadeLog[] {
  const chance = dice(20261126, "reader logs");
  const fixed = (value: number, decimals: number): string => value.toFixed(decimals);
  const about = (middle: number, width: number): number => middle + width * (chance.uniform() - 0.5);
  const nine = (i: number): string => [fixed(i / 1000, 3), fixed(about(72, 4), 4), fixed(about(12, 6), 4), fixed(about(0, 1), 4), fixed(about(2, 1), 5), fixed(0.012 * i, 3), fixed(0.02 * i + about(0, 0.05), 3), fixed(about(-12, 1), 4), fixed(about(0.85, 0.1), 4)].join(",");
  const two = (i: number): string => `${fixed(i / 25_600, 7)},${fixed(about(0, 40), 6)}`;
  return [
    { path: write(`${folder}/nine.csv`, "t [s],Fz [N],Fx [N],Fy [N],My [N.m],Angle [deg],X [mm],Z [mm],I [A]", nine, bytes), title: "9 columns", columns: ["Fz", "Fx", "Fy", "My", "Angle", "X", "Z", "I"] },
    { path: write(`${folder}/two.csv`, "t [s],a [m/s2]", two, bytes), title: "2 columns, 25.6 kHz", columns: ["a"] },
  ];
}

function write(path: string, head: string, row: (i: number) => string, bytes: number): string {
  const fd = openSync(path, "w");
  let written = writeSync(fd, `${head}\n`);
  for (let i = 0; written < bytes; ) {
    const rows: string[] = [];
    for (const last = i + 20_000; i < last; i++) rows.push(row(i));
    written += writeSync(fd, `${rows.join("\n")}\n`);
  }
  closeSync(fd);
  return path;
}
