import * as Plot from "@observablehq/plot";
import { parseHTML } from "linkedom";
import { each, escapeText, html, raw } from "../html.ts";
import type { Html } from "../html.ts";

/** How one series looks: told apart by colour, by marker and by dash, so that any one of them is enough. */
export interface SeriesStyle {
  readonly color: string;
  readonly symbol: "circle" | "square" | "triangle" | "diamond" | "plus" | "times";
  readonly dash: string;
}

const symbols = ["circle", "square", "triangle", "diamond", "plus", "times"] as const;
const dashes = ["none", "7 3", "2 3", "9 3 2 3", "4 4", "1 2"] as const;

export function seriesStyle(index: number): SeriesStyle {
  const place = index % symbols.length;
  return { color: `var(--series-${place + 1})`, symbol: symbols[place] as SeriesStyle["symbol"], dash: dashes[place] as string };
}

export interface FigureOptions {
  readonly title: string;
  /** what a reader who cannot see the figure is told */
  readonly description: string;
  readonly width?: number;
  readonly height?: number;
  readonly x: Plot.ScaleOptions;
  readonly y: Plot.ScaleOptions;
  readonly marginLeft?: number;
  readonly marginBottom?: number;
  readonly marks: readonly Plot.Markish[];
  readonly legend?: readonly { readonly label: string; readonly style: SeriesStyle }[];
  readonly note?: string;
}

/** A figure as static SVG: same values, same bytes. Axis labels must carry their unit. */
export function drawPlot(options: FigureOptions): Html {
  const { document } = parseHTML("<!doctype html><html><body></body></html>");
  const drawn = Plot.plot({
    document: document as never,
    width: options.width ?? 380,
    height: options.height ?? 260,
    marginLeft: options.marginLeft ?? 52,
    marginBottom: options.marginBottom ?? 40,
    marginTop: 26,
    marginRight: 14,
    style: { fontSize: "11.5px" },
    x: { labelAnchor: "right", labelArrow: "none", grid: true, ...options.x },
    y: { labelArrow: "none", grid: true, ...options.y },
    marks: [...options.marks],
  }) as unknown as { outerHTML: string; setAttribute(name: string, value: string): void };
  drawn.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  const legend = options.legend ?? [];
  return html`<figure><figcaption>${options.title}</figcaption>${legend.length > 0 && html`<ul class="legend">${each(legend, (entry) => html`<li>${legendMark(entry.style)}${entry.label}</li>`)}</ul>`}${raw(shorten(drawn.outerHTML).replace("<svg ", () => `<svg role="img" aria-label="${escapeText(options.description)}" `))}${options.note !== undefined && html`<p class="fignote">${options.note}</p>`}</figure>`;
}

export interface Bar {
  readonly x: number;
  readonly y: number;
  readonly xHalf?: number | null;
  readonly yHalf?: number | null;
  readonly title: string;
  readonly kept: boolean;
}

/** Measured points with their error bars; refused points stand as grey crosses so that nothing is hidden. */
export function pointMarks(points: readonly Bar[], style: SeriesStyle, dx = 0): Plot.Markish[] {
  // Where points stand shoulder to shoulder, small ones let the curve be seen.
  const dense = points.length > 60;
  const dot = { r: dense ? 1.4 : 3, strokeWidth: dense ? 0.9 : 1.4, dx };
  const kept = points.filter((point) => point.kept);
  const refused = points.filter((point) => !point.kept);
  const upright = kept.filter((point) => typeof point.yHalf === "number" && Number.isFinite(point.yHalf) && point.yHalf > 0);
  const level = kept.filter((point) => typeof point.xHalf === "number" && Number.isFinite(point.xHalf) && point.xHalf > 0);
  return [
    Plot.ruleX(upright, { x: "x", y1: (point: Bar) => point.y - (point.yHalf as number), y2: (point: Bar) => point.y + (point.yHalf as number), stroke: style.color, strokeWidth: 1, strokeOpacity: dense ? 0.35 : 0.8, dx }),
    Plot.ruleY(level, { y: "y", x1: (point: Bar) => point.x - (point.xHalf as number), x2: (point: Bar) => point.x + (point.xHalf as number), stroke: style.color, strokeWidth: 1, strokeOpacity: 0.8, dx }),
    Plot.dot(kept, { x: "x", y: "y", symbol: style.symbol, stroke: style.color, fill: "var(--paper)", title: "title", ...dot }),
    Plot.dot(refused, { x: "x", y: "y", symbol: "times", stroke: "var(--faint)", title: "title", ...dot }),
  ];
}

/** A fitted curve and its band. */
export function bandMarks(rows: readonly { readonly x: number; readonly value: number; readonly low: number; readonly high: number }[], style: SeriesStyle): Plot.Markish[] {
  return [
    Plot.areaY(rows, { x: "x", y1: "low", y2: "high", fill: style.color, fillOpacity: 0.14 }),
    Plot.lineY(rows, { x: "x", y: "value", stroke: style.color, strokeWidth: 1.6, strokeDasharray: style.dash }),
  ];
}

/** The two edges of a band, thin. */
export function edgeMarks(rows: readonly { readonly x: number; readonly low: number; readonly high: number }[], style: SeriesStyle): Plot.Markish[] {
  return ["low", "high"].map((y) => Plot.lineY(rows, { x: "x", y, stroke: style.color, strokeWidth: 0.7, strokeOpacity: 0.7, strokeDasharray: "1 2" }));
}

export function lineMark(rows: readonly { readonly x: number; readonly y: number }[], style: SeriesStyle): Plot.Markish {
  return Plot.line(rows, { x: "x", y: "y", stroke: style.color, strokeWidth: 1.4, strokeDasharray: style.dash });
}

export function zeroLine(): Plot.Markish {
  return Plot.ruleY([0], { stroke: "var(--faint)" });
}

export { Plot };

/** A marker on a piece of line, for legends and tables. */
export function legendMark(style: SeriesStyle): Html {
  const marker = { circle: '<circle cx="13" cy="6" r="3.2"/>', square: '<path d="M10 3h6v6h-6z"/>', triangle: '<path d="M13 2l3.6 6.4H9.4z"/>', diamond: '<path d="M13 1.6l3.2 4.4L13 10.4 9.8 6z"/>', plus: '<path d="M13 2.5v7M9.5 6h7"/>', times: '<path d="M10.4 3.4l5.2 5.2M15.6 3.4l-5.2 5.2"/>' }[style.symbol];
  return raw(
    `<svg xmlns="http://www.w3.org/2000/svg" width="26" height="12" aria-hidden="true"><path d="M0 6h26" stroke="${style.color}" stroke-width="1.6" stroke-dasharray="${style.dash}"/><g fill="var(--paper)" stroke="${style.color}" stroke-width="1.5">${marker}</g></svg>`,
  );
}

/** Tenths of a pixel are enough, and the same style sheet need not stand in every figure. */
function shorten(svg: string): string {
  return svg.replace(/<style>[\s\S]*?<\/style>/, "").replace(/-?\d+\.\d{3,}(?=[^"<>]*")/g, (number) => String(Math.round(Number(number) * 10) / 10));
}
