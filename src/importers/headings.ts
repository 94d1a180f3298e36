import { parseUnit } from "../core/units.ts";

/** One cell of the heading line. */
export interface Heading {
  /** without the bracketed unit */
  readonly name: string;
  readonly unit: string | null;
  /** the whole cell */
  readonly written: string;
}

/** What is longer is no heading, and looking for brackets in it takes the square of its length. */
const longestName = 1000;

/** `Fx [N]` → Fx, N. Round brackets count only around a unit drawbar knows: `load (raw)` stays a name. */
export function heading(cell: string): Heading {
  const written = cell.trim();
  if (written.length > longestName) return { name: written, unit: null, written };
  // UCUM writes some units in brackets of their own: `Fx [[lbf_av]]`.
  const square = /^(.*\S)\s*\[((?:[^[\]]|\[[^[\]]*\])*)\]$/.exec(written);
  if (square !== null) return { name: square[1] as string, unit: (square[2] as string).trim() || null, written };
  const round = /^(.*\S)\s*\(([^)]*)\)$/.exec(written);
  if (round !== null && parseUnit(round[2] as string) !== undefined) return { name: round[1] as string, unit: (round[2] as string).trim(), written };
  return { name: written, unit: null, written };
}

/** Headings of a line; a leading comment sign belongs to the line, not to its first heading. */
export function headingsOf(cells: readonly string[]): Heading[] {
  return cells.map((cell, index) => heading(index === 0 ? cell.replace(/^[#%]\s*/, "") : cell));
}

/** Columns that a wanted name means: by the whole cell first, else by the name without its unit. */
export function columnsNamed(headings: readonly Heading[], wanted: string): number[] {
  const by = (key: "written" | "name"): number[] => headings.flatMap((candidate, index) => (candidate[key] === wanted.trim() ? [index] : []));
  const whole = by("written");
  return whole.length === 1 ? whole : by("name");
}

/** A line of units below the headings: no numbers, and at least half of its cells are units drawbar knows. */
export function isUnitRow(cells: readonly string[], headings: readonly Heading[]): boolean {
  if (cells.length !== headings.length && cells.filter((cell) => cell !== "").length !== headings.filter((one) => one.written !== "").length) return false;
  const filled = cells.map(bareUnit).filter((cell) => cell !== "");
  const telling = filled.filter((cell) => cell !== "1" && cell !== "-" && cell !== "–");
  if (telling.some((cell) => /^[+-]?[.,]*\d[\d.,]*$/.test(cell))) return false;
  const known = filled.filter((cell) => parseUnit(cell) !== undefined);
  return telling.some((cell) => parseUnit(cell) !== undefined) && known.length * 2 >= filled.length;
}

export function bareUnit(cell: string): string {
  return cell.trim().replace(/^[[(](.*)[\])]$/, "$1").trim();
}
