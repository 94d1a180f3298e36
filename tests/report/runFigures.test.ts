import { describe, expect, it } from "vitest";
import type { Curve } from "../../src/processing/dayResult.ts";
import { laneFigure } from "../../src/report/figures/laneFigure.ts";
import { sweepFigure } from "../../src/report/figures/sweepFigure.ts";
import { runResult } from "../helpers/runResult.ts";
import { sweptRun } from "../helpers/sweptRun.ts";
import { plan } from "../processing/checks/rolled.ts";

const curve = (name: string, x: readonly number[], y: readonly (number | null)[]): Curve => ({ name, x: { label: "x", unit: "1", values: x }, y: { label: "y", unit: "1", values: y }, yUncertainty: null, method: "made" });
const drawn = (figure: ReturnType<typeof laneFigure>): string => figure.html;

describe("the lane of a run", () => {
  it("shows both scans, told apart in words, with missing heights left out", () => {
    const text = drawn(laneFigure(runResult(plan, {}, { curves: [curve("surfaceBefore", [0.1, 0.2, 0.3], [0.001, null, 0.003]), curve("surfaceAfter", [0.1, 0.2], [-0.012, -0.011])] })));
    expect(text).toContain("before, at 0.300 m: 3.0 mm");
    expect(text).toContain("after, at 0.200 m: -11.0 mm");
    expect(text).not.toContain("before, at 0.200 m");
    expect(text).toContain("height [mm]");
  });

  it("is not drawn where nothing was scanned", () => {
    expect(drawn(laneFigure(runResult(plan, {})))).toBe("");
  });
});

describe("a sweep", () => {
  const sweep = sweptRun("S1", (slip) => 0.45 * (1 - Math.exp(-slip / 0.18)) - 0.12);

  it("shows both ways with the lag taken off, and as measured behind them", () => {
    const text = drawn(sweepFigure(sweep));
    expect(text.match(/way up, lag taken off: slip/g)).toHaveLength(14);
    expect(text.match(/way down, lag taken off: slip/g)).toHaveLength(14);
    expect(text.match(/stroke-dasharray="1 4"/g)).toHaveLength(2);
    expect(text).toContain("hysteresis");
  });

  it("shows the ways as measured where the lag is not known, and is not drawn for other runs", () => {
    const text = drawn(sweepFigure({ ...sweep, curves: sweep.curves.slice(0, 2) }));
    expect(text).toContain("does not tell the lag");
    expect(text.match(/way up: slip/g)).toHaveLength(15);
    expect(drawn(sweepFigure(runResult(plan, {})))).toBe("");
  });
});
