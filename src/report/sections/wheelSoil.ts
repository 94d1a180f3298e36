import type { DayResult } from "../../processing/dayResult.ts";
import type { ModelScore, WheelSoilParameter, WheelSoilResult } from "../../processing/wheelSoilResult.ts";
import { undetermined } from "../../core/estimate.ts";
import { forecastFigures, pairFigures } from "../figures/wheelSoilFigures.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { estimateCell, readingUnit, unitScale } from "../showEstimate.ts";
import { showUnit } from "../../core/units.ts";
import { table } from "../table.ts";
import { plainNumber } from "../words.ts";

/** The soil as the wheels felt it: what the runs determine, how the models did on conditions left out, forecasts, and what to test next. */
export function wheelSoilSection(day: DayResult): Html {
  const { wheelSoil } = day;
  if (wheelSoil === null) return html`<section id="wheelsoil"><h2>The soil under the wheels</h2><p class="none">Not asked for. With <code>wheelModel: {}</code> under <code>soil</code> in rig.yaml, wheel–soil models are fitted to the traction runs.</p></section>`;
  return html`<section id="wheelsoil"><h2>The soil under the wheels</h2><p>${wheelSoil.sentence}</p>
${wheelSoil.verdict === "determined" && decided(day, wheelSoil)}
${wheelSoil.refused.length > 0 && html`<details class="day"><summary>Runs that were not used</summary><ul>${each(wheelSoil.refused, ({ run, reason }) => html`<li>${run}: ${reason}</li>`)}</ul></details>`}</section>`;
}

function decided(day: DayResult, result: WheelSoilResult): Html {
  return html`<h3>What the wheel runs determine</h3>
${table(result.parameters, [
    { heading: "Constant", show: ({ symbol }) => symbol },
    { heading: "Value ± expanded uncertainty (95 %)", align: "right", show: ({ share, estimate, symbol }) => estimateCell(share === "undetermined" ? undetermined(estimate.unit, `not determined by these runs: ${symbol} stays within what was believed`) : estimate) },
    { heading: "Believed before", align: "wrap", show: believed },
    { heading: "Narrowed to", align: "right", show: ({ narrowing }) => `${(100 * narrowing).toFixed(0)} %` },
    { heading: "In words", align: "wrap", show: ({ sentence }) => sentence },
  ])}
<p class="fignote">p₁₀ is the pressure at 10 mm sinkage at a width of ${plainNumber(Math.round(1e4 * result.fitted.referenceWidthM) / 10)} mm; χ = k<sub>c</sub>/(b k<sub>φ</sub>) there. A constant that is partly or not determined must not be used alone: soil.json holds all of them with their covariance and draws. ${result.flexibleForm !== null && `Flexible wheels are taken as ${result.flexibleForm === "wider circle" ? "a rigid wheel of a wider circle" : "flattened where they touch"}, which foretold loads left out better than the other form. `}Beyond the runs' own uncertainties the model misses ${Object.entries(result.discrepancy).map(([name, delta]) => `${name} ${(100 * delta).toFixed(1)} %`).join(", ")} (of load, of load times radius, of radius); the bands contain it.</p>
<h3>Models on conditions they had not seen</h3>
${table(result.scores, [
    { heading: "Model", show: ({ model }) => model },
    { heading: "Left out", show: ({ heldOut }) => `each ${heldOut === "slip" ? "range of slip" : heldOut}` },
    { heading: "Error of pull / load", align: "right", show: ({ error }) => share(error.pull) },
    { heading: "Error of torque / (R W)", align: "right", show: ({ error }) => share(error.torque) },
    { heading: "Error of sinkage / R", align: "right", show: ({ error }) => share(error.sinkage) },
    { heading: "Inside the 95 % band", align: "right", show: ({ inside }) => (Number.isFinite(inside) ? `${(100 * inside).toFixed(0)} %` : "–") },
    { heading: "Score of pull", align: "right", show: ({ logScore }) => (Number.isFinite(logScore.pull) ? logScore.pull.toFixed(2) : "–") },
    { heading: "Without a forecast", align: "wrap", show: failures },
  ])}
<p class="fignote">Error: root mean square. Score: mean logarithm of the predictive density; greater is better, and a band too wide costs as one too narrow does.</p>
${forecastFigures(day, result)}
<p class="fignote">Points with ± 2 standard uncertainties of the run alone; bands hold the next measurement with 95 %. ${result.posterior.sentence} ${(100 * result.posterior.insideReplicates).toFixed(0)} % of the measured values lie inside the 95 % interval of their replicates.</p>
<details class="day"><summary>What goes together: draws of the posterior</summary>${pairFigures(result)}</details>
<details class="day"><summary>What a further test would narrow</summary>${table(result.nextTests, [
    { heading: "Test", show: ({ name }) => name },
    ...result.parameters.map(({ symbol }, i) => ({ heading: symbol, align: "right" as const, show: ({ ratios }: { readonly ratios: readonly number[] }) => `${(100 * (ratios[i] ?? 1)).toFixed(0)} %` })),
  ])}<p class="fignote">Standard deviation expected after the test, over that now; 100 % = nothing new.</p></details>`;
}

function believed({ believed: { value, sd, reason }, estimate }: WheelSoilParameter): string {
  const unit = readingUnit(estimate.unit);
  const scale = unitScale(estimate.unit, unit);
  return `${Number((value * scale).toPrecision(3))} ± ${Number((sd * scale).toPrecision(2))}${unit === "1" ? "" : ` ${showUnit(unit)}`}: ${reason}`;
}

function share(value: number): string {
  return Number.isFinite(value) ? `${(100 * value).toFixed(1)} %` : "–";
}

function failures({ failed }: ModelScore): string {
  return failed.length === 0 ? "" : failed.length === 1 ? (failed[0] as string) : `${failed.length}, the first: ${failed[0] as string}`;
}
