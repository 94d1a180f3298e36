// npx tsx scripts/runNotebook.ts [notebook …] [--restate]
// Sets the kernel up, runs every cell and writes the outputs into the notebook. --restate also takes the numbers of the
// prose from the outputs; read the words around them again afterwards.
import { readdirSync, writeFileSync } from "node:fs";
import { relative, resolve } from "node:path";
import { executeNotebook } from "./notebook/execute.ts";
import { notebookText, withoutTraces } from "./notebook/notebook.ts";
import { proseProblems, restated } from "./notebook/stated.ts";

const root = resolve(import.meta.dirname, "..");
const words = process.argv.slice(2);
const named = words.filter((word) => !word.startsWith("--"));
const paths = named.length > 0 ? named.map((path) => resolve(path)) : readdirSync(resolve(root, "notebooks")).filter((name) => name.endsWith(".ipynb")).map((name) => resolve(root, "notebooks", name));
for (const path of paths) {
  const executed = withoutTraces(await executeNotebook(root, path));
  const finished = words.includes("--restate") ? restated(executed) : executed;
  writeFileSync(path, notebookText(finished));
  const problems = proseProblems(finished);
  console.log([`${relative(root, path)}: ${finished.cells.length} cells run`, ...problems].join("\n  "));
  if (problems.length > 0) process.exitCode = 1;
}
