import { version } from "../../version.ts";
import { outcomeColumns, outsideWords, predictionNotes } from "./predictionWords.ts";
import type { Interval } from "../../fitting/slipForecast.ts";
import { finite, stableJson } from "../stableJson.ts";
import type { Json } from "../stableJson.ts";
import type { Prediction } from "./prediction.ts";

/** A forecast for other programs; SI units, null where there is no value. */
export function predictionJson(prediction: Prediction): string {
  const { soil, card, wheel, forecasts, masses } = prediction;
  return stableJson({
    format: "drawbar wheel forecast",
    formatVersion: 1,
    drawbarVersion: version,
    soil,
    runs: card.runs,
    beds: card.beds,
    wheel: { id: wheel.id, rimM: wheel.rimM, widthM: wheel.widthM, lugs: wheel.lugs, lugHeightM: wheel.lugHeightM, curve: wheel.curve === null ? null : { deflectionM: wheel.curve.deflectionM, loadN: wheel.curve.loadN } },
    masses: masses === undefined ? null : { massesKg: masses.massesKg, gravityMps2: masses.gravityMps2 },
    forecasts: forecasts.map(({ loadN, outside, rows, slopes }) => ({
      loadN,
      outside: outsideWords(outside),
      rows: rows.map(({ slip, best, band, reason, outside: beyond }) => ({ slip, ...Object.fromEntries(outcomeColumns.map(({ key }) => [key, valued(best?.[key] ?? Number.NaN, band[key])])), reason: best === null ? reason : null, outside: outsideWords(beyond) })),
      slopes: slopes.map(({ slip, bestRad, bandRad }) => ({ slip, angleRad: valued(bestRad ?? Number.NaN, bandRad) })),
    })),
    notes: predictionNotes(prediction),
  });
}

function valued(value: number, interval: Interval): Json {
  return { value: finite(value), interval95: Number.isFinite(value) ? interval : null };
}
