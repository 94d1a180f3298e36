import { printable } from "./printable.ts";

/** Something wrong in a file or description, with its place. */
export interface Issue {
  /** short, stable, kebab-case: "unknown-unit" */
  readonly code: string;
  /** file and line, or file and key path: `rig.yaml line 12, loggers.frame.channels.pull.unit` */
  readonly at: string;
  /** expected X, found Y */
  readonly message: string;
  /** what to do */
  readonly hint: string;
}

/** The caller used a function wrongly. */
export class UsageError extends Error {
  override readonly name = "UsageError";
}

/** One or more files or descriptions are wrong; holds every issue found, not the first. */
export class InputError extends Error {
  override readonly name = "InputError";
  readonly issues: readonly Issue[];
  constructor(issues: readonly Issue[]) {
    super(issues.map((issue) => showIssue(issue)).join("\n"));
    this.issues = issues.map(plainIssue);
  }
}

/** Names in a file can hold anything; an issue is read in a terminal and on a page. */
export function plainIssue<T extends Issue>(issue: T): T {
  return { ...issue, at: printable(issue.at), message: printable(issue.message), hint: printable(issue.hint) };
}

/** *where: expected X, found Y. What to do.* */
export function showIssue(issue: Issue): string {
  return printable(`${issue.at}: ${issue.message}. ${issue.hint}`);
}
