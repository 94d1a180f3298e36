import { version } from "../../version.ts";
import type { ForecastRow, SlipForecast, SlopeRow } from "../../fitting/slipForecast.ts";
import { each, html, raw } from "../html.ts";
import type { Html } from "../html.ts";
import { styles } from "../styles.ts";
import { table } from "../table.ts";
import { plainNumber } from "../words.ts";
import type { Prediction } from "./prediction.ts";
import { predictionFigures } from "./predictionFigures.ts";
import { loadWords, outcomeColumns, outsideWords, predictionNotes, predictionTitle, showInterval } from "./predictionWords.ts";

const degrees = 180 / Math.PI;

/** A forecast as one page that opens offline: figures with their bands, the numbers, and what they rest on. */
export function predictionPage(prediction: Prediction): string {
  const { forecasts } = prediction;
  const title = predictionTitle(prediction);
  return html`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:"><meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark"><meta name="generator" content="${`drawbar ${version}`}"><title>${title}</title><link rel="icon" href="data:,">
<style>${raw(styles)}.page{grid-template-columns:minmax(0,1fr)!important}</style></head>
<body><div class="page"><header><h1>${title}</h1><p>A forecast by drawbar ${version}, not a measurement.</p></header>
<main>
<section><h2>Over slip</h2>${predictionFigures(prediction)}</section>
${each(forecasts, (forecast, i) => loadSection(prediction, forecast, i))}
<section><h2>What this rests on</h2><ul>${each(predictionNotes(prediction), (note) => html`<li>${note}</li>`)}</ul></section>
</main></div></body></html>
`.html;
}

function loadSection(prediction: Prediction, forecast: SlipForecast, place: number): Html {
  const { outside, rows, slopes } = forecast;
  return html`<section><h2>${loadWords(prediction, forecast, place)}</h2>
${outside.length > 0 && html`<p><span class="badge f-look">Outside the runs</span> ${outsideWords(outside).join("; ")}.</p>`}
${table(rows, [
    { heading: "Slip", align: "right", show: ({ slip }: ForecastRow) => plainNumber(slip) },
    ...outcomeColumns.map(({ key, name, unit, scale }) => ({
      heading: `${name.charAt(0).toUpperCase()}${name.slice(1)} [${unit}]`,
      align: "right" as const,
      show: ({ best, band }: ForecastRow) => {
        const shown = showInterval(best?.[key] ?? Number.NaN, band[key], scale);
        return html`<span class="num">${shown.value}</span> <small>${shown.interval}</small>`;
      },
    })),
    { heading: "In words", align: "wrap", show: ({ best, reason, outside: beyond }: ForecastRow) => (best === null ? `No balance: ${reason}.` : outsideWords(beyond).join("; ")) },
  ])}
${slopes.length > 0 && table(slopes, [
    { heading: "Slip", align: "right", show: ({ slip }: SlopeRow) => plainNumber(slip) },
    {
      heading: "Slope climbed [deg]",
      align: "right",
      show: ({ bestRad, bandRad }: SlopeRow) => {
        const shown = showInterval(bestRad ?? Number.NaN, bandRad, degrees);
        return html`<span class="num">${shown.value}</span> <small>${shown.interval}</small>`;
      },
    },
  ])}</section>`;
}
