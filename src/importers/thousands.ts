export type Thousands = "," | "." | "'" | " ";

// A blank between digits is often one that does not break the line; an apostrophe is often a printer's one.
const written: Readonly<Record<Thousands, string>> = { ",": ",", ".": "\\.", "'": "['’]", " ": "[ \\u00a0\\u2009\\u202f]" };
const decimals: Readonly<Record<Thousands, string>> = { ",": "\\.", ".": ",", "'": "[.,]", " ": "[.,]" };

/** `1'234.5` without its thousands marks; null where the marks do not part groups of three digits. */
export function ungrouped(cell: string, mark: Thousands): string | null {
  const grouped = new RegExp(`^[+-]?\\d{1,3}(?:${written[mark]}\\d{3})+(?:${decimals[mark]}\\d*)?(?:[eE][+-]?\\d+)?$`);
  return grouped.test(cell) ? cell.replace(new RegExp(written[mark], "g"), "") : null;
}

/** Comma and point cannot be both; null = the thousands mark tells nothing about the decimal mark. */
export function decimalBeside(mark: Thousands): "." | "," | null {
  return mark === "," ? "." : mark === "." ? "," : null;
}
