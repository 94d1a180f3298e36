import { expect, test } from "vitest";
import { climbFigures } from "../../src/report/figures/climbFigures.ts";
import { sampleDay } from "./sampleDay.ts";

/** Where level bars begin and end, in pixels of the figure. */
function bars(svg: string): number[] {
  return [...svg.matchAll(/aria-label="rule">(.*?)<\/g>/g)].flatMap(([, group = ""]) => [...group.matchAll(/ x[12]="([-0-9.]+)"/g)].map(([, x]) => Number(x)));
}

test("an interval that passes the heights tried stops at the frame, instead of running over the axis", () => {
  const day = sampleDay();
  const wide = day.climbCurves.map((curve) => ({ ...curve, heights: [{ ...(curve.heights[0] as (typeof curve.heights)[number]), low: -1, high: 5 }, { ...(curve.heights[0] as (typeof curve.heights)[number]), low: 4, high: 5 }] }));
  const drawn = bars(climbFigures({ ...day, climbCurves: wide }).html);
  expect(drawn.length).toBeGreaterThan(0);
  // left edge 52, right edge 380 − 14
  for (const x of drawn) {
    expect(x).toBeGreaterThanOrEqual(51);
    expect(x).toBeLessThanOrEqual(367);
  }
});
