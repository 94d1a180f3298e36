import { showUnit } from "../../core/units.ts";
import type { Curve, RunResult } from "../../processing/dayResult.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { extent } from "../pick.ts";
import { drawPlot, lineMark, Plot, seriesStyle } from "./drawPlot.ts";

/** The mean revolution of pull, load and torque, and the pull's spectrum, of one run; nothing where the run has none. */
export function rippleFigures(run: RunResult): Html {
  const turned = ["pullByAngle", "loadByAngle", "torqueByAngle"].flatMap((name) => run.curves.filter((curve) => curve.name === name));
  const spectrum = run.curves.find((curve) => curve.name === "pullSpectrum");
  if (turned.length === 0) return html``;
  return html`<h4>Round the wheel</h4><div class="multiples small">${each(turned, (curve, index) => byAngle(curve, index))}${spectrum !== undefined && spectrumFigure(spectrum)}</div><p class="fignote">Mean of the revolutions at each angle of the wheel; shade: ± 2 standard uncertainties of that mean.</p>`;
}

function byAngle(curve: Curve, index: number): Html {
  const style = seriesStyle(index);
  const rows = curve.x.values.flatMap((x, i) => {
    const y = curve.y.values[i];
    const half = 2 * (curve.yUncertainty?.[i] ?? 0);
    return x === null || y === null || y === undefined ? [] : [{ x: (x * 180) / Math.PI, y, low: y - half, high: y + half }];
  });
  return drawPlot({
    title: capital(curve.y.label),
    description: `${curve.y.label} against the angle of the wheel: ${curve.method}`,
    width: 290,
    height: 190,
    x: { label: "wheel angle [°]", domain: [0, 360], ticks: [0, 90, 180, 270, 360] },
    y: { label: `${curve.y.label} [${showUnit(curve.y.unit)}]`, domain: extent(rows.flatMap((row) => [row.low, row.high])) },
    marks: [Plot.areaY(rows, { x: "x", y1: "low", y2: "high", fill: style.color, fillOpacity: 0.2 }), lineMark(rows, { ...style, dash: "none" })],
  });
}

function spectrumFigure(curve: Curve): Html {
  const rows = curve.x.values.map((x, i) => ({ x: x ?? Number.NaN, y: curve.y.values[i] ?? Number.NaN }));
  return drawPlot({
    title: "Spectrum of the pull",
    description: `Amplitude of the pull against frequency: ${curve.method}`,
    width: 290,
    height: 190,
    x: { label: "frequency [Hz]" },
    y: { label: `amplitude [${showUnit(curve.y.unit)}]`, domain: [0, extent(rows.map((row) => row.y))[1]] },
    marks: [lineMark(rows, { ...seriesStyle(0), dash: "none" })],
  });
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
