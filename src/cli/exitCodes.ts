import { InputError, UsageError, showIssue } from "../core/errors.ts";

export const exitCodes = { done: 0, rejected: 1, badInput: 2, wrongUse: 3 } as const;

/** Runs a command and turns what it throws into a plain message and an exit code. */
export async function withExitCode(command: () => Promise<number>): Promise<void> {
  try {
    process.exitCode = await command();
  } catch (error) {
    if (error instanceof InputError) {
      process.stderr.write(`${error.issues.map(showIssue).join("\n")}\n\n${error.issues.length} mistake${error.issues.length === 1 ? "" : "s"} in the input.\n`);
      process.exitCode = exitCodes.badInput;
      return;
    }
    if (error instanceof UsageError) {
      process.stderr.write(`${error.message}\n`);
      process.exitCode = exitCodes.wrongUse;
      return;
    }
    throw error;
  }
}
