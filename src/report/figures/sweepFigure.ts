import type { Curve, RunResult } from "../../processing/dayResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { extent } from "../pick.ts";
import { drawPlot, lineMark, pointMarks, seriesStyle } from "./drawPlot.ts";

/** Pull coefficient over slip on the way up and the way down, as measured and with the lag taken off; nothing for other runs. */
export function sweepFigure(run: RunResult, title = "Pull coefficient over slip, one point a revolution"): Html {
  const series = [["pullUp", "way up", "pullUpLagOff"], ["pullDown", "way down", "pullDownLagOff"]].flatMap(([measured, label, lagOff], index) => {
    const [rows, still] = [rowsOf(run, measured as string, label as string), rowsOf(run, lagOff as string, `${label}, lag taken off`)];
    return rows.length === 0 ? [] : [{ label: label as string, rows, still, style: seriesStyle(index) }];
  });
  if (series.length === 0) return html``;
  const whole = series.some(({ still }) => still.length > 0);
  const all = series.flatMap(({ rows, still }) => [...rows, ...still]);
  return drawPlot({
    title,
    description: `Pull coefficient against slip on the ${series.map(({ label }) => label).join(" and the ")}, as measured${whole ? " and with the lag taken off" : ""}`,
    width: 440,
    height: 300,
    x: { label: "slip [%]", domain: extent(all.map((row) => row.x)) },
    y: { label: "pull coefficient [–]", domain: extent(all.map((row) => row.y)) },
    legend: series.map(({ label, style }) => ({ label, style })),
    marks: series.flatMap(({ rows, still, style }) => [lineMark(rows, { ...style, dash: whole ? "1 4" : style.dash }), ...(whole ? [lineMark(still, style), ...pointMarks(still, style)] : pointMarks(rows, style))]),
    note: whole ? "Dots and their lines: the lag between slip and pull taken off; what then parts the ways is hysteresis. Dotted: as measured." : "As measured: the sweep does not tell the lag from the hysteresis.",
  });
}

function rowsOf(run: RunResult, name: string, label: string): { x: number; y: number; kept: boolean; title: string }[] {
  const curve: Curve | undefined = run.curves.find((candidate) => candidate.name === name);
  return (curve?.x.values ?? []).flatMap((x, i) => {
    const y = curve?.y.values[i];
    return typeof x === "number" && typeof y === "number" ? [{ x: 100 * x, y, kept: true, title: `${label}: slip ${(100 * x).toFixed(1)} %, pull coefficient ${y.toFixed(3)}` }] : [];
  });
}
