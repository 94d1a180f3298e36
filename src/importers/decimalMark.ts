/** What the numbers of a log say about its decimal mark. */
export interface DecimalVerdict {
  /** null = no mark seen, or the marks contradict each other */
  readonly mark: "." | "," | null;
  readonly why: string;
  /** set when the bytes allow two readings, or none */
  readonly conflict: { readonly code: "ambiguous-decimal" | "thousands-separator"; readonly found: string } | null;
}

interface Sighting {
  readonly cell: string;
  readonly column: string;
}

interface Tally {
  /** cells in which the mark can only be a decimal mark */
  readonly certain: Map<"." | ",", Sighting>;
  /** cells that could also be whole numbers with a thousands mark */
  readonly doubtful: Map<"." | ",", Sighting>;
  thousands: Sighting | null;
}

const oneMark = /^[+-]?(\d*)([.,])(\d*)(?:[eE][+-]?\d+)?$/;
const manyMarks = /^[+-]?\d{1,3}(?:([.,'])\d{3})+(?:[.,]\d+)?$/;

/**
 * Finds the decimal mark from cells of the columns that matter first, from the other columns if those do not tell.
 * `1,234` can be 1.234 or 1234; `0,123`, `12,5`, `1234,567` and `1,2345` can only be decimals.
 */
export function decimalMark(needed: ReadonlyMap<string, readonly string[]>, others: ReadonlyMap<string, readonly string[]>, delimiter: string | null): DecimalVerdict {
  const first = tally(needed);
  const own = verdict(first, delimiter);
  if (own !== null && own.conflict?.code !== "ambiguous-decimal") return own;
  if (own !== null && first.certain.size > 0) return own;
  const support = tally(others);
  for (const [mark, seen] of support.certain) {
    if (support.certain.size === 1 && !(own !== null && first.doubtful.has(mark === "." ? "," : "."))) return { mark, why: `decimal ${name(mark)}: column "${seen.column}" holds "${seen.cell}"`, conflict: null };
  }
  return own ?? { mark: null, why: "no decimal mark in the lines looked at", conflict: null };
}

function tally(columns: ReadonlyMap<string, readonly string[]>): Tally {
  const result: Tally = { certain: new Map(), doubtful: new Map(), thousands: null };
  for (const [column, cells] of columns) {
    for (const cell of cells) {
      const parts = oneMark.exec(cell);
      if (parts === null) {
        if (manyMarks.test(cell)) result.thousands ??= { cell, column };
        continue;
      }
      const [, before, mark, after] = parts as unknown as [string, string, "." | ",", string];
      if (before === "" && after === "") continue;
      const couldGroup = /^[1-9]\d{0,2}$/.test(before) && after.length === 3 && !/[eE]/.test(cell);
      const into = couldGroup ? result.doubtful : result.certain;
      if (!into.has(mark)) into.set(mark, { cell, column });
    }
  }
  return result;
}

/** null = nothing seen. */
function verdict(seen: Tally, delimiter: string | null): DecimalVerdict | null {
  if (seen.thousands !== null) {
    return { mark: null, why: "", conflict: { code: "thousands-separator", found: `"${seen.thousands.cell}" in column "${seen.thousands.column}", a number with thousands marks` } };
  }
  const [certain] = seen.certain;
  if (seen.certain.size === 2) {
    const point = seen.certain.get(".") as Sighting;
    const comma = seen.certain.get(",") as Sighting;
    return ambiguous(`"${point.cell}" in column "${point.column}" and "${comma.cell}" in column "${comma.column}"`);
  }
  if (certain !== undefined) {
    const [mark, cell] = certain;
    const other = seen.doubtful.get(mark === "." ? "," : ".");
    if (other !== undefined) return ambiguous(`"${cell.cell}" in column "${cell.column}" and "${other.cell}" in column "${other.column}", which could be a decimal or a thousands mark`);
    return { mark, why: `decimal ${name(mark)}: column "${cell.column}" holds "${cell.cell}"`, conflict: null };
  }
  const [doubtful] = seen.doubtful;
  if (doubtful === undefined) return null;
  const [mark, cell] = doubtful;
  if (seen.doubtful.size === 1 && mark === "." && delimiter === ",") return { mark, why: `decimal point: the comma separates the columns, and column "${cell.column}" holds "${cell.cell}"`, conflict: null };
  const digits = cell.cell.replace(mark, "");
  return ambiguous(`"${cell.cell}" in column "${cell.column}", which reads as ${cell.cell.replace(mark, ".")} with a decimal ${name(mark)} or as ${digits} with a thousands ${name(mark)}; every number looked at has three digits after the mark`);
}

function ambiguous(found: string): DecimalVerdict {
  return { mark: null, why: "", conflict: { code: "ambiguous-decimal", found } };
}

function name(mark: "." | ","): string {
  return mark === "." ? "point" : "comma";
}
