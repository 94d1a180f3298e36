import { expect, test } from "vitest";
import { estimateFrom, undetermined } from "../../src/core/estimate.ts";
import { bandOf, pointwiseBand } from "../../src/fitting/band.ts";
import { expandedUncertainty } from "../../src/processing/expandedUncertainty.ts";
import { agrees } from "../helpers/agrees.ts";

const row = (cause: string, effect: number, degreesOfFreedom: number) => ({ cause, effect, sharedBy: null, degreesOfFreedom });

test("each place has the interval that a reading there has", () => {
  const estimates = [estimateFrom(1, "1", "read", [row("scatter", 0.1, 4)]), estimateFrom(2, "1", "read", [row("scatter", 0.1, 3), row("certificate", 0.1, Infinity)])];
  const band = pointwiseBand([0.1, 0.2], estimates);
  agrees((band.high[0] as number) - 1, { expected: 0.2776, within: 5e-5, source: "JCGM 100:2008, table G.2: t95(4) = 2.78 (2.776 in usual tables)" });
  estimates.forEach((estimate, i) => expect((band.value[i] as number) - (band.low[i] as number)).toBeCloseTo(expandedUncertainty(estimate)?.half ?? Number.NaN, 12));
});

test("a factor may be given, and what is not determined has no band", () => {
  const band = bandOf([0, 1], [estimateFrom(1, "1", "read", [row("scatter", 0.1, 4)]), undetermined("1", "no run")], () => 3);
  expect([band.low[0], band.high[0]]).toEqual([0.7, 1.3]);
  expect(band.low[1]).toBeNaN();
});
