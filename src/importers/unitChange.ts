import type { Issue } from "../core/errors.ts";
import { parseUnit } from "../core/units.ts";
import type { Reading } from "./dialect.ts";
import { bareUnit, heading, headingsOf, isUnitRow } from "./headings.ts";
import { splitLines } from "./lines.ts";
import { shown } from "./shown.ts";

/**
 * Looks at a line among the rows that is no row: headings or units again, as a logger writes them when it restarts,
 * but with another unit for a column that is used. "harmless" = again the head, and no used unit differs; null = neither.
 */
export function unitChange(reading: Reading, used: readonly number[], fileName: string): (text: string, line: number) => Issue | "harmless" | null {
  return (text, line) => {
    const cells = splitLines([text], reading.delimiter)[0] ?? [];
    const again = headingsOf(cells);
    const sameNames = again.length === reading.headings.length && again.every((one, index) => one.name === reading.headings[index]?.name);
    if (!sameNames && !(reading.unitLine !== null && isUnitRow(cells, reading.headings))) return null;
    for (const column of used) {
      const was = sameNames ? heading(reading.headings[column]?.written ?? "").unit : (reading.headings[column]?.unit ?? null);
      const now = sameNames ? (again[column]?.unit ?? null) : bareUnit(cells[column] ?? "") || null;
      if (was === now || (was !== null && now !== null && parseUnit(was) !== undefined && parseUnit(was) === parseUnit(now))) continue;
      const stated = reading.unitLine ?? reading.headerLine;
      return { code: "unit-changed", at: `${fileName} line ${line}, column "${reading.headings[column]?.name ?? ""}"`, message: `expected ${was === null ? "no unit" : `the unit ${shown(was)}`}, as line ${stated} has it, found ${now === null ? "none" : shown(now)} from here on`, hint: "Cut the log where the unit changes, and keep the part that belongs to the run" };
    }
    return "harmless";
  };
}
