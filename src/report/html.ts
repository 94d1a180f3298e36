import { printableLines } from "../core/printable.ts";

/** A piece of finished HTML. Only `html`, `raw` and `join` make one, so text that people typed is always escaped on its way in. */
export interface Html {
  readonly html: string;
}

type Fillable = Html | string | number | null | undefined | false | readonly Fillable[];

/** Text made safe for element content and quoted attributes. */
export function escapeText(text: string): string {
  // Control characters have no place in a page; they would also hide in names, or turn them round.
  return printableLines(text.replace(/\r\n?/g, "\n"))
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll("'", "&#39;");
}

/** Template tag: every inserted text is escaped, every inserted Html stands as it is, null and false vanish. */
export function html(parts: TemplateStringsArray, ...values: readonly Fillable[]): Html {
  let out = parts[0] as string;
  values.forEach((value, index) => {
    out += fill(value) + (parts[index + 1] as string);
  });
  return { html: out };
}

/** Text that is HTML already: our own styles, scripts and drawn figures, never what people typed. */
export function raw(text: string): Html {
  return { html: text };
}

/** Something for each of a list, one after the other. */
export function each<T>(items: readonly T[], show: (item: T, index: number) => Html): Html {
  return { html: items.map((item, index) => show(item, index).html).join("") };
}

/** A text as an id and link target: letters, digits and hyphens, never twice the same for two texts. */
export function anchor(prefix: string, text: string): string {
  const plain = [...text].map((letter) => (/[A-Za-z0-9-]/.test(letter) ? letter : `_${(letter.codePointAt(0) as number).toString(16)}_`)).join("");
  return `${prefix}-${plain}`;
}

/** JSON for a script element: nothing in it can end the element or open a comment. */
export function embedJson(value: unknown): Html {
  const text = JSON.stringify(value).replaceAll("<", "\\u003c").replaceAll(">", "\\u003e").replaceAll("&", "\\u0026").replaceAll("\u2028", "\\u2028").replaceAll("\u2029", "\\u2029");
  return { html: text };
}

function fill(value: Fillable): string {
  if (value === null || value === undefined || value === false) return "";
  if (typeof value === "string") return escapeText(value);
  if (typeof value === "number") return String(value);
  if (Array.isArray(value)) return (value as readonly Fillable[]).map(fill).join("");
  return (value as Html).html;
}
