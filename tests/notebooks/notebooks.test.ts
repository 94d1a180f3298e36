import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { executeNotebook } from "../../scripts/notebook/execute.ts";
import { cellsAsModule, notebookText, readNotebook, shownBy, withoutTraces } from "../../scripts/notebook/notebook.ts";
import type { Cell, Notebook } from "../../scripts/notebook/notebook.ts";
import { proseProblems } from "../../scripts/notebook/stated.ts";

const root = resolve(import.meta.dirname, "../..");
const scratch = join(root, ".cache/notebooks/test");
const names = readdirSync(join(root, "notebooks")).filter((name) => name.endsWith(".ipynb"));
const largestBytes = 1_500_000;

const markdown = (source: string): Cell => ({ cell_type: "markdown", id: "text", metadata: {}, source });
const code = (source: string, shown = ""): Cell => ({ cell_type: "code", id: "code", metadata: {}, source, execution_count: null, outputs: shown === "" ? [] : [{ output_type: "stream", name: "stdout", text: shown }] });
const made = (...cells: readonly Cell[]): Notebook => withoutTraces({ cells, metadata: {}, nbformat: 4, nbformat_minor: 5 });

/** A made notebook in a folder that has no demo day beside it. */
function written(name: string, notebook: Notebook): string {
  mkdirSync(scratch, { recursive: true });
  const path = join(scratch, name);
  writeFileSync(path, notebookText(notebook));
  return path;
}

beforeAll(() => {
  if (!existsSync(join(root, "dist/index.d.ts"))) throw new Error("the notebooks import the built package: run npm run build first");
  if (!existsSync(join(root, "demo-day/rig.yaml"))) throw new Error("the notebooks read the demo day: run npm start first");
});

test("there is a notebook", () => {
  expect(names).toContain("01-a-day-at-the-rig.ipynb");
});

describe.each(names)("%s", (name) => {
  const path = join(root, "notebooks", name);
  const committed = readNotebook(path);
  let fresh: Notebook;

  beforeAll(async () => {
    fresh = withoutTraces(await executeNotebook(root, path));
  });

  test("every cell runs, and what it shows is what is committed", () => {
    const shown = (notebook: Notebook): [string, string[]][] => notebook.cells.filter((cell) => cell.cell_type === "code").map((cell) => [cell.id, shownBy(cell)]);
    expect(shown(committed).flatMap(([, outputs]) => outputs).length).toBeGreaterThan(0);
    expect(shown(fresh)).toEqual(shown(committed));
  });

  test("every number that the prose states comes out", () => {
    expect(proseProblems(fresh)).toEqual([]);
  });

  test("is small and carries no trace of a machine or of a moment", () => {
    expect(statSync(path).size).toBeLessThan(largestBytes);
    const text = readFileSync(path, "utf8");
    expect(text).toBe(notebookText(withoutTraces(committed)));
    expect(text).not.toContain(root);
    expect(committed.cells.filter((cell) => cell.cell_type === "code").map((cell) => cell.execution_count)).toEqual(Array.from({ length: committed.cells.filter((cell) => cell.cell_type === "code").length }, (_, i) => i + 1));
  });
});

test("the cells are right TypeScript, and a wrong one is found", () => {
  mkdirSync(scratch, { recursive: true });
  for (const name of names) writeFileSync(join(scratch, name.replace(".ipynb", ".ts")), cellsAsModule(readNotebook(join(root, "notebooks", name))));
  const first = readNotebook(join(root, "notebooks", names[0] as string));
  writeFileSync(join(scratch, "planted.ts"), cellsAsModule({ ...first, cells: [...first.cells, code("const wrong: string = campaign.runs.length;\nconsole.log(wrong);")] }));
  writeFileSync(join(scratch, "tsconfig.json"), JSON.stringify({ extends: "../../../tsconfig.json", compilerOptions: { noEmit: true, rootDir: "../../..", typeRoots: ["../../../node_modules/@types"] }, include: ["*.ts"] }));
  const checked = spawnSync(process.execPath, [join(root, "node_modules/typescript/bin/tsc"), "-p", scratch, "--pretty", "false"], { cwd: scratch, encoding: "utf8" });
  const problems = checked.stdout.split("\n").filter((line) => line.includes("error TS"));
  expect(problems.filter((line) => !line.startsWith("planted.ts"))).toEqual([]);
  expect(problems.length).toBe(1);
  expect(problems[0]).toContain("Type 'number' is not assignable to type 'string'");
});

test("a cell that fails, fails the notebook", async () => {
  await expect(executeNotebook(root, written("failing.ipynb", made(code('throw new Error("planted failure");'))))).rejects.toThrow("planted failure");
});

test("without a demo day the reader is told what to do", async () => {
  const first = readNotebook(join(root, "notebooks/01-a-day-at-the-rig.ipynb")).cells.find((cell) => cell.cell_type === "code") as Cell;
  await expect(executeNotebook(root, written("alone.ipynb", made(first)))).rejects.toThrow("There is no demo day yet. Run `npm start`");
});

describe("numbers in the prose", () => {
  const values = code("", '{ "pull": { "W1": 0.12871, "drift": -0.1098 } }');

  test("are compared at the digits that are printed", () => {
    expect(proseProblems(made(markdown("**0.129**<!-- value: pull.W1 --> and **−0.11**<!-- value: pull.drift --> N"), values))).toEqual([]);
    expect(proseProblems(made(markdown("**0.128**<!-- value: pull.W1 --> and **−0.11**<!-- value: pull.drift --> N"), values))).toEqual(["text: pull.W1 is stated as 0.128, the cells give 0.129"]);
  });

  test("must name a value, and every value must be stated", () => {
    expect(proseProblems(made(markdown("**0.129**<!-- value: pull.W1 --> of **3** wheels, **7**<!-- value: pull.W9 -->"), values))).toEqual(["text: 3 names no value", "text: pull.W9 is not among the printed values", "pull.drift is printed and nowhere stated"]);
  });

  test("cannot be checked when the last cell shows nothing", () => {
    expect(() => proseProblems(made(markdown("**1**<!-- value: a -->"), code("")))).toThrow("the last code cell shows no values");
  });
});
