import { textOf } from "./notebook.ts";
import type { Notebook } from "./notebook.ts";

/**
 * A number that the prose states. It stands in bold, with the name of the value behind it in a comment that readers do
 * not see: `**0.129**<!-- value: pullAt20.W1 -->`. The last cell shows the values by name, as JSON.
 */
export interface Stated {
  readonly cell: string;
  readonly text: string;
  /** null = the bold number carries no name */
  readonly name: string | null;
}

const pattern = /\*\*([−-]?\d+(?:\.\d+)?)\*\*(?:<!-- value: ([\w.]+) -->)?/g;

export function statedNumbers(notebook: Notebook): Stated[] {
  return notebook.cells
    .filter((cell) => cell.cell_type === "markdown")
    .flatMap((cell) => [...textOf(cell.source).matchAll(pattern)].map((match) => ({ cell: cell.id, text: match[1] as string, name: match[2] ?? null })));
}

/** The values that the last code cell shows, by dotted name. */
export function printedValues(notebook: Notebook): Map<string, number> {
  const last = notebook.cells.filter((cell) => cell.cell_type === "code").at(-1);
  const printed = (last?.outputs ?? []).map((output) => textOf(output.text ?? output.data?.["text/plain"] ?? "")).join("");
  if (printed === "") throw new Error("the last code cell shows no values");
  const values = new Map<string, number>();
  const collect = (value: unknown, name: string): void => {
    if (typeof value === "number") values.set(name, value);
    else if (typeof value === "object" && value !== null) for (const [key, inner] of Object.entries(value)) collect(inner, name === "" ? key : `${name}.${key}`);
  };
  collect(JSON.parse(printed), "");
  return values;
}

/** A value as the prose would print it, to as many places as stand there. */
export function asPrinted(value: number, text: string): string {
  const places = text.split(".")[1]?.length ?? 0;
  return value.toFixed(places).replace("-", "−");
}

/** Every stated number that does not come out, and every value that no prose states; empty when all is well. */
export function proseProblems(notebook: Notebook): string[] {
  const values = printedValues(notebook);
  const stated = statedNumbers(notebook);
  const wrong = stated.flatMap(({ cell, text, name }) => {
    if (name === null) return [`${cell}: ${text} names no value`];
    const value = values.get(name);
    if (value === undefined) return [`${cell}: ${name} is not among the printed values`];
    const now = asPrinted(value, text);
    return now === text.replace("-", "−") ? [] : [`${cell}: ${name} is stated as ${text}, the cells give ${now}`];
  });
  const idle = [...values.keys()].filter((name) => !stated.some((number) => number.name === name));
  return [...wrong, ...idle.map((name) => `${name} is printed and nowhere stated`)];
}

/** The notebook with its stated numbers taken from the printed values; words around them are for a person to read again. */
export function restated(notebook: Notebook): Notebook {
  const values = printedValues(notebook);
  const renew = (text: string): string =>
    text.replace(pattern, (whole, number: string, name: string | undefined) => {
      const value = name === undefined ? undefined : values.get(name);
      return value === undefined ? whole : whole.replace(number, () => asPrinted(value, number));
    });
  return { ...notebook, cells: notebook.cells.map((cell) => (cell.cell_type === "markdown" ? { ...cell, source: renew(textOf(cell.source)).split(/(?<=\n)/) } : cell)) };
}
