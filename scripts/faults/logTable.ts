import type { MiniDay } from "./miniDay.ts";

/** A log of a made day as columns; text columns (time stamps) stay text. */
export interface LogTable {
  /** lines before the first row, as they stand */
  head: string;
  readonly names: string[];
  rows: (string | number)[][];
  /** decimals each column is written with; more may be asked for */
  readonly decimals: number[];
}

interface Layout {
  readonly encoding: "latin1" | "utf-8";
  readonly delimiter: string;
  readonly decimal: "," | ".";
  readonly lineEnd: string;
  /** line of the headings and of the first row, counted from 0 */
  readonly header: number;
  readonly first: number;
}

/** The made loggers' layouts by the ends of their files' names. */
const layouts: Readonly<Record<string, Layout>> = {
  "frame.txt": { encoding: "latin1", delimiter: "\t", decimal: ",", lineEnd: "\n", header: 6, first: 8 },
  "drive.csv": { encoding: "utf-8", delimiter: ",", decimal: ".", lineEnd: "\r\n", header: 0, first: 1 },
  "press.csv": { encoding: "utf-8", delimiter: ";", decimal: ",", lineEnd: "\r\n", header: 2, first: 4 },
  "shear.csv": { encoding: "utf-8", delimiter: ";", decimal: ",", lineEnd: "\r\n", header: 2, first: 4 },
  "lane.csv": { encoding: "utf-8", delimiter: ";", decimal: ",", lineEnd: "\r\n", header: 2, first: 4 },
  "drop.csv": { encoding: "utf-8", delimiter: ",", decimal: ".", lineEnd: "\n", header: 2, first: 3 },
};

function layoutOf(path: string): Layout {
  const layout = layouts[path.slice(path.lastIndexOf("_") + 1)];
  if (layout === undefined) throw new Error(`${path} is no log of a made day`);
  return layout;
}

/** Changes one log of the day: rows hold numbers by column, in the file's units. Write with more decimals through `decimals`. */
export function editLog(day: MiniDay, path: string, change: (table: LogTable, column: (name: string) => number) => void): void {
  const layout = layoutOf(path);
  const content = day.files.get(path);
  if (content === undefined) throw new Error(`the day has no ${path}`);
  const text = typeof content === "string" ? content : Buffer.from(content).toString(layout.encoding);
  const lines = text.split(layout.lineEnd);
  if (lines.at(-1) === "") lines.pop();
  const names = (lines[layout.header] as string).split(layout.delimiter).map((name) => name.replace(/ \[.*\]$/, ""));
  const cellsOf = (line: string): string[] => line.split(layout.delimiter);
  const decimals = cellsOf(lines[layout.first] as string).map((cell) => (cell.includes(" ") ? 0 : (cell.split(layout.decimal)[1]?.length ?? 0)));
  // a decimal comma also stands in the stamps' milliseconds
  const toValue = (cell: string): string | number => (/^-?\d+([.,]\d+)?$/.test(cell) ? Number(layout.decimal === "," ? cell.replace(",", ".") : cell) : cell);
  const table: LogTable = { head: lines.slice(0, layout.first).join(layout.lineEnd), names, rows: lines.slice(layout.first).map((line) => cellsOf(line).map(toValue)), decimals };
  change(table, (name) => {
    const index = names.indexOf(name);
    if (index < 0) throw new Error(`${path} has no column ${name}, only ${names.join(", ")}`);
    return index;
  });
  const written = (cell: string | number, column: number): string => (typeof cell === "string" ? cell : layout.decimal === "," ? cell.toFixed(table.decimals[column]).replace(".", ",") : cell.toFixed(table.decimals[column]));
  const body = table.rows.map((row) => row.map(written).join(layout.delimiter)).join(layout.lineEnd);
  day.files.set(path, Buffer.from(`${table.head}${layout.lineEnd}${body}${layout.lineEnd}`, layout.encoding));
}
