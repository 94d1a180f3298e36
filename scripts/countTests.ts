import { readFileSync } from "node:fs";

interface TestFile {
  readonly name: string;
  readonly status: string;
  readonly message: string;
  readonly assertionResults: readonly { readonly status: string }[];
}

/** What vitest's JSON report holds, as far as it is counted here. */
export interface TestReport {
  readonly success: boolean;
  readonly testResults: readonly TestFile[];
}

/**
 * "N passed, N failed", counted test by test. A file that failed without a failed test (it could not be loaded) and an
 * error outside every test count as one failure each, so that "0 failed" always means success.
 */
export function countTests(report: TestReport): string {
  const tests = report.testResults.flatMap((file) => file.assertionResults);
  const of = (status: string): number => tests.filter((test) => test.status === status).length;
  const broken = report.testResults.filter((file) => file.status === "failed" && !file.assertionResults.some((test) => test.status === "failed")).length;
  const failed = of("failed") + broken;
  const notRun = tests.length - of("passed") - of("failed");
  return `${notRun === 0 ? "" : `${notRun} not run\n`}${of("passed")} passed, ${failed === 0 && !report.success ? 1 : failed} failed`;
}

const path = process.argv[2];
if (path !== undefined && process.argv[1]?.endsWith("countTests.ts") === true) console.log(countTests(JSON.parse(readFileSync(path, "utf8")) as TestReport));
