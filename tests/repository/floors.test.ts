import { describe, expect, test } from "vitest";
import { floorViolations } from "./floors.ts";
import { expectNone, filesIn } from "./projectFiles.ts";

const planted = (path: string, text: string): string[] => floorViolations([{ path, text }]).map(({ line, message }) => `${line} ${message}`);

describe("floors", () => {
  test("no file of src looks up or sideways", () => {
    const files = filesIn(["src"], [".ts"]);
    expect(files.length).toBeGreaterThan(100);
    expectNone(floorViolations(files));
  });

  test.each([
    ["up", "src/core/units.ts", 'import { a } from "../models/a.ts";', "1 core may not import models (src/models/a.ts)"],
    ["sideways between core and numerics", "src/numerics/peaks.ts", '\nimport { a } from "../core/errors.ts";', "2 numerics may not import core (src/core/errors.ts)"],
    ["sideways between campaign and importers", "src/importers/lines.ts", 'import type { A } from "../campaign/sheet.ts";', "1 importers may not import campaign (src/campaign/sheet.ts)"],
    ["sideways between processing and models", "src/models/a.ts", 'export { b } from "../processing/b.ts";', "1 models may not import processing (src/processing/b.ts)"],
    ["by a dynamic import", "src/report/html.ts", 'const a = await import("../cli/main.ts");', "1 report may not import cli (src/cli/main.ts)"],
    ["inside a type", "src/core/fit.ts", 'export type A = import("../fitting/a.ts").B;', "1 core may not import fitting (src/fitting/a.ts)"],
    ["from conditioning to measures", "src/processing/conditioning/zero.ts", 'import { a } from "../measures/slip.ts";', "1 conditioning may not import measures (src/processing/measures/slip.ts)"],
    ["out of src", "src/day.ts", 'import { a } from "../tests/helpers/agrees.ts";', "1 imports tests/helpers/agrees.ts, which is not in src/"],
    ["without its ending", "src/day.ts", 'import { a } from "./core/units";', "1 imports src/core/units: a relative import ends in .ts"],
  ])("a look %s is found", (_, path, text, message) => {
    expect(planted(path, text)).toEqual([message]);
  });

  test("a room nobody planned is found", () => {
    expect(planted("src/utils/misc.ts", "")).toEqual([expect.stringContaining("src/utils is no room of the house")]);
  });

  test("measures may use conditioning, and every floor the ones below", () => {
    expect(planted("src/processing/measures/slip.ts", 'import { a } from "../conditioning/window.ts";\nimport { b } from "../../core/units.ts";')).toEqual([]);
  });
});
