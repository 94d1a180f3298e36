import { InputError } from "../../src/core/errors.ts";
import type { Issue } from "../../src/core/errors.ts";
import type { RawTable } from "../../src/importers/contract.ts";

export type Verdict = { readonly kind: "read" | "refused"; readonly what: string } | { readonly kind: "failure"; readonly what: string };

/** An issue is read by a person in a terminal. */
const longest = 2000;
const mostIssues = 5000;

/** What came of one reading: a value, a refusal with a place, or a failure of drawbar. */
export async function judge(work: () => Promise<void>, place: RegExp): Promise<Verdict> {
  try {
    await work();
    return { kind: "read", what: "" };
  } catch (error) {
    if (!(error instanceof InputError)) return { kind: "failure", what: error instanceof Error ? (error.stack ?? error.message) : String(error) };
    const wrong = error.issues.length === 0 ? "an InputError without issues" : error.issues.length > mostIssues ? `${error.issues.length} issues` : error.issues.map((issue) => wrongWith(issue, place)).find((what) => what !== null);
    return wrong === undefined || wrong === null ? { kind: "refused", what: error.issues[0]?.code ?? "" } : { kind: "failure", what: wrong };
  }
}

function wrongWith(issue: Issue, place: RegExp): string | null {
  const all = `${issue.at}: ${issue.message}. ${issue.hint}`;
  const shown = JSON.stringify(issue).slice(0, 600);
  if (!place.test(issue.at)) return `an issue without its place: ${shown}`;
  if (issue.hint === "" || issue.message === "") return `an issue without a message or hint: ${shown}`;
  return all.length > longest ? `an issue of ${all.length} letters: ${shown}` : null;
}

/** @throws Error where a table does not hold together */
export function checkTable(table: RawTable): void {
  for (const { name, samples, overloaded } of table.columns) {
    if (samples.length !== table.timesS.length) throw new Error(`${samples.length} values of ${name} for ${table.timesS.length} times`);
    if (overloaded.some((row) => row < 0 || row >= samples.length)) throw new Error(`an overload mark outside ${name}`);
    if (Array.from(samples).some((value) => Math.abs(value) === Infinity)) throw new Error(`an infinite number in ${name}`);
  }
  if (table.timesS.length < 2) throw new Error(`a table of ${table.timesS.length} rows`);
  if (!Array.from(table.timesS).every(Number.isFinite)) throw new Error("a time that is no number");
  if (table.startedAt !== null && Number.isNaN(Date.parse(table.startedAt.replace(/\[.*$/, "")))) throw new Error(`started at ${table.startedAt}`);
}
