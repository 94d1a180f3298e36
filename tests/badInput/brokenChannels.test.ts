import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { reduceDay } from "../../src/day.ts";
import { removeDays, writeDay } from "../helpers/tinyDay.ts";
import type { DayFiles } from "../helpers/tinyDay.ts";

afterAll(removeDays);

const source = "fixtures/excerpt-day";

/** Ways in which a channel fails: the cell's value, its row and the number of rows → what stands there instead; NaN = an empty cell. */
const failures: Readonly<Record<string, (value: number, row: number, rows: number) => number>> = {
  "dead from the start": () => Number.NaN,
  "stuck at one value": () => 7,
  "a billion times too large": (value) => value * 1e9,
  "dead from the middle on": (value, row, rows) => (row > rows / 2 ? Number.NaN : value),
  "noise alone": (_, row) => (row * 7919) % 1000,
};

interface Log {
  readonly lines: readonly string[];
  readonly firstRow: number;
  readonly delimiter: string;
  readonly decimal: string;
  readonly columns: number;
}

function readLines(text: string): Log {
  const lines = text.trimEnd().split("\n");
  const delimiter = ["\t", ";", ","].find((mark) => (lines.at(-1) ?? "").includes(mark)) ?? ",";
  const firstRow = lines.findIndex((line) => /^\d/.test(line) && line.split(delimiter).length > 2);
  return { lines, firstRow, delimiter, decimal: delimiter === "," ? "." : ",", columns: (lines[firstRow] ?? "").split(delimiter).length };
}

function broken(log: Log, column: number, failure: (value: number, row: number, rows: number) => number): string {
  return `${log.lines
    .map((line, index) => {
      if (index < log.firstRow) return line;
      const cells = line.split(log.delimiter);
      const value = failure(Number((cells[column] ?? "").replace(log.decimal, ".")), index - log.firstRow, log.lines.length - log.firstRow);
      cells[column] = Number.isNaN(value) ? "" : String(value).replace(".", log.decimal);
      return cells.join(log.delimiter);
    })
    .join("\n")}\n`;
}

describe("a broken channel of any logger never stops the day", () => {
  const names = readdirSync(join(source, "logs"));
  const files: DayFiles = Object.fromEntries(["rig.yaml", "runs.csv", "wheels.csv", "beds.csv", "cones.csv", ...names.map((name) => `logs/${name}`)].map((path) => [path, readFileSync(join(source, path))]));
  const sheet = readFileSync(join(source, "runs.csv"), "utf8").split("\n");

  test.each(["R001_press.csv", "R002_drive.csv", "R002_frame.txt", "R003_drive.csv", "R005_press.csv", "R007_shear.csv", "R009_drive.csv", "R009_frame.txt", "R011_drop.csv"])("%s, column by column", async (name) => {
    const id = name.slice(0, 4);
    const log = readLines(readFileSync(join(source, "logs", name), "latin1"));
    expect(log.columns).toBeGreaterThan(2);
    const folder = writeDay({ ...files, "runs.csv": sheet.filter((line, index) => index === 0 || line.startsWith(id)).join("\n") });
    for (let column = 1; column < log.columns; column++) {
      for (const [what, failure] of Object.entries(failures)) {
        writeFileSync(join(folder, "logs", name), broken(log, column, failure), "latin1");
        const [run] = (await reduceDay(folder)).runs;
        expect(run?.plan.id, `${name} column ${column} ${what}`).toBe(id);
        expect(["go", "look", "repeat", "unread"], `${name} column ${column} ${what}`).toContain(run?.verdict);
      }
    }
  });
});
