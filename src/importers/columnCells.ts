import type { Issue } from "../core/errors.ts";
import type { ChosenColumn } from "./chooseColumns.ts";
import type { ColumnValues } from "./columnLog.ts";
import { plainNumber } from "./oddCell.ts";
import type { Marks } from "./oddCell.ts";
import { shown } from "./shown.ts";

const mostIssues = 20;

/** Faults of single cells: the first twenty in full, the rest counted. */
export class CellIssues {
  readonly shown: Issue[] = [];
  count = 0;
  add(issue: Issue): void {
    if (++this.count <= mostIssues) this.shown.push(issue);
  }
}

/** Numbers of one column, and the rows whose cells carried an overload mark. */
export interface NumberColumn {
  readonly samples: Float64Array;
  readonly overloaded: readonly number[];
}

/** Numbers as they stand in the file; marks become missing, anything else that is no finite number is a fault. */
export function numberColumn(chosen: ChosenColumn, values: ColumnValues, marks: Marks, fileName: string, issues: CellIssues): NumberColumn {
  const { name, column, part } = chosen;
  const place = (row: number): string => `${fileName} ${part.rowName(row)}, column "${name}"`;
  const overloaded: number[] = [];
  if (values.kind === "stamps") {
    issues.add({ code: "stamp-as-number", at: `${fileName}, column "${name}"`, message: `expected numbers, found a ${column.type}`, hint: "Remove the channel that reads this column, or let the clock read it with kind: stamp, in rig.yaml" });
    return { samples: new Float64Array(values.ns.length), overloaded };
  }
  if (values.kind === "daytimes" && values.unit === "ns") {
    issues.add({ code: "stamp-as-number", at: `${fileName}, column "${name}"`, message: `expected numbers, found a ${column.type}`, hint: "Remove the channel that reads this column, or let the clock read it with kind: stamp and the date from dateColumn, dateLabel or startDate, in rig.yaml" });
    return { samples: values.values, overloaded };
  }
  const samples = values.kind === "numbers" || values.kind === "daytimes" ? values.values : new Float64Array(values.cells.length);
  const infinite = { overload: marksInfinity(marks.overload), missing: marksInfinity(marks.missing) };
  for (let row = 0; row < samples.length; row++) {
    const cell = values.kind !== "cells" ? (samples[row] as number) : (values.cells[row] ?? null);
    if (cell === null) samples[row] = Number.NaN;
    else if (typeof cell === "number") {
      samples[row] = cell;
      if (Number.isNaN(cell)) continue;
      const kind = Number.isFinite(cell) ? (marks.hasNumbers ? marks.numberKind(cell) : "number") : infinite.overload(cell) ? "overload" : infinite.missing(cell) ? "missing" : "text";
      if (kind === "number") continue;
      if (kind === "overload") overloaded.push(row);
      if (kind === "text") issues.add({ code: "infinite-number", at: place(row), message: `expected a finite number, found ${cell}`, hint: "Declare Inf or -Inf as a missing or overload mark in rig.yaml, or repair the log" });
      samples[row] = Number.NaN;
    } else {
      const text = cell.trim();
      const value = plainNumber(text, ".");
      const kind = marks.overload.has(text) ? "overload" : text === "" || /^nan$/i.test(text) || marks.missing.has(text) ? "missing" : value === null ? "text" : marks.numberKind(value);
      samples[row] = kind === "number" ? (value as number) : Number.NaN;
      if (kind === "overload") overloaded.push(row);
      else if (kind === "text") issues.add({ code: "text-in-number", at: place(row), message: `expected a number, found ${shown(cell)}`, hint: "Declare it as a missing or overload mark in rig.yaml, or repair the log" });
    }
  }
  return { samples, overloaded };
}

function marksInfinity(marks: ReadonlySet<string>): (value: number) => boolean {
  const plus = [...marks].some((mark) => /^\+?inf(inity)?$/i.test(mark));
  const minus = [...marks].some((mark) => /^-inf(inity)?$/i.test(mark));
  return (value) => (value > 0 ? plus : minus);
}
