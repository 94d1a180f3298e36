import type { DayResult } from "../../processing/dayResult.ts";
import { expandedUncertainty } from "../../processing/expandedUncertainty.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct, extent } from "../pick.ts";
import { showEstimate } from "../showEstimate.ts";
import { drawPlot, lineMark, Plot, pointMarks, seriesStyle } from "./drawPlot.ts";

/** Cone index gradient of every bed with its 95 % interval, and the bed's target. */
export function gradientFigure(day: DayResult): Html {
  const rows = day.cones.flatMap((cone) => {
    const expanded = expandedUncertainty(cone.gradient);
    if (expanded === null) return [];
    const value = cone.gradient.value / 1e6;
    return [{ bed: cone.bed, value, low: value - expanded.half / 1e6, high: value + expanded.half / 1e6, title: `${cone.bed}: ${showEstimate(cone.gradient).text} kPa/mm` }];
  });
  if (rows.length === 0) return html``;
  const targets = day.campaign.beds.flatMap((bed) => (bed.targetGradientPaM === null ? [] : [{ bed: bed.id, value: bed.targetGradientPaM / 1e6 }]));
  const beds = distinct(rows.map((row) => row.bed));
  const style = seriesStyle(0);
  const crowded = beds.length > 12;
  return drawPlot({
    title: "Cone index gradient of each bed, with its 95 % interval",
    description: `Cone index gradient of ${beds.length} beds against their targets; the numbers stand in the table below`,
    width: 860,
    height: 240,
    x: { label: "bed [name]", domain: beds, type: "band", ...(crowded && { tickRotate: -60 }) } as Plot.ScaleOptions,
    y: { label: "cone index gradient [kPa/mm]", domain: extent([...rows.flatMap((row) => [row.low, row.high]), ...targets.map((target) => target.value)]) },
    marginBottom: 62,
    marks: [
      Plot.tickY(targets.filter((target) => beds.includes(target.bed)), { x: "bed", y: "value", stroke: "var(--series-2)", strokeWidth: 2 }),
      Plot.ruleX(rows, { x: "bed", y1: "low", y2: "high", stroke: style.color, strokeWidth: 1.6 }),
      Plot.dot(rows, { x: "bed", y: "value", symbol: style.symbol, stroke: style.color, fill: "var(--paper)", r: 3, title: "title" }),
    ],
    note: "Circle: measured; flat line: the bed’s target.",
  });
}

/** Cone index against depth, one figure per bed, a line per position. */
export function coneFigures(day: DayResult): Html {
  const beds = distinct(day.campaign.cones.map((cone) => cone.bed));
  const xDomain = extent([0, ...day.campaign.cones.map((cone) => cone.indexPa / 1000)]);
  const deepest = extent([0, ...day.campaign.cones.map((cone) => cone.depthM * 1000)])[1];
  return html`<div class="multiples small">${beds.map((bed) => {
    const readings = day.campaign.cones.filter((cone) => cone.bed === bed);
    const positions = distinct(readings.map((cone) => cone.position));
    const series = positions.map((position, index) => ({
      label: position,
      style: seriesStyle(index),
      rows: readings.filter((cone) => cone.position === position).map((cone) => ({ x: cone.indexPa / 1000, y: cone.depthM * 1000, kept: true, title: `${position}, line ${cone.line}` })),
    }));
    return drawPlot({
      title: `Bed ${bed}`,
      description: `Cone index against depth in bed ${bed}, ${positions.length} positions`,
      width: 290,
      height: 230,
      x: { label: "cone index [kPa]", domain: xDomain },
      y: { label: "depth [mm]", domain: [deepest, 0] },
      legend: series.map(({ label, style }) => ({ label, style })),
      marks: series.flatMap(({ rows, style }) => [lineMark(rows, style), ...pointMarks(rows, style)]),
    });
  })}</div>`;
}
