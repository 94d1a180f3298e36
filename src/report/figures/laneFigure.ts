import type { RunResult } from "../../processing/dayResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { extent } from "../pick.ts";
import { drawPlot, lineMark, pointMarks, seriesStyle } from "./drawPlot.ts";

/** The scanned lane of a run before and after the wheel went over it; nothing where it was not scanned. */
export function laneFigure(run: RunResult): Html {
  const series = [["surfaceBefore", "before"], ["surfaceAfter", "after"]].flatMap(([name, label], index) => {
    const curve = run.curves.find((candidate) => candidate.name === name);
    if (curve === undefined) return [];
    const rows = curve.x.values.flatMap((x, i) => {
      const y = curve.y.values[i];
      return typeof x === "number" && typeof y === "number" ? [{ x, y: 1000 * y, kept: true, title: `${label}, at ${x.toFixed(3)} m: ${(1000 * y).toFixed(1)} mm` }] : [];
    });
    return [{ label: `${label} the run`, style: seriesStyle(index), rows }];
  });
  if (series.length === 0) return html``;
  return html`<h4>The lane</h4>${drawPlot({
    title: "Surface of the lane within the wheel’s width",
    description: `Height of the scanned surface along the lane, ${series.map(({ label }) => label).join(" and ")}`,
    width: 440,
    height: 220,
    x: { label: "position along the lane [m]" },
    y: { label: "height [mm]", domain: extent(series.flatMap(({ rows }) => rows.map((row) => row.y))) },
    legend: series.map(({ label, style }) => ({ label, style })),
    marks: series.flatMap(({ rows, style }) => [lineMark(rows, style), ...pointMarks(rows, style)]),
    note: "The way of the wheel is many times longer than it is deep: heights are drawn larger than lengths. Slope of the bed and rut depth stand among the measures.",
  })}`;
}
