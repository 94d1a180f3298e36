import { dateMs } from "./numberFormats.ts";
import type { Shown } from "./numberFormats.ts";
import { readXml } from "./xml.ts";

/** What a cell holds. */
export type Cell =
  | { readonly kind: "number"; readonly value: number }
  /** shown as per cent: 0.2 stands as 20 % */
  | { readonly kind: "percent"; readonly value: number }
  /** milliseconds since 1970-01-01 as a clock on the wall shows them */
  | { readonly kind: "date"; readonly ms: number }
  /** a time of day or a duration, in days */
  | { readonly kind: "time"; readonly days: number }
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "truth"; readonly value: boolean }
  /** #DIV/0! and the like */
  | { readonly kind: "error"; readonly text: string }
  /** the program that wrote the workbook did not compute it */
  | { readonly kind: "formula without result" };

export interface WorkbookRow {
  /** counted from 1 */
  readonly number: number;
  readonly hidden: boolean;
  /** by column, counted from 0; undefined = empty */
  readonly cells: readonly (Cell | undefined)[];
}

/** Cells shown as one; half-open, columns and rows counted from 0 and from 1 like everywhere here. */
export interface Merge {
  readonly ref: string;
  readonly fromRow: number;
  readonly toRow: number;
  readonly fromColumn: number;
  readonly toColumn: number;
}

interface SheetCells {
  readonly rows: readonly WorkbookRow[];
  readonly merges: readonly Merge[];
  readonly hiddenColumns: readonly number[];
}

// ECMA-376: a sheet ends at XFD1048576.
const mostColumns = 16_384;
const mostRows = 1_048_576;
const mostCells = 20_000_000;
/** Merged over and over, a few kilobytes make millions. */
const mostMerges = 10_000;

export function readSheetXml(bytes: Uint8Array, strings: readonly string[], formats: readonly Shown[], from1904: boolean): SheetCells {
  const rows: { number: number; hidden: boolean; cells: (Cell | undefined)[] }[] = [];
  const merges: Merge[] = [];
  const hiddenColumns = new Set<number>();
  let row: (typeof rows)[number] | null = null;
  let column = -1;
  let type = "n";
  let style = 0;
  let text = "";
  let taking = false;
  let hasValue = false;
  let hasFormula = false;
  let phonetic = 0;
  let count = 0;
  readXml(bytes, {
    open(name, attributes) {
      if (name === "row") {
        const number = attributes["r"] === undefined ? (rows.at(-1)?.number ?? 0) + 1 : Number(attributes["r"]);
        if (!Number.isInteger(number) || number < 1 || number > mostRows || number <= (rows.at(-1)?.number ?? 0)) throw new Error(`row ${String(attributes["r"])} after row ${rows.at(-1)?.number ?? 0}`);
        rows.push((row = { number, hidden: truth(attributes["hidden"]), cells: [] }));
        column = -1;
      } else if (name === "c" && row !== null) {
        const ref = attributes["r"] === undefined ? null : position(attributes["r"]);
        column = ref === null ? column + 1 : ref.column;
        if (column >= mostColumns || (ref !== null && ref.row !== row.number)) throw new Error(`cell ${String(attributes["r"])} in row ${row.number}`);
        if (++count > mostCells) throw new Error(`more than ${mostCells} cells`);
        type = attributes["t"] ?? "n";
        style = Number(attributes["s"] ?? "0");
        text = "";
        hasValue = hasFormula = false;
      } else if (name === "f") hasFormula = true;
      else if (name === "v" || name === "t") {
        taking = phonetic === 0;
        hasValue = true;
      } else if (name === "rPh") phonetic++;
      else if (name === "mergeCell") {
        if (merges.push(mergeOf(attributes["ref"] ?? "")) > mostMerges) throw new Error(`more than ${mostMerges} merged ranges`);
      }
      else if (name === "col" && truth(attributes["hidden"])) for (let at = Number(attributes["min"]); at <= Math.min(Number(attributes["max"]), mostColumns); at++) hiddenColumns.add(at - 1);
    },
    text(piece) {
      if (taking) text += piece;
    },
    close(name) {
      if (name === "v" || name === "t") taking = false;
      else if (name === "rPh") phonetic--;
      else if (name === "c" && row !== null) {
        const cell = cellOf(type, text, hasValue, hasFormula, formats[style] ?? "number", strings, from1904);
        if (cell !== undefined) row.cells[column] = cell;
      } else if (name === "row") row = null;
    },
  });
  return { rows: rows.filter(({ cells }) => cells.length > 0), merges, hiddenColumns: [...hiddenColumns] };
}

function cellOf(type: string, text: string, hasValue: boolean, hasFormula: boolean, shown: Shown, strings: readonly string[], from1904: boolean): Cell | undefined {
  if (!hasValue || (text === "" && type !== "str" && type !== "inlineStr")) return hasFormula ? { kind: "formula without result" } : undefined;
  if (type === "s") {
    const found = strings[Number(text)];
    if (found === undefined) throw new Error(`text number ${text} of ${strings.length}`);
    return found === "" ? undefined : { kind: "text", text: found };
  }
  if (type === "str" || type === "inlineStr") return text === "" ? undefined : { kind: "text", text };
  if (type === "b") return { kind: "truth", value: text === "1" || text === "true" };
  if (type === "e") return { kind: "error", text };
  if (type === "d") {
    const ms = Date.parse(/[zZ]|[+-]\d\d:?\d\d$/.test(text) ? text : `${text}Z`);
    return Number.isNaN(ms) ? { kind: "text", text } : { kind: "date", ms };
  }
  const value = Number(text);
  if (!Number.isFinite(value)) throw new Error(`the number "${text.slice(0, 40)}"`);
  if (shown === "percent") return { kind: "percent", value };
  if (shown === "duration") return { kind: "time", days: value };
  if (shown === "time of day" && value < 1) return { kind: "time", days: value };
  if (shown === "date" || shown === "time of day") {
    const ms = dateMs(value, from1904);
    return ms === null ? { kind: "number", value } : { kind: "date", ms };
  }
  return { kind: "number", value };
}

function mergeOf(ref: string): Merge {
  const [from, to] = ref.split(":").map(position);
  if (from === undefined || to === undefined) throw new Error(`merged cells ${ref.slice(0, 40)}`);
  return { ref, fromRow: from.row, toRow: to.row + 1, fromColumn: from.column, toColumn: to.column + 1 };
}

/** `C7` → column 2, row 7. */
function position(ref: string): { readonly column: number; readonly row: number } {
  const match = /^\$?([A-Z]{1,3})\$?(\d{1,7})$/.exec(ref);
  if (match === null) throw new Error(`the cell name "${ref.slice(0, 40)}"`);
  let column = 0;
  for (const letter of match[1] as string) column = column * 26 + letter.charCodeAt(0) - 64;
  return { column: column - 1, row: Number(match[2]) };
}

function truth(text: string | undefined): boolean {
  return text === "1" || text === "true";
}
