import type { Band, DayResult } from "../../processing/dayResult.ts";
import type { WheelForecast, WheelQuantityName, WheelSoilResult } from "../../processing/wheelSoilResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { extent, spread, wheelOrder } from "../pick.ts";
import { plainNumber } from "../words.ts";
import type { SeriesStyle } from "./drawPlot.ts";
import { bandMarks, drawPlot, Plot, pointMarks, seriesStyle, zeroLine } from "./drawPlot.ts";

const words: Readonly<Record<WheelQuantityName, { readonly title: string; readonly axis: string }>> = {
  pull: { title: "pull", axis: "pull / load [–]" },
  torque: { title: "torque", axis: "torque / (radius × load) [–]" },
  sinkage: { title: "sinkage", axis: "sinkage / radius [–]" },
};
const twoSided95 = 1.959963984540054;

/** A measured point and what a fit foretold that had not seen its load. */
interface Unseen {
  readonly x: number;
  readonly measured: number;
  readonly foretold: number;
  readonly outside: boolean;
  readonly title: string;
}
/** of the posterior's draws; more only thicken the ink */
const drawnDraws = 250;
/** the parameters whose pairs are drawn, by symbol */
const paired = ["p₁₀", "n", "c", "φ", "K"];

/** Measured points and forecasts with their bands: a figure a wheel and quantity, a series a load. */
export function forecastFigures(day: DayResult, { forecasts, points: fitted }: WheelSoilResult): Html {
  const unseen = (forecast: WheelForecast, quantity: WheelQuantityName): Unseen[] => forecast.points[quantity].flatMap(({ run, slip, measured }) => {
    const held = fitted.find((point) => point.run === run && point.quantity === quantity)?.unseen ?? null;
    return held === null ? [] : [{ x: 100 * slip, measured, foretold: held.foretold, outside: Math.abs(measured - held.foretold) > twoSided95 * held.uncertainty, title: `${run}, load not seen` }];
  });
  const wheels = wheelOrder(day, forecasts.map(({ wheel }) => wheel));
  const quantities = Object.keys(words) as WheelQuantityName[];
  const domains = new Map(quantities.map((quantity) => [quantity, extent([0, ...forecasts.flatMap(({ points, bands }) => [...points[quantity].map(({ measured }) => measured), ...[...bands[quantity].low, ...bands[quantity].high].filter(Number.isFinite)])])]));
  const figure = (wheel: string, quantity: WheelQuantityName): Html => {
    const mine = forecasts.filter((forecast) => forecast.wheel === wheel).sort((a, b) => a.loadN - b.loadN);
    const styled = mine.map((forecast, i) => ({ forecast, style: seriesStyle(i) }));
    return drawPlot({
      title: `Wheel ${wheel}: ${words[quantity].title}`,
      description: `Measured and foretold ${words[quantity].title} of wheel ${wheel} against slip at ${mine.map(loadName).join(", ")}, with 95 % bands`,
      width: 300,
      height: 230,
      x: { label: "slip (braked below zero) [%]" },
      y: { label: words[quantity].axis, domain: domains.get(quantity) as [number, number] },
      legend: styled.map(({ forecast, style }) => ({ label: loadName(forecast), style })),
      marks: [zeroLine(), ...styled.flatMap(({ forecast, style }) => bandMarks(rows(forecast.bands[quantity]), style)), ...styled.flatMap(({ forecast, style }) => pointMarks(forecast.points[quantity].map((point) => ({ x: 100 * point.slip, y: point.measured, yHalf: 2 * point.uncertainty, title: point.run, kept: true })), style)), ...styled.flatMap(({ forecast, style }) => unseenMarks(unseen(forecast, quantity), style))],
    });
  };
  return html`<div class="multiples">${wheels.flatMap((wheel) => quantities.map((quantity) => figure(wheel, quantity)))}</div>`;
}

/** Draws of the posterior, pair by pair: a narrow slanted cloud is two constants that are known together only. */
export function pairFigures({ parameters, posterior }: WheelSoilResult): Html {
  const chosen = paired.flatMap((symbol) => {
    const at = parameters.findIndex((parameter) => parameter.symbol === symbol);
    return at < 0 ? [] : [{ symbol, at }];
  });
  const draws = spread(posterior.draws, drawnDraws);
  const label: Readonly<Record<string, string>> = { "p₁₀": "ln p₁₀ [ln kPa]", n: "n [–]", c: "c [kPa]", "φ": "φ [deg]", K: "ln K [ln mm]" };
  const style = seriesStyle(0);
  return html`<div class="multiples">${chosen.flatMap((x, i) => chosen.slice(i + 1).map((y) => drawPlot({
    title: `${x.symbol} and ${y.symbol}`,
    description: `Draws of the posterior of ${x.symbol} and ${y.symbol}`,
    width: 240,
    height: 190,
    x: { label: label[x.symbol] ?? x.symbol },
    y: { label: label[y.symbol] ?? y.symbol },
    marks: [Plot.dot(draws.map((draw) => ({ x: draw[x.at] as number, y: draw[y.at] as number })), { x: "x", y: "y", r: 1.3, fill: style.color, fillOpacity: 0.45 })],
  })))}</div>`;
}

/** Small crosses for the forecasts, rings round the measured points outside them. */
function unseenMarks(all: readonly Unseen[], style: SeriesStyle): Plot.Markish[] {
  return [
    Plot.dot(all, { x: "x", y: "foretold", symbol: "times", r: 2, stroke: style.color, strokeWidth: 1, title: "title" }),
    Plot.dot(all.filter(({ outside }) => outside), { x: "x", y: "measured", symbol: "circle", r: 6.5, stroke: "var(--ink)", strokeWidth: 1.1, title: "title" }),
  ];
}

function loadName({ loadN }: WheelForecast): string {
  return `${plainNumber(Math.round(loadN))} N`;
}

function rows(band: Band): { x: number; value: number; low: number; high: number }[] {
  return band.x.map((x, i) => ({ x: 100 * x, value: band.value[i] as number, low: band.low[i] as number, high: band.high[i] as number })).filter(({ low, high }) => Number.isFinite(low) && Number.isFinite(high));
}
