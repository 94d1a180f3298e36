import type { Band, DayResult, PullCurve } from "../../processing/dayResult.ts";
import { expandedUncertainty } from "../../processing/expandedUncertainty.ts";
import { loadAndPass } from "../curveName.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct, extent, levels, measureOf, wheelOrder } from "../pick.ts";
import { showEstimate } from "../showEstimate.ts";
import { plainNumber } from "../words.ts";
import { bandMarks, drawPlot, edgeMarks, Plot, pointMarks, seriesStyle, zeroLine } from "./drawPlot.ts";
import type { Bar } from "./drawPlot.ts";

/** Pull coefficient against slip on common scales: a figure per wheel with a series per load, then a figure per load with a series per wheel. */
export function pullFigures(day: DayResult): { readonly byWheel: Html; readonly byLoad: Html } {
  const loads = levels(day.pullCurves.map((curve) => curve.setLoadN));
  const loadNames = distinct([...day.pullCurves].sort((a, b) => a.pass - b.pass || a.setLoadN - b.setLoadN).map(loadAndPass));
  const wheels = wheelOrder(day, day.pullCurves.map((curve) => curve.wheel));
  const drawn = day.pullCurves.map((curve) => ({ curve, points: curvePoints(day, curve), band: bandRows(curve.band), whole: bandRows(curve.simultaneousBand) }));
  const points = drawn.flatMap((entry) => entry.points);
  const bands = drawn.flatMap((entry) => [...entry.band, ...entry.whole]);
  const yDomain = extent([0, ...points.flatMap((point) => [point.y - (point.yHalf ?? 0), point.y + (point.yHalf ?? 0)]), ...bands.flatMap((row) => [row.low, row.high])]);
  const xDomain = extent([0, ...points.map((point) => point.x), ...bands.map((row) => row.x)]);
  const figure = (title: string, entries: typeof drawn, label: (curve: PullCurve) => string, place: (curve: PullCurve) => number): Html => {
    const styled = entries.map((entry) => ({ ...entry, style: seriesStyle(place(entry.curve)) })).sort((a, b) => place(a.curve) - place(b.curve));
    const open = entries.filter(({ curve }) => curve.fit.verdict === "undetermined").map(({ curve }) => `${label(curve)}: no curve. ${curve.fit.sentence}`);
    return drawPlot({
      title,
      description: `Drawbar pull coefficient against slip, ${title}: measured points and fitted curves of ${entries.map(({ curve }) => label(curve)).join(", ")}`,
      height: 300,
      x: { label: "slip (skid below zero) [%]", domain: xDomain },
      y: { label: "pull coefficient [–]", domain: yDomain },
      legend: styled.map(({ curve, style }) => ({ label: label(curve), style })),
      marks: [zeroLine(), ...styled.flatMap(({ band, whole, style }) => [...bandMarks(band, style), ...edgeMarks(whole, style)]), ...styled.flatMap((entry) => pointMarks(entry.points, entry.style))],
      ...(open.length > 0 && { note: open.join(" ") }),
    });
  };
  const byWheel = wheels.map((wheel) => figure(`Wheel ${wheel}`, drawn.filter(({ curve }) => curve.wheel === wheel), loadAndPass, (curve) => loadNames.indexOf(loadAndPass(curve))));
  const byLoad = loads.map((load) => figure(`Load ${plainNumber(load)} N`, drawn.filter(({ curve }) => curve.setLoadN === load && curve.pass === 1), (curve) => curve.wheel, (curve) => wheels.indexOf(curve.wheel)));
  return { byWheel: html`<div class="multiples">${byWheel}</div>`, byLoad: html`<div class="multiples">${byLoad}</div>` };
}

/** Pull coefficient at one stated slip: a row per wheel, a marker per load, the 95 % interval drawn. */
export function wheelComparison(day: DayResult, slip: number): Html {
  const loads = levels(day.pullCurves.map((curve) => curve.setLoadN));
  const wheels = wheelOrder(day, day.pullCurves.map((curve) => curve.wheel));
  const rows = day.pullCurves.filter((curve) => curve.pass === 1).flatMap((curve) => {
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

function bandRows(band: Band | null): { x: number; value: number; low: number; high: number }[] {
  if (band === null) return [];
  return band.x.map((x, index) => ({ x: x * 100, value: band.value[index] as number, low: band.low[index] as number, high: band.high[index] as number }));
}
