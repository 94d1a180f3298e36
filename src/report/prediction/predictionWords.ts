import type { Outside } from "../../fitting/distanceFromData.ts";
import type { WheelOutcome } from "../../fitting/wheelPredictor.ts";
import type { Interval, SlipForecast } from "../../fitting/slipForecast.ts";
import { plainNumber } from "../words.ts";
import type { Prediction } from "./prediction.ts";

/** How the parts of an outcome are told: heading with unit, and the factor from SI. */
export const outcomeColumns: readonly { readonly key: keyof WheelOutcome; readonly name: string; readonly unit: string; readonly scale: number }[] = [
  { key: "pullN", name: "pull", unit: "N", scale: 1 },
  { key: "torqueNm", name: "torque", unit: "N·m", scale: 1 },
  { key: "sinkageM", name: "sinkage", unit: "mm", scale: 1000 },
  { key: "efficiency", name: "efficiency", unit: "%", scale: 100 },
];

/** more are counted, not named */
const mostBeds = 4;

/** Which wheel, on which soil. */
export function predictionTitle({ card, wheel, soil }: Prediction): string {
  const { rimM, widthM, lugHeightM, curve, id } = wheel;
  const size = `${plainNumber(rounded(2000 * (rimM + lugHeightM)))} mm over the ${lugHeightM > 0 ? "lugs" : "rim"}, ${plainNumber(rounded(1000 * widthM))} mm wide, ${curve === null ? "rigid" : "flexible"}`;
  return `Wheel ${id} (${size}) on the soil of ${soil}: ${card.runs.length} runs${bedWords(card.beds)}`;
}

function bedWords(beds: readonly string[]): string {
  if (beds.length === 0) return "";
  return beds.length > mostBeds ? ` on ${beds.length} beds` : `, ${beds.length === 1 ? "bed" : "beds"} ${beds.join(", ")}`;
}

/** "40 N", or "4.08 kg at 9.81 m/s² = 40 N". */
export function loadWords({ masses }: Prediction, { loadN }: SlipForecast, place: number): string {
  const load = `${plainNumber(rounded(loadN))} N`;
  return masses === undefined ? load : `${plainNumber(masses.massesKg[place] as number)} kg at ${plainNumber(masses.gravityMps2)} m/s² = ${load}`;
}

/** What the numbers rest on and what is not in them. */
export function predictionNotes(prediction: Prediction): string[] {
  const { card, wheel, forecasts, masses } = prediction;
  const rows = forecasts.flatMap((forecast) => forecast.rows);
  const open = rows.some(({ best, band }) => best !== null && outcomeColumns.some(({ key }) => Number.isFinite(best[key]) && band[key] === null));
  const elsewhere = masses !== undefined && Math.abs(masses.gravityMps2 / card.gravityMps2 - 1) > 0.02;
  return [
    "Intervals: 95 % of what the next measurement would be, but for its own noise: what the constants leave open, calibrations included, and what the model misses. They say nothing of a bed prepared otherwise, and are not widened outside the runs.",
    ...(open ? ["open: more than 2.5 % of the draws give no value there (no balance, or a torque not above zero)."] : []),
    ...(wheel.curve === null ? [] : [`A flexible wheel is taken ${card.flexibleForm === "flat contact" ? "as flattened where it touches" : "as a rigid one of a wider circle"}; losses inside a wheel are in the torque only as far as they were in that of the runs.`]),
    `Efficiency: pull times travel speed over torque times turning speed, slip counted from the ${card.slipRadius.policy} radius ${card.slipRadius.lugs === "with" ? "to the lugs' tips" : "without lugs"}${card.slipRadius.policy === "effective" && wheel.curve !== null ? " (taken half way between unloaded and loaded)" : ""}.`,
    ...(forecasts.some(({ slopes }) => slopes.length > 0) ? ["Slope: one wheel whose load leans with the slope, on the same soil; no load moves between wheels, and the soil of a slope is taken to be as strong as that of the level bed."] : []),
    ...(elsewhere ? [`The runs were made at ${plainNumber(card.gravityMps2)} m/s². The soil's constants are taken not to change with gravity: this is not tested by this data.`] : []),
    `Posterior: ${card.posterior}`,
  ];
}

/** A value and its interval to the place that the interval allows: "12.3 (8.1 … 16.5)". */
export function showInterval(value: number, interval: Interval, scale: number): { readonly value: string; readonly interval: string } {
  if (!Number.isFinite(value)) return { value: "–", interval: "" };
  const half = interval === null ? Math.abs(value) / 100 : (interval[1] - interval[0]) / 2;
  const decimals = half > 0 ? Math.min(6, Math.max(0, 1 - Math.floor(Math.log10(half * scale)))) : 2;
  const show = (number: number): string => (number * scale).toFixed(decimals).replace(/^-(0(?:\.0+)?)$/, "$1").replace("-", "−");
  return { value: show(value), interval: interval === null ? "(open)" : `(${show(interval[0])} … ${show(interval[1])})` };
}

/** What lies outside the runs, and how far. */
export function outsideWords(outside: readonly Outside[]): string[] {
  return outside.map(({ words, by }) => (by === "" ? words : `${words}, ${by}`));
}

function rounded(value: number): number {
  return Number(value.toPrecision(4));
}
