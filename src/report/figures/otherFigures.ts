import type { DayResult } from "../../processing/dayResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct, extent } from "../pick.ts";
import { drawPlot, lineMark, pointMarks, seriesStyle, zeroLine } from "./drawPlot.ts";

/** Load against deflection of every wheel on a hard plate. */
export function deflectionFigures(day: DayResult): Html {
  const xDomain = extent([0, ...day.deflections.flatMap((curve) => curve.deflectionM.map((value) => value * 1000))]);
  const yDomain = extent([0, ...day.deflections.flatMap((curve) => curve.loadN)]);
  return html`<div class="multiples">${day.deflections.map((curve, index) => {
    const style = seriesStyle(index);
    const rows = curve.loadN.map((load, i) => ({ x: (curve.deflectionM[i] as number) * 1000, y: load, xHalf: 2000 * (curve.uncertaintyM[i] as number), kept: true, title: curve.runs.join(", ") }));
    return drawPlot({
      title: `Wheel ${curve.wheel}`,
      description: `Load against deflection of wheel ${curve.wheel} on a hard plate`,
      height: 220,
      x: { label: "deflection [mm]", domain: xDomain },
      y: { label: "load [N]", domain: yDomain },
      marks: [zeroLine(), lineMark(rows, style), ...pointMarks(rows, style)],
      note: `Runs ${curve.runs.join(", ")}. Points joined by straight lines, no fit.`,
    });
  })}</div>`;
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
