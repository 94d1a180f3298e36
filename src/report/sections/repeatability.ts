import { showUnit } from "../../core/units.ts";
import type { DayResult, Repeatability } from "../../processing/dayResult.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { estimateCell, readingUnit, roundSignificant, showDegrees, unitScale } from "../showEstimate.ts";
import { table } from "../table.ts";
import { namesInWords, plainWords } from "../words.ts";
import { budgetBars } from "./runPart.ts";

/** Scatter between repeats, measure by measure, and what each condition gives. */
export function repeatabilitySection(day: DayResult): Html {
  // kinds of run name one measure more or less closely; the shortest holds for all
  const labels = new Map<string, string>();
  for (const { name, label } of day.runs.flatMap((run) => run.measures)) if (label.length < (labels.get(name)?.length ?? Infinity)) labels.set(name, label);
  const label = (row: Repeatability): string => labels.get(row.measure) ?? plainWords(row.measure);
  const pooled = day.repeatability.filter((row) => row.pooledSd !== null);
  const open = day.repeatability.filter((row) => row.pooledSd === null);
  return html`<section id="repeatability"><h2>Repeatability</h2><p class="fignote">Standard deviation between repeats of the same condition, pooled over all conditions that were repeated. Where four conditions or more were repeated, scatter is let change with the size of the value, ln s² = a + b x̄ or, where likelier, a + b ln |x̄|, and each condition's mean carries the scatter of its size, else the pooled one, over its number of runs; what its runs share, such as a calibration, does not average away.</p>
${table(pooled, [
    { heading: "Measure", show: (row) => label(row) },
    { heading: "Pooled standard deviation", align: "right", show: (row) => inReadingUnit(row.pooledSd as number, row) },
    { heading: "Degrees of freedom", align: "right", show: (row) => showDegrees(row.degreesOfFreedom) },
    { heading: "Conditions", align: "right", show: (row) => String(row.conditions.length) },
  ])}
${open.length > 0 && html`<p><span class="nd">Not determined</span>, because no condition was repeated: ${open.map(label).join(", ")}.</p>`}
<details class="day long"><summary>Condition by condition</summary>${each(day.repeatability, (row) => html`<h4>${label(row)}</h4>${table(row.conditions, [
    { heading: "Wheel", show: (condition) => (condition.wheel === "" ? "–" : condition.wheel) },
    { heading: "Condition", show: (condition) => namesInWords(condition.condition) },
    { heading: "Mean ± expanded uncertainty (95 %)", align: "right", show: (condition) => estimateCell(condition.estimate) },
    { heading: "Which cause hurts most", show: (condition) => budgetBars(condition.estimate) },
    { heading: "Standard deviation", align: "right", show: (condition) => (condition.sd === null ? "one run only" : inReadingUnit(condition.sd, row)) },
    { heading: "Scatter of its size", align: "right", show: (condition) => (condition.scatter === null ? "not determined" : inReadingUnit(condition.scatter.sd, row)) },
    { heading: "Runs", align: "wrap", show: (condition) => condition.runs.join(", ") },
  ])}`)}</details></section>`;
}

function inReadingUnit(value: number, row: Repeatability): string {
  const unit = readingUnit(row.unit);
  return `${roundSignificant(value * unitScale(row.unit, unit), 2)}${unit === "1" ? "" : ` ${showUnit(unit)}`}`;
}
