import type { DayResult } from "../../processing/dayResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { extent } from "../pick.ts";
import { bandMarks, drawPlot, Plot, seriesStyle } from "./drawPlot.ts";

/** Chance of getting over against height, a figure per wheel and edge: trials, curve, band, and the intervals of the heights. */
export function climbFigures(day: DayResult): Html {
  const xDomain = extent(day.climbCurves.flatMap((curve) => [...(curve.band?.x ?? []), ...curve.fit.points.map((point) => point.x)]).map((x) => x * 1000));
  return html`<div class="multiples">${day.climbCurves.map((curve, index) => {
    const style = seriesStyle(index);
    const { band } = curve;
    const rows = band === null ? [] : band.x.map((x, i) => ({ x: x * 1000, value: band.value[i] as number, low: band.low[i] as number, high: band.high[i] as number }));
    // Trials at one height stand side by side, so that each can be counted.
    const beside = curve.fit.points.map((point, i, all) => ({ kept: point.kept, x: point.x * 1000, y: point.y === 1 ? 1 + 0.035 * earlier(all, i) : -0.035 * earlier(all, i), title: `${point.run}${point.kept ? "" : `: not used, ${point.reason}`}` }));
    // Cut at the frame: an interval may reach far beyond the heights tried, and would run over the axis.
    const [least = 0, most = 0] = xDomain;
    const shown = curve.heights.filter(({ low, high }) => low !== null && high !== null).map(({ chance, low, high }) => ({ y: chance, x1: Math.max(least, (low as number) * 1000), x2: Math.min(most, (high as number) * 1000) })).filter(({ x1, x2 }) => x1 < x2);
    return drawPlot({
      title: `Wheel ${curve.wheel}, ${curve.edge === "rock" ? "rock" : `${curve.edge} edge`}`,
      description: `Chance of wheel ${curve.wheel} getting over against the obstacle's height: ${curve.climbed} trials that did, ${curve.failed} that did not`,
      x: { label: "obstacle height [mm]", domain: xDomain },
      y: { label: "chance of getting over [–]", domain: [-0.3, 1.3], ticks: [0, 0.5, 0.9, 1] },
      marks: [
        ...bandMarks(rows, style),
        Plot.ruleY(shown, { y: "y", x1: "x1", x2: "x2", stroke: style.color, strokeWidth: 2 }),
        Plot.dot(beside.filter((point) => point.kept), { x: "x", y: "y", symbol: style.symbol, stroke: style.color, fill: "var(--paper)", r: 3, title: "title" }),
        Plot.dot(beside.filter((point) => !point.kept && Number.isFinite(point.y)), { x: "x", y: "y", symbol: "times", stroke: "var(--faint)", r: 3, title: "title" }),
      ],
      note: curve.fit.verdict === "determined" ? "Marks above: got over; below: did not. Level bars: 95 % intervals of the heights for 50 % and 90 %, cut where they pass the heights tried; the table has them whole." : "Marks above: got over; below: did not. No curve.",
    });
  })}</div>`;
}

/** How many points before this one stand at its height with its outcome. */
function earlier(points: readonly { readonly x: number; readonly y: number }[], index: number): number {
  const here = points[index] as { readonly x: number; readonly y: number };
  return points.slice(0, index).filter((point) => point.x === here.x && point.y === here.y).length;
}
