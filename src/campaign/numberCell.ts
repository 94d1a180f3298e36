import { show } from "./nearest.ts";

/** Which decimal marks a table shows beyond doubt. */
export interface MarkEvidence {
  readonly point: boolean;
  readonly comma: boolean;
}

/** A number, or why the cell is none. */
export type NumberReading = { readonly value: number } | { readonly message: string; readonly hint: string };

const whole = /^[+-]?\d+(e[+-]?\d+)?$/i;
const marked = /^[+-]?(\d*)([.,])(\d*)(e[+-]?\d+)?$/i;
const grouped = /^[+-]?\d{1,3}([.,' \u00a0\u202f]\d{3})+([.,]\d*)?$/;

const tidy = (cell: string) => cell.trim().replace(/^\u2212/, "-");

/** The mark and whether it could also part thousands: `1,234` could, `0,234` and `12,5` could not. */
function markOf(cell: string): { readonly mark: "." | ","; readonly doubtful: boolean } | null {
  const match = marked.exec(tidy(cell));
  if (match === null) return null;
  const [, before = "", mark, after = "", exponent] = match;
  if (before === "" && after === "") return null;
  return { mark: mark as "." | ",", doubtful: /^[1-9]\d{0,2}$/.test(before) && after.length === 3 && exponent === undefined };
}

/** What the table's number cells, and a comma as delimiter, say about its decimal mark. */
export function markEvidence(cells: Iterable<string>, delimiter: string): MarkEvidence {
  let point = delimiter === ",";
  let comma = false;
  for (const cell of cells) {
    const found = markOf(cell);
    if (found === null || found.doubtful) continue;
    if (found.mark === ".") point = true;
    else comma = true;
  }
  return { point, comma };
}

/** One number cell. Marks that part thousands are refused: with them one typing slip moves a number a thousandfold. */
export function readNumber(cell: string, evidence: MarkEvidence): NumberReading {
  const text = tidy(cell);
  if (whole.test(text)) return finite(Number(text), cell);
  const found = markOf(text);
  if (found !== null) {
    const asDecimal = Number(text.replace(",", "."));
    if (!found.doubtful) return finite(asDecimal, cell);
    const name = found.mark === "." ? "point" : "comma";
    const own = found.mark === "." ? evidence.point : evidence.comma;
    const other = found.mark === "." ? evidence.comma : evidence.point;
    if (own && !other) return finite(asDecimal, cell);
    const asThousands = text.replace(found.mark, "");
    if (other && !own) {
      const swapped = String(asDecimal).replace(".", found.mark === "." ? "," : ".");
      return {
        message: `expected a number without marks between thousands, found ${show(cell)}`,
        hint: `The table's other numbers have a decimal ${name === "point" ? "comma" : "point"}. Write ${asThousands}, or ${swapped} if that is meant.`,
      };
    }
    return {
      message: `expected a number with one reading, found ${show(cell)}, which may be ${asDecimal} (decimal ${name}) or ${asThousands} (${name} between thousands)`,
      hint: `Write ${asThousands} without a mark, or ${text}0 if the ${name} is the decimal mark.`,
    };
  }
  if (grouped.test(text)) return {
    message: `expected a number without marks between thousands, found ${show(cell)}`,
    hint: "Take the marks between the thousands out (in a spreadsheet: format the cells as plain numbers).",
  };
  if (/^[+-]?\d[\d.,]*\s*[^\d\s.,]/.test(text)) return {
    message: `expected a number alone, found ${show(cell)}`,
    hint: "The cell holds the number and nothing else; its unit stands in the heading's brackets.",
  };
  return { message: `expected a number, found ${show(cell)}`, hint: "Write a number, or leave the cell empty." };
}

function finite(value: number, cell: string): NumberReading {
  if (Number.isFinite(value)) return { value };
  return { message: `expected a number, found ${show(cell)}, which is too large to be one`, hint: "Correct the cell." };
}
