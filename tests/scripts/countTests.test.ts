import { expect, test } from "vitest";
import { countTests } from "../../scripts/countTests.ts";

const file = (status: string, ...tests: readonly string[]) => ({ name: "a.test.ts", status, message: "", assertionResults: tests.map((each) => ({ status: each })) });

test.each([
  ["all well", true, [file("passed", "passed", "passed"), file("passed", "passed")], "3 passed, 0 failed"],
  ["a failed test", false, [file("failed", "passed", "failed")], "1 passed, 1 failed"],
  ["a file that could not be loaded", false, [file("passed", "passed"), file("failed")], "1 passed, 1 failed"],
  ["an error outside every test", false, [file("passed", "passed")], "1 passed, 1 failed"],
  ["tests left out", true, [file("passed", "passed", "skipped", "todo")], "2 not run\n1 passed, 0 failed"],
  ["nothing at all", false, [], "0 passed, 1 failed"],
])("%s", (_, success, testResults, line) => {
  expect(countTests({ success, testResults })).toBe(line);
});
