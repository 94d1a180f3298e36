import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { doors, doorViolations, idleDoors, purityViolations } from "./doors.ts";
import { expectNone, filesIn } from "./projectFiles.ts";

const source = filesIn(["src"], [".ts"]);
const dependencies = Object.keys((JSON.parse(readFileSync("package.json", "utf8")) as { dependencies: Record<string, string> }).dependencies);

describe("doors", () => {
  test("every outside package comes in through its door", () => expectNone(doorViolations(source)));

  test("every door has its package and its use", () => expectNone(idleDoors(source, dependencies)));

  test.each([
    ["luxon beside its door", "src/campaign/readRig.ts", 'import { DateTime } from "luxon";'],
    ["a package nobody planned", "src/core/units.ts", 'import _ from "lodash";'],
    ["files read in a pure room", "src/processing/slip.ts", 'import { readFileSync } from "node:fs";'],
    ["files read under another name", "src/processing/slip.ts", 'import { readFile } from "node:fs/promises";'],
    ["a file out of a package", "src/cli/a.ts", 'const script = asset("uplot/dist/uPlot.iife.min.js");'],
    ["a package by require", "src/numerics/a.ts", 'const papa = require("papaparse");'],
  ])("%s: found", (_, path, text) => {
    expect(doorViolations([{ path, text }]).map(({ path: where, line }) => `${where}:${line}`)).toEqual([`${path}:1`]);
  });

  test("a dependency without a door, a door without a dependency, a door without use: found", () => {
    const names = Object.keys(doors);
    const using = [{ path: "src/cli/a.ts", text: names.map((name) => `import "${name}";`).join("\n") }];
    expect(idleDoors(using, names)).toEqual([]);
    expect(idleDoors(using, [...names, "left-pad"]).map((found) => found.message)).toEqual(["left-pad is a dependency without a door"]);
    expect(idleDoors(using, names.slice(1)).map((found) => found.message)).toEqual([`${names[0]} has a door but is no dependency`]);
    expect(idleDoors([], names)).toHaveLength(names.length);
  });
});

describe("purity", () => {
  test("only the command line prints and reads the clock; nothing rolls dice unseeded", () => expectNone(purityViolations(source)));

  test.each([
    ["printing", "src/core/a.ts", "console.log(1);", 1],
    ["printing to a stream", "src/report/a.ts", "a;\nprocess.stderr.write(x);", 2],
    ["the clock", "src/importers/a.ts", "const t = Date.now();", 1],
    ["the date", "src/report/a.ts", "const t = new Date();", 1],
    ["dice", "src/cli/a.ts", "Math.random();", 1],
  ])("%s: found", (_, path, text, line) => {
    expect(purityViolations([{ path, text }]).map((found) => found.line)).toEqual([line]);
  });

  test("the command line may print and read the clock", () => {
    expect(purityViolations([{ path: "src/cli/a.ts", text: "process.stdout.write(new Date().toISOString());" }])).toEqual([]);
  });
});
