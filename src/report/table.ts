import { each, html } from "./html.ts";
import type { Html } from "./html.ts";

export interface Column<T> {
  readonly heading: string;
  readonly show: (row: T) => Html | string | null;
  /** numbers stand right; long text may wrap */
  readonly align?: "right" | "wrap";
}

/** A table that scrolls sideways inside itself on a narrow screen. */
export function table<T>(rows: readonly T[], columns: readonly Column<T>[], options: { readonly caption?: string; readonly rowAttributes?: (row: T) => Html; readonly id?: string } = {}): Html {
  if (rows.length === 0) return html`<p class="none">None.</p>`;
  return html`<div class="scroll"><table${options.id === undefined ? "" : html` id="${options.id}"`}>${options.caption !== undefined && html`<caption>${options.caption}</caption>`}
<thead><tr>${each(columns, (column) => html`<th scope="col"${column.align === "right" && html` class="r"`}>${column.heading}</th>`)}</tr></thead>
<tbody>${each(rows, (row) => html`<tr${options.rowAttributes?.(row)}>${each(columns, (column) => html`<td${column.align !== undefined && html` class="${column.align === "right" ? "r" : "w"}"`}>${column.show(row)}</td>`)}</tr>
`)}</tbody></table></div>`;
}
