import { describe, expect, test } from "vitest";
import { conformityFrom } from "../../src/fitting/conformity.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { agrees } from "../helpers/agrees.ts";
import { plan } from "../helpers/pressRun.ts";
import { ownRow, runResult, sharedRow } from "../helpers/runResult.ts";

type Ground = "flat" | "step" | "rock";

/** A footprint whose area is off by 2 % through the pad's cells, as all of that pad, and by `own` for itself. */
function footprint(id: string, ground: Ground, areaM2: number, index: number, rest: Partial<RunResult> = {}, from: "pad" | "image" = "pad", wheel = "W3", own = 0.01): RunResult {
  return runResult(plan("footprint", { id, wheel, setLoadN: 110, footprint: { from, ground } }), {
    contactArea: { value: areaM2, unit: "m2", rows: [sharedRow(0.02 * areaM2, "size of a cell"), ownRow(own * areaM2, `edge, ${id}`)] },
    conformityIndex: { value: index, unit: "1", rows: [ownRow(own * index, `edge, ${id}`)] },
  }, rest);
}

describe("conformity on uneven ground", () => {
  test("is the ratio to the same wheel on flat ground; what both share drops out of it", () => {
    const [step, rock] = conformityFrom([footprint("F1", "flat", 0.004, 0.8), footprint("F2", "step", 0.002, 0.78), footprint("F3", "rock", 0.001, 0.6)]);
    expect([step?.ground, rock?.ground, step?.runs, step?.from]).toEqual(["step", "rock", ["F2", "F1"], "pad"]);
    agrees(step?.area.value ?? NaN, { expected: 0.5, within: 1e-12, source: "by hand: 2/4" });
    agrees(step?.area.standardUncertainty ?? NaN, { expected: 0.5 * Math.SQRT2 * 0.01, within: 1e-6, source: "by hand: two edges of 1 %, the cells' 2 % cancel" });
    agrees(rock?.index.value ?? NaN, { expected: 0.75, within: 1e-12, source: "by hand: 0.6/0.8" });
  });

  test("repeats are averaged and their scatter counts", () => {
    const [step] = conformityFrom([footprint("F1", "flat", 0.004, 0.8, {}, "pad", "W3", 0), footprint("F2", "step", 0.002, 0.7, {}, "pad", "W3", 0), footprint("F3", "step", 0.002, 0.74, {}, "pad", "W3", 0)]);
    agrees(step?.index.value ?? NaN, { expected: 0.9, within: 1e-12, source: "by hand: mean 0.72 over 0.8" });
    agrees(step?.index.standardUncertainty ?? NaN, { expected: 0.02 / 0.8, within: 1e-6, source: "by hand: s/√2 = 0.02, over 0.8" });
  });

  test("needs a flat footprint of the same wheel, load and recorder that counts", () => {
    const uneven = footprint("F2", "step", 0.002, 0.78);
    expect(conformityFrom([uneven])).toEqual([]);
    expect(conformityFrom([uneven, footprint("F1", "flat", 0.004, 0.8, {}, "image")])).toEqual([]);
    expect(conformityFrom([uneven, footprint("F1", "flat", 0.004, 0.8, {}, "pad", "W5")])).toEqual([]);
    expect(conformityFrom([uneven, footprint("F1", "flat", 0.004, 0.8, { verdict: "repeat" })])).toEqual([]);
    expect(conformityFrom([footprint("F1", "flat", 0.004, 0.8)])).toEqual([]);
  });
});
