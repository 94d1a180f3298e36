import type { PullCurve } from "../../processing/dayResult.ts";
import type { DayResult } from "../../processing/dayResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct, extent, levels, measureOf } from "../pick.ts";
import { expandedUncertainty, showEstimate } from "../showEstimate.ts";
import { plainNumber } from "../words.ts";
import { bandMarks, drawPlot, Plot, pointMarks, seriesStyle, zeroLine } from "./drawPlot.ts";
import type { Bar } from "./drawPlot.ts";

/** Pull coefficient against slip, one small figure per wheel, all on the same scales so that wheels compare by eye. */
export function pullFigures(day: DayResult): Html {
  const loads = levels(day.pullCurves.map((curve) => curve.setLoadN));
  const points = new Map(day.pullCurves.map((curve) => [curve, curvePoints(day, curve)]));
  const all = [...points.values()].flat();
  const bands = day.pullCurves.flatMap((curve) => bandRows(curve));
  const yDomain = extent([0, ...all.flatMap((point) => [point.y - (point.yHalf ?? 0), point.y + (point.yHalf ?? 0)]), ...bands.flatMap((row) => [row.low, row.high])]);
  const xDomain = extent([0, ...all.map((point) => point.x), ...bands.map((row) => row.x)]);
  const wheels = distinct(day.pullCurves.map((curve) => curve.wheel));
  const figures = wheels.map((wheel) => {
    const curves = day.pullCurves.filter((curve) => curve.wheel === wheel);
    const styled = curves.map((curve) => ({ curve, style: seriesStyle(loads.indexOf(curve.setLoadN)) }));
    const open = curves.filter((curve) => curve.fit.verdict === "undetermined").map((curve) => `${plainNumber(curve.setLoadN)} N: no curve, ${curve.fit.sentence}`);
    return drawPlot({
      title: `Wheel ${wheel}`,
      description: `Drawbar pull coefficient against slip of wheel ${wheel}, ${curves.length} loads, measured points and fitted curves`,
      x: { label: "slip [%]", domain: xDomain },
      y: { label: "pull coefficient [–]", domain: yDomain },
      legend: styled.map(({ curve, style }) => ({ label: `${plainNumber(curve.setLoadN)} N`, style })),
      marks: [zeroLine(), ...styled.flatMap(({ curve, style }) => bandMarks(bandRows(curve), style)), ...styled.flatMap(({ curve, style }) => pointMarks(points.get(curve) ?? [], style))],
      ...(open.length > 0 && { note: open.join(" ") }),
    });
  });
  return html`<div class="multiples">${figures}</div>`;
}

/** Pull coefficient at one stated slip: a row per wheel, a marker per load, the 95 % interval drawn. */
export function wheelComparison(day: DayResult, slip: number): Html {
  const loads = levels(day.pullCurves.map((curve) => curve.setLoadN));
  const wheels = distinct(day.pullCurves.map((curve) => curve.wheel));
  const rows = day.pullCurves.flatMap((curve) => {
    const estimate = curve.atSlip.find((point) => point.slip === slip)?.estimate;
    const expanded = estimate === undefined ? null : expandedUncertainty(estimate);
    if (estimate === undefined || expanded === null) return [];
    return [{ wheel: curve.wheel, load: curve.setLoadN, value: estimate.value, low: estimate.value - expanded.half, high: estimate.value + expanded.half, title: `${curve.wheel}, ${plainNumber(curve.setLoadN)} N: ${showEstimate(estimate).text}` }];
  });
  if (rows.length === 0) return html``;
  const longest = Math.max(...wheels.map((wheel) => wheel.length));
  const step = Math.min(9, 30 / loads.length);
  return drawPlot({
    title: `Pull coefficient at ${plainNumber(slip * 100)} % slip, with its 95 % interval`,
    description: `Pull coefficient at ${plainNumber(slip * 100)} % slip for ${wheels.length} wheels and ${loads.length} loads; the numbers stand in the table beside it`,
    width: 430,
    height: 76 + wheels.length * 40,
    marginLeft: Math.min(170, 24 + longest * 7),
    x: { label: "pull coefficient [–]", domain: extent(rows.flatMap((row) => [row.low, row.high])) },
    y: { label: null, domain: wheels, type: "band" } as Plot.ScaleOptions,
    legend: loads.map((load, index) => ({ label: `${plainNumber(load)} N`, style: seriesStyle(index) })),
    marks: loads.flatMap((load, index) => {
      const style = seriesStyle(index);
      const dy = (index - (loads.length - 1) / 2) * step;
      const mine = rows.filter((row) => row.load === load);
      return [
        Plot.ruleY(mine, { y: "wheel", x1: "low", x2: "high", stroke: style.color, strokeWidth: 1.8, dy }),
        Plot.dot(mine, { y: "wheel", x: "value", symbol: style.symbol, stroke: style.color, fill: "var(--paper)", strokeWidth: 1.5, r: 3.5, dy, title: "title" }),
      ];
    }),
  });
}

function curvePoints(day: DayResult, curve: PullCurve): Bar[] {
  return curve.fit.points.map((point) => {
    const run = day.runs.find((candidate) => candidate.plan.id === point.run);
    const slip = run === undefined ? undefined : (measureOf(run, "slip") ?? measureOf(run, "skid"))?.estimate.standardUncertainty;
    return {
      x: point.x * 100,
      y: point.y,
      xHalf: typeof slip === "number" ? 200 * slip : null,
      yHalf: point.yUncertainty === null ? null : 2 * point.yUncertainty,
      kept: point.kept,
      title: `${point.run}${point.kept ? "" : `: not used, ${point.reason}`}`,
    };
  });
}

function bandRows(curve: PullCurve): { x: number; value: number; low: number; high: number }[] {
  const { band } = curve;
  if (band === null) return [];
  return band.x.map((x, index) => ({ x: x * 100, value: band.value[index] as number, low: band.low[index] as number, high: band.high[index] as number }));
}
