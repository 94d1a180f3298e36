import { showUnit } from "../../core/units.ts";
import type { DayResult, Repeatability } from "../../processing/dayResult.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { readingUnit, roundSignificant, showDegrees, unitScale } from "../showEstimate.ts";
import { table } from "../table.ts";
import { namesInWords, plainWords } from "../words.ts";

/** Scatter between repeats, measure by measure, and the conditions it was pooled over. */
export function repeatabilitySection(day: DayResult): Html {
  const labels = new Map(day.runs.flatMap((run) => run.measures.map((measure) => [measure.name, measure.label] as const)));
  const label = (row: Repeatability): string => labels.get(row.measure) ?? plainWords(row.measure);
  const pooled = day.repeatability.filter((row) => row.pooledSd !== null);
  const open = day.repeatability.filter((row) => row.pooledSd === null);
  return html`<section id="repeatability"><h2>Repeatability</h2><p class="fignote">Standard deviation between repeats of the same condition, pooled over all conditions that were repeated.</p>
${table(pooled, [
    { heading: "Measure", show: (row) => label(row) },
    { heading: "Pooled standard deviation", align: "right", show: (row) => inReadingUnit(row.pooledSd as number, row) },
    { heading: "Degrees of freedom", align: "right", show: (row) => showDegrees(row.degreesOfFreedom) },
    { heading: "Conditions", align: "right", show: (row) => String(row.conditions.length) },
  ])}
${open.length > 0 && html`<p><span class="nd">Not determined</span>, because no condition was repeated: ${open.map(label).join(", ")}.</p>`}
<details class="day"><summary>Condition by condition</summary>${each(day.repeatability, (row) => html`<h4>${label(row)}</h4>${table(row.conditions, [
    { heading: "Wheel", show: (condition) => (condition.wheel === "" ? "–" : condition.wheel) },
    { heading: "Condition", show: (condition) => namesInWords(condition.condition) },
    { heading: "Mean", align: "right", show: (condition) => mean(condition, row) },
    { heading: "Standard deviation", align: "right", show: (condition) => (condition.sd === null ? "one run only" : inReadingUnit(condition.sd, row)) },
    { heading: "Runs", align: "wrap", show: (condition) => condition.runs.join(", ") },
  ])}`)}</details></section>`;
}

/** The mean to the place its scatter allows; a single run's value stands in its own part, with its interval. */
function mean(condition: Repeatability["conditions"][number], row: Repeatability): string {
  if (condition.sd === null || condition.sd === 0) return "see the run";
  const places = Math.max(1, Math.floor(Math.log10(Math.abs(condition.mean))) - Math.floor(Math.log10(condition.sd)) + 2);
  return inReadingUnit(condition.mean, row, Math.min(places, 8));
}

function inReadingUnit(value: number, row: Repeatability, figures = 2): string {
  const unit = readingUnit(row.unit);
  return `${roundSignificant(value * unitScale(row.unit, unit), figures)}${unit === "1" ? "" : ` ${showUnit(unit)}`}`;
}
