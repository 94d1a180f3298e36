import type { Cell, WorkbookRow } from "./sheetXml.ts";
import type { WorkbookSheet } from "./workbook.ts";

/** A cell as a person reads it; numbers with a decimal point. */
export function cellText(cell: Cell | undefined): string {
  if (cell === undefined) return "";
  switch (cell.kind) {
    case "number":
      return String(cell.value);
    case "percent":
      return `${percentOf(cell.value)}%`;
    case "date": {
      const iso = new Date(cell.ms).toISOString().slice(0, -1);
      return iso.endsWith("T00:00:00.000") ? iso.slice(0, 10) : iso.replace(/\.000$/, "");
    }
    case "time":
      return String(cell.days);
    case "truth":
      return cell.value ? "TRUE" : "FALSE";
    case "formula without result":
      return "a formula without its result";
    default:
      return cell.text.trim();
  }
}

/** 0.07 → 7, without the digits that binary fractions add. */
export function percentOf(value: number): number {
  return Number((value * 100).toPrecision(15));
}

/** `row 5`, `rows 5 to 9 and 12`. */
export function rowNumbers(rows: readonly WorkbookRow[]): string {
  const runs: [number, number][] = [];
  for (const { number } of rows) {
    const last = runs.at(-1);
    if (last !== undefined && last[1] === number - 1) last[1] = number;
    else runs.push([number, number]);
  }
  const named = runs.slice(0, 5).map(([from, to]) => (from === to ? `${from}` : `${from} to ${to}`));
  if (runs.length > 5) named.push("…");
  return `${rows.length === 1 ? "row" : "rows"} ${named.join(", ")}`;
}

/** What a sheet hides or merges, in words; empty = nothing. */
export function oddities(sheet: WorkbookSheet): string[] {
  const hidden = sheet.rows.filter((row) => row.hidden);
  const filled = new Set<number>();
  if (sheet.hiddenColumns.length > 0) for (const row of sheet.rows) row.cells.forEach((_, column) => filled.add(column));
  const columns = sheet.hiddenColumns.filter((column) => filled.has(column)).map(columnName);
  return [
    ...(sheet.hidden ? [`the sheet "${sheet.name}" is hidden`] : []),
    ...(hidden.length > 0 ? [`${rowNumbers(hidden)} of the sheet "${sheet.name}" ${hidden.length === 1 ? "is" : "are"} hidden`] : []),
    ...(columns.length > 0 ? [`column${columns.length === 1 ? "" : "s"} ${columns.slice(0, 5).join(", ")} of the sheet "${sheet.name}" ${columns.length === 1 ? "is" : "are"} hidden`] : []),
  ];
}

function columnName(column: number): string {
  return column < 26 ? String.fromCharCode(65 + column) : columnName(Math.floor(column / 26) - 1) + String.fromCharCode(65 + (column % 26));
}
