import type { DayResult } from "../../processing/dayResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { extent } from "../pick.ts";
import { drawPlot, Plot, seriesStyle } from "./drawPlot.ts";

/** Where in each bed the cone was pushed, and what it found there; a bed whose readings state no place is not drawn. */
export function coneMap(day: DayResult): Html {
  const beds = day.cones.map(({ bed, profiles }) => ({ bed, points: profiles.flatMap(({ position, place, indexPa }) => (place === null ? [] : [{ x: place.xM, y: place.yM, kPa: indexPa / 1000, position }])) })).filter(({ points }) => points.length > 0);
  if (beds.length === 0) return html``;
  const all = beds.flatMap(({ points }) => points);
  const [x, y] = [roomy(all.map((point) => point.x)), roomy(all.map((point) => point.y))];
  const style = seriesStyle(0);
  return html`<div class="multiples small">${beds.map(({ bed, points }) =>
    drawPlot({
      title: `Bed ${bed}, from above`,
      description: `Mean cone index at ${points.length} places of bed ${bed}: ${points.map((point) => `${point.position} ${point.kPa.toFixed(0)} kPa`).join(", ")}`,
      width: 290,
      height: 190,
      x: { label: "along the bed [m]", domain: x, ticks: 4 },
      y: { label: "across the bed [m]", domain: y, ticks: 4 },
      marks: [
        Plot.dot(points, { x: "x", y: "y", symbol: style.symbol, r: 4, fill: "var(--paper)", stroke: style.color, title: (point: (typeof points)[number]) => `${point.position}: ${point.kPa.toFixed(1)} kPa` }),
        Plot.text(points, { x: "x", y: "y", text: (point: { kPa: number }) => point.kPa.toFixed(0), dy: -12, fill: "currentColor" }),
      ],
    }),
  )}</div><p class="fignote">Numbers: mean cone index of the profile there [kPa]. What a bed’s profiles scatter is the uncertainty of its mean.</p>`;
}

/** With room for the numbers beside the outermost points. */
function roomy(values: readonly number[]): [number, number] {
  const [low, high] = extent(values);
  const room = 0.12 * (high - low);
  return [low - room, high + room];
}
