import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { bandMarks, drawPlot, Plot, seriesStyle, zeroLine } from "../figures/drawPlot.ts";
import type { WheelOutcome } from "../../fitting/wheelPredictor.ts";
import type { SlipForecast } from "../../fitting/slipForecast.ts";
import { loadWords, outcomeColumns } from "./predictionWords.ts";
import type { Prediction } from "./prediction.ts";

/** Pull, torque, sinkage and efficiency over slip: a figure each, a series a load, bands drawn, slips outside the runs shaded. */
export function predictionFigures(prediction: Prediction): Html {
  const { drawn, card } = prediction;
  const styled = drawn.map((forecast, i) => ({ forecast, style: seriesStyle(i), label: loadWords(prediction, forecast, i) }));
  const slips = drawn.flatMap(({ rows }) => rows.map(({ slip }) => 100 * slip));
  const [from, to] = [Math.min(...slips), Math.max(...slips)];
  const [low, high] = card.validity.slip.map((slip) => 100 * slip) as [number, number];
  const shaded = [{ x1: from, x2: Math.min(low, to) }, { x1: Math.max(high, from), x2: to }].filter(({ x1, x2 }) => x2 > x1);
  return html`<div class="multiples wide">${outcomeColumns.map(({ key, name, unit, scale }) => drawPlot({
    title: `${name.charAt(0).toUpperCase()}${name.slice(1)} over slip`,
    description: `Foretold ${name} of wheel ${prediction.wheel.id} against slip at ${styled.map(({ label }) => label).join(", ")}, with 95 % bands; the numbers stand in the table`,
    width: 440,
    height: 300,
    x: { label: "slip (braked below zero) [%]", domain: [from, to] },
    y: { label: `${name} [${unit}]` },
    legend: styled,
    marks: [Plot.rectX(shaded, { x1: "x1", x2: "x2", fill: "var(--shade-zero)" }), zeroLine(), ...styled.flatMap(({ forecast, style }) => bandMarks(bandOf(forecast, key, scale), style))],
    ...(shaded.length > 0 && { note: "Shaded: slips outside the runs." }),
  }))}</div>`;
}

function bandOf({ rows }: SlipForecast, key: keyof WheelOutcome, scale: number): { x: number; value: number; low: number; high: number }[] {
  return rows.flatMap(({ slip, best, band }) => {
    const value = best?.[key] ?? Number.NaN;
    const interval = band[key];
    return Number.isFinite(value) && interval !== null ? [{ x: 100 * slip, value: scale * value, low: scale * interval[0], high: scale * interval[1] }] : [];
  });
}
