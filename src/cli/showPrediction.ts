import { loadWords, outcomeColumns, outsideWords, predictionNotes, predictionTitle, showInterval } from "../report/prediction/predictionWords.ts";
import type { Prediction } from "../report/prediction/prediction.ts";
import { printableLines } from "../core/printable.ts";

const lineLength = 110;
const degrees = 180 / Math.PI;

/** A forecast for the terminal: a table a load, what lies outside the runs, and what the numbers rest on. */
export function showPrediction(prediction: Prediction): string {
  const parts = prediction.forecasts.map((forecast, place) => {
    const { rows, slopes, outside } = forecast;
    const remarks: string[] = [];
    const header = ["slip", ...outcomeColumns.flatMap(({ name, unit }) => [`${name} [${unit}]`, "95 %"]), ""];
    const body = rows.map(({ slip, best, band, reason, outside: beyond }) => {
      const said = best === null ? `no balance: ${reason}` : beyond.map(({ words }) => words).join("; ");
      if (said !== "" && !remarks.includes(said)) remarks.push(said);
      const cells = outcomeColumns.flatMap(({ key, scale }) => {
        const shown = showInterval(best?.[key] ?? Number.NaN, band[key], scale);
        return [shown.value, shown.interval];
      });
      return [shownSlip(slip), ...cells, said === "" ? "" : `[${remarks.indexOf(said) + 1}]`];
    });
    const climbs = slopes.map(({ slip, bestRad, bandRad }) => {
      if (bestRad === null) return `At slip ${shownSlip(slip)} it finds no balance on a slope.`;
      const shown = showInterval(bestRad, bandRad, degrees);
      return `At slip ${shownSlip(slip)} it ${bestRad < 0 ? "needs a fall of" : "climbs"} ${shown.value}° ${shown.interval}.`;
    });
    return [`Load ${loadWords(prediction, forecast, place)}`, ...outsideWords(outside).map((said) => `  Outside the runs: ${said}`), "", ...aligned([header, ...body]), ...remarks.map((said, i) => `  [${i + 1}] ${said}`), ...(climbs.length > 0 ? ["", ...climbs.map((line) => `  ${line}`)] : []), ""];
  });
  return `${printableLines([predictionTitle(prediction), "", ...parts.flat(), ...predictionNotes(prediction).flatMap((note) => wrapped(`- ${note}`))].join("\n"))}\n`;
}

function shownSlip(slip: number): string {
  return String(slip).replace("-", "−");
}

/** Columns of equal width, numbers at the right, intervals at the left. */
function aligned(rows: readonly (readonly string[])[]): string[] {
  const widths = (rows[0] as readonly string[]).map((_, j) => Math.max(...rows.map((row) => (row[j] as string).length)));
  return rows.map((row) => `  ${row.map((text, j) => (j % 2 === 0 && j > 0 ? text.padEnd(widths[j] as number) : text.padStart(widths[j] as number))).join("  ")}`.trimEnd());
}

function wrapped(text: string): string[] {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + word.length < lineLength) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(last === undefined ? word : `  ${word}`);
  }
  return lines;
}
