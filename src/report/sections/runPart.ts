import { showIssue } from "../../core/errors.ts";
import type { Estimate } from "../../core/estimate.ts";
import { showUnit } from "../../core/units.ts";
import type { RunResult } from "../../processing/dayResult.ts";
import { laneFigure } from "../figures/laneFigure.ts";
import { rippleFigures } from "../figures/rippleFigures.ts";
import { sweepFigure } from "../figures/sweepFigure.ts";
import { channelsInWords } from "../channelsInWords.ts";
import { anchor, each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { estimateCell, readingUnit, roundSignificant, showDegrees, showEstimate, unitScale } from "../showEstimate.ts";
import { table } from "../table.ts";
import { condition, freeColumns, namesInWords, plainWords, severityBadge, verdictBadge } from "../words.ts";
import { fitBlock } from "./fitBlock.ts";
import { samplingTable } from "./samplingTable.ts";
import { traceBlock } from "./traces.ts";

export function runAnchor(run: RunResult): string {
  return anchor("run", run.plan.id);
}

/** One run from its verdict down to the hash of its file. Closed until asked for; its traces are drawn when it opens. */
export function runPart(run: RunResult): Html {
  return html`<details class="run v-${run.verdict}" id="${runAnchor(run)}" data-verdict="${run.verdict}"><summary>${verdictBadge(run.verdict)} <b>${run.plan.id}</b> <span>${condition(run.plan)}</span></summary><div class="runbody">
${run.plan.excluded !== null && html`<p class="said"><b>Excluded by a person:</b> ${run.plan.excluded === "" ? "no reason was given" : run.plan.excluded}</p>`}
${run.reasons.length > 0 && html`<ul class="reasons">${each(run.reasons, (reason) => html`<li>${channelsInWords(reason)}</li>`)}</ul>`}
${run.issues.length > 0 && html`<h4>Wrong in the input</h4><ul class="issues">${each(run.issues, (issue) => html`<li><code>${issue.code}</code> ${showIssue(issue)}</li>`)}</ul>`}
${run.plan.remark !== "" && html`<p class="said"><b>Remark:</b> ${run.plan.remark}</p>`}
${Object.keys(run.plan.more).length > 0 && html`<p class="said"><b>Also on the sheet:</b> ${freeColumns(run.plan.more)}</p>`}
<h4>Traces</h4>${traceBlock(run)}
<h4>Measures</h4>${measures(run)}
${laneFigure(run)}
${run.plan.kind === "sweep" && html`<h4>The sweep</h4>${sweepFigure(run)}`}
${rippleFigures(run)}
${each(run.fits, (fit) => html`<h4>${fit.model}</h4>${fitBlock(fit)}`)}
<h4>Findings</h4>${table(run.findings, [
    { heading: "Weight", show: (finding) => severityBadge(finding.severity) },
    { heading: "Channel", show: (finding) => finding.channel ?? "whole run" },
    { heading: "When [s]", show: (finding) => whenCell(finding.fromS, finding.toS) },
    { heading: "What", align: "wrap", show: (finding) => html`${channelsInWords(finding.message)} <code>${finding.code}</code>` },
    { heading: "Measured / limit", align: "right", show: (finding) => against(finding.measured, finding.limit) },
  ])}
<h4>Stretches of the run</h4>${table(run.segments, [
    { heading: "Stretch", show: (segment) => plainWords(segment.kind) },
    { heading: "When [s]", show: (segment) => whenCell(segment.fromS, segment.toS) },
    { heading: "Why there", align: "wrap", show: (segment) => segment.reason },
  ])}
${run.windowChoices.length > 0 && html`<h4>Other choices of window</h4>${table(run.windowChoices, [
    { heading: "Window", align: "wrap", show: (choice) => choice.label },
    { heading: "When [s]", show: (choice) => whenCell(choice.fromS, choice.toS) },
    { heading: "Pull coefficient, to compare only [–]", align: "right", show: (choice) => roundSignificant(choice.pullCoefficient, 4) },
  ])}<p class="fignote">These values show how much the choice of window matters; the result with its uncertainty is the one under Measures.</p>`}
${run.sampling.length > 0 && html`<h4>Sampling</h4>${samplingTable(run.sampling)}`}
${run.alignments.length > 0 && html`<h4>Clocks</h4>${table(run.alignments, [
    { heading: "Logger", show: (alignment) => alignment.logger },
    { heading: "Offset", align: "right", show: (alignment) => estimateCell(alignment.offset) },
    { heading: "Rate", show: (alignment) => rate(alignment.ratePpm) },
    { heading: "Found by", align: "wrap", show: (alignment) => alignment.method },
  ])}`}
<h4>Where the numbers come from</h4>${table(run.sources, [
    { heading: "File", show: (source) => source.file },
    { heading: "Taken for", align: "wrap", show: (source) => source.format },
    { heading: "Bytes", align: "right", show: (source) => String(source.bytes) },
    { heading: "Rows read / refused", align: "right", show: (source) => `${source.rowsRead} / ${source.rowsRefused}` },
    { heading: "SHA-256", show: (source) => html`<code class="hash">${source.sha256}</code>` },
  ])}
${run.steps.length > 0 && html`<details class="steps"><summary>What was done to the data, step by step</summary><ol>${each(run.steps, (step) => html`<li><b>${step.name}</b> ${step.version} <small>${Object.entries(step.parameters).map(([name, value]) => `${name} = ${String(value)}`).join(", ")}</small></li>`)}</ol></details>`}
</div></details>`;
}

function measures(run: RunResult): Html {
  return table(
    run.measures,
    [
      { heading: "Measure", align: "wrap", named: false, show: (measure) => html`<b>${measure.label}</b>${measure.estimate.standardUncertainty !== null && html`<br><small>${measure.estimate.method}</small>`}` },
      { heading: "Value ± expanded uncertainty (95 %)", align: "right", named: false, show: (measure) => valueCell(measure.estimate) },
      { heading: "Which cause hurts most", named: false, show: (measure) => budgetBars(measure.estimate) },
      { heading: "Taken from", align: "wrap", show: (measure) => (measure.segment === null ? "whole run or other runs" : html`${plainWords(measure.segment.kind)}, ${when(measure.segment.fromS, measure.segment.toS)} s`) },
    ],
    { stack: true },
  );
}

function valueCell(estimate: Estimate): Html {
  const shown = showEstimate(estimate);
  if (!shown.determined) return html`<span class="nd">not determined</span><br><small>${shown.note}</small>`;
  return html`<span class="num">${shown.text}${shown.unit === "" ? "" : ` ${shown.unit}`}</span><br><small>${shown.note}</small>`;
}

/** One bar per cause, as long as its share of the largest; small ones are named but not drawn. */
export function budgetBars(estimate: Estimate): Html {
  const total = estimate.standardUncertainty;
  if (total === null || estimate.budget.length === 0) return html`<small>no budget</small>`;
  const unit = readingUnit(estimate.unit, estimate.value);
  const scale = unitScale(estimate.unit, unit);
  const largest = Math.max(...estimate.budget.map((row) => Math.abs(row.effect)));
  const shown = estimate.budget.filter((row) => Math.abs(row.effect) >= 0.05 * total);
  const small = estimate.budget.filter((row) => !shown.includes(row));
  return html`<ul class="budget">${each(shown, (row) => html`<li title="${`ν = ${showDegrees(row.degreesOfFreedom)}${row.sharedBy === null ? ", this run alone" : `, shared by ${row.sharedBy}`}`}"><i style="width:${Math.max(1, Math.round((100 * Math.abs(row.effect)) / largest))}%"${row.sharedBy !== null && html` class="shared"`}></i><span>${namesInWords(row.cause)}${row.sharedBy !== null && html` <small>shared</small>`}</span><b>${roundSignificant(Math.abs(row.effect) * scale, 2)}${unit === "1" ? "" : ` ${showUnit(unit)}`}</b></li>`)}${small.length > 0 && html`<li class="rest">each below 5 %: ${small.map((row) => namesInWords(row.cause)).join(", ")}</li>`}</ul>`;
}

export function when(fromS: number | null, toS: number | null): string {
  if (fromS === null && toS === null) return "whole run";
  if (fromS !== null && toS !== null && fromS !== toS) return `${seconds(fromS)} … ${seconds(toS)}`;
  return seconds(fromS ?? toS ?? Number.NaN);
}

export function whenCell(fromS: number | null, toS: number | null): Html {
  return html`<span class="num">${when(fromS, toS)}</span>`;
}

export function against(measured: number | null, limit: number | null): string {
  if (measured === null && limit === null) return "–";
  return `${measured === null ? "–" : roundSignificant(measured, 3)} / ${limit === null ? "–" : roundSignificant(limit, 3)}`;
}

function seconds(value: number): string {
  return Number.isFinite(value) ? value.toFixed(3) : "–";
}

function rate(ppm: { readonly value: number; readonly standardUncertainty: number | null }): string {
  if (ppm.standardUncertainty === null) return "not determined";
  // No degrees of freedom are stated for the rate, so the plain standard uncertainty is shown and named.
  return `${roundSignificant(ppm.value, 3)} ppm, standard uncertainty ${roundSignificant(ppm.standardUncertainty, 2)} ppm`;
}
