import type { Interval } from "../../fitting/slipForecast.ts";
import { cell } from "../runsCsv.ts";
import { outcomeColumns, outsideWords } from "./predictionWords.ts";
import type { Prediction } from "./prediction.ts";

/**
 * A forecast as a table: a row per load and slip, SI units, each value with the ends of its 95 % interval. Written like
 * runs.csv; an empty cell = no value. The slope stands in rows of its own slips.
 */
export function predictionCsv({ wheel, forecasts }: Prediction): string {
  const units: Readonly<Record<string, string>> = { pullN: "N", torqueNm: "N.m", sinkageM: "m", efficiency: "1" };
  const names = [...outcomeColumns.map(({ key, name }) => `${name} [${units[key]}]`), "slope [rad]"];
  const header = ["wheel", "load [N]", "slip [1]", ...names.flatMap((name) => [name, `low ${name}`, `high ${name}`]), "no balance because", "outside the runs"];
  const triple = (value: number | null | undefined, interval: Interval): (number | null)[] => (value === null || value === undefined || !Number.isFinite(value) ? [null, null, null] : [value, interval?.[0] ?? null, interval?.[1] ?? null]);
  const none = [null, null, null];
  const rows = forecasts.flatMap(({ loadN, rows: found, slopes, outside }) => [
    ...found.map(({ slip, best, band, reason, outside: beyond }) => [wheel.id, loadN, slip, ...outcomeColumns.flatMap(({ key }) => triple(best?.[key], band[key])), ...none, reason, outsideWords([...outside, ...beyond]).join("; ")]),
    ...slopes.map(({ slip, bestRad, bandRad }) => [wheel.id, loadN, slip, ...outcomeColumns.flatMap(() => none), ...triple(bestRad, bandRad), bestRad === null ? "no balance on the slope" : "", outsideWords(outside).join("; ")]),
  ]);
  return `\ufeff${[header, ...rows].map((row) => row.map(cell).join(",")).join("\r\n")}\r\n`;
}
