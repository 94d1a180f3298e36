import { describe, expect, test } from "vitest";
import { expectNone, filesIn } from "./projectFiles.ts";
import { lineCount, medianFile, medianLength, sizeViolations } from "./sizes.ts";

const linesOf = (count: number): string => "a\n".repeat(count);

describe("sizes", () => {
  test("no file of src, tests or scripts is past 300 lines", () => expectNone(sizeViolations(filesIn(["src", "tests", "scripts"], [".ts", ".sh", ".py", ".json"]))));

  test(`half of the files of src stay within ${medianFile} lines`, () => expect(medianLength(filesIn(["src"], [".ts"]))).toBeLessThanOrEqual(medianFile));

  test("a file past the limit is found, one at the limit is not", () => {
    const found = sizeViolations([{ path: "src/long.ts", text: linesOf(301) }, { path: "src/full.ts", text: linesOf(300) }]);
    expect(found).toEqual([{ path: "src/long.ts", line: 301, message: "has 301 lines, more than 300: make it two files" }]);
  });

  test("lines are counted with and without a last line break; the median is the middle", () => {
    expect([lineCount("a\nb\n"), lineCount("a\nb")]).toEqual([2, 2]);
    expect(medianLength([10, 500, 20].map((count, index) => ({ path: String(index), text: linesOf(count) })))).toBe(20);
  });
});
