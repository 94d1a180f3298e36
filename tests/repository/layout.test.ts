import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { manifestViolations, mirrorViolations, originViolations, rootEntries, rootViolations } from "./layout.ts";
import { expectNone, filesIn, pathsUnder } from "./projectFiles.ts";

const read = (path: string): string => readFileSync(path, "utf8");
const ignored = read(".gitignore").split("\n").map((line) => line.replace(/\/$/, "")).filter((line) => line !== "");
const manifest = JSON.parse(read("package.json")) as Record<string, unknown>;
const messages = (found: readonly { readonly message: string }[]): string[] => found.map(({ message }) => message);

describe("layout", () => {
  test("nothing stands at the root that has no place there, nothing is missing", () => expectNone(rootViolations(readdirSync("."), ignored)));
  test("a stray and a missing entry are found", () => {
    expect(messages(rootViolations([...rootEntries.slice(1), ".git", "out", "vitest.config.ts"], ["out"]))).toEqual(["vitest.config.ts has no place at the root", "README.md is missing at the root"]);
  });

  test("every fixture says where it comes from", () => expectNone(originViolations(pathsUnder("fixtures"), read)));
  test("a fixture without origin, and one with an empty one, are found", () => {
    const found = originViolations(["fixtures/a/x.csv", "fixtures/b/ORIGIN.md"], () => "# Origin");
    expect(messages(found)).toEqual(["has no ORIGIN.md", "says too little about where this comes from"]);
  });

  test("test files mirror src", () => expectNone(mirrorViolations(filesIn(["tests"], [".test.ts"]), pathsUnder("src"))));
  test.each([
    ["another name for one file", "tests/core/unitTable.test.ts", 'import { a } from "../../src/core/units.ts";', ["tests src/core/units.ts alone and is not named after it"]],
    ["a folder that mirrors nothing", "tests/misc/a.test.ts", "", [expect.stringContaining("stands in no folder of src/")]],
    ["its own name", "tests/core/units.test.ts", "", []],
    ["a matter of two files", "tests/core/words.test.ts", 'import "../../src/core/units.ts";\nimport "../../src/core/fit.ts";', []],
  ])("a test with %s", (_, path, text, expected) => {
    expect(messages(mirrorViolations([{ path, text }], ["src/core/units.ts", "src/core/fit.ts"]))).toEqual(expected);
  });

  test("package.json says what it must", () => expectNone(manifestViolations(manifest)));
  test("every field of package.json that goes missing is found", () => {
    for (const key of ["name", "license", "type", "bin", "exports", "engines", "files"]) {
      const { [key]: _, ...rest } = manifest;
      expect(manifestViolations(rest), key).toHaveLength(1);
    }
  });

  test("the lock pins every package by its hash", () => {
    const { packages } = JSON.parse(read("package-lock.json")) as { packages: Record<string, { integrity?: string; link?: boolean }> };
    expect(Object.entries(packages).filter(([path, entry]) => path !== "" && entry.integrity === undefined).map(([path]) => path)).toEqual([]);
  });
});
