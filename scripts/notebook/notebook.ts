import { readFileSync } from "node:fs";

/** What a notebook file holds, as far as it is used here (Jupyter's format 4.5). */
export interface Notebook {
  readonly cells: readonly Cell[];
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly nbformat: number;
  readonly nbformat_minor: number;
}

export interface Cell {
  readonly cell_type: "markdown" | "code";
  readonly id: string;
  readonly metadata: Readonly<Record<string, unknown>>;
  readonly source: Lines;
  readonly execution_count?: number | null;
  readonly outputs?: readonly Output[];
}

export interface Output {
  readonly output_type: "stream" | "display_data" | "execute_result" | "error";
  readonly name?: string;
  readonly text?: Lines;
  readonly data?: Readonly<Record<string, Lines>>;
  readonly metadata?: Readonly<Record<string, unknown>>;
  readonly execution_count?: number | null;
}

/** Text as one string or as its lines, line ends included. */
type Lines = string | readonly string[];

export function readNotebook(path: string): Notebook {
  return JSON.parse(readFileSync(path, "utf8")) as Notebook;
}

export function textOf(lines: Lines): string {
  return typeof lines === "string" ? lines : lines.join("");
}

/** Without anything that differs from one execution to the next or from one machine to another. */
export function withoutTraces(notebook: Notebook): Notebook {
  const metadata = {
    kernelspec: { display_name: "Deno", language: "typescript", name: "deno" },
    language_info: { file_extension: ".ts", mimetype: "text/x.typescript", name: "typescript" },
  };
  return { ...notebook, metadata, cells: notebook.cells.map((cell) => ({ ...cell, metadata: {} })) };
}

/** As Jupyter writes it: one space a level, a line end at the end. */
export function notebookText(notebook: Notebook): string {
  return `${JSON.stringify(notebook, null, 1)}\n`;
}

/** What a cell printed or showed, one text an output; numbers to four figures, so that a last digit is no difference. */
export function shownBy(cell: Cell): string[] {
  return (cell.outputs ?? []).map((output) => {
    const shown = output.data === undefined ? textOf(output.text ?? "") : Object.entries(output.data).map(([kind, lines]) => `${kind}: ${textOf(lines)}`).join("\n");
    return shown.replace(/\d+\.\d+(e-?\d+)?/g, (number) => String(Number(Number(number).toPrecision(4))));
  });
}

/** All code cells as one TypeScript file: imports of the cells stay where they are, the kernel's own object is declared. */
export function cellsAsModule(notebook: Notebook): string {
  const kernel = "declare const Deno: { readonly jupyter: { display(bundle: Readonly<Record<string, string>>, options: { readonly raw: true }): Promise<void> } };";
  const cells = notebook.cells.filter((cell) => cell.cell_type === "code");
  return [kernel, ...cells.map((cell) => `// cell ${cell.id}\n${textOf(cell.source)}`), "export {};", ""].join("\n");
}
