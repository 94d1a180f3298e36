import { each, html } from "./html.ts";
import type { Html } from "./html.ts";

export interface Column<T> {
  readonly heading: string;
  readonly show: (row: T) => Html | string | null;
  /** numbers stand right; long text may wrap */
  readonly align?: "right" | "wrap";
  /** false = the cell speaks for itself where cells stand one below the other */
  readonly named?: boolean;
}

/** Tables of more columns are wider than a sheet of paper. */
const columnsOnPaper = 8;

/** A table that scrolls sideways inside itself on a narrow screen, or with `stack` puts its cells one below the other. On paper each row of a wide one is a block of named cells. */
export function table<T>(rows: readonly T[], columns: readonly Column<T>[], options: { readonly caption?: string; readonly rowAttributes?: (row: T) => Html; readonly id?: string; readonly stack?: boolean } = {}): Html {
  if (rows.length === 0) return html`<p class="none">None.</p>`;
  const wide = columns.length > columnsOnPaper;
  const names = [options.stack === true ? "stack" : "", wide ? "wide" : ""].filter((name) => name !== "").join(" ");
  return html`<div class="scroll"><table${names !== "" && html` class="${names}"`}${options.id === undefined ? "" : html` id="${options.id}"`}>${options.caption !== undefined && html`<caption>${options.caption}</caption>`}
<thead><tr>${each(columns, (column) => html`<th scope="col"${column.align === "right" && html` class="r"`}>${column.heading}</th>`)}</tr></thead>
<tbody>${each(rows, (row) => html`<tr${options.rowAttributes?.(row)}>${each(columns, (column) => html`<td${(options.stack === true || wide) && column.named !== false && html` data-h="${column.heading}"`}${column.align !== undefined && html` class="${column.align === "right" ? "r" : "w"}"`}>${column.show(row)}</td>`)}</tr>
`)}</tbody></table></div>`;
}
