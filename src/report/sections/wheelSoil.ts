import type { DayResult } from "../../processing/dayResult.ts";
import type { ModelScore, WheelFitPoint, WheelQuantityName, WheelSoilParameter, WheelSoilResult } from "../../processing/wheelSoilResult.ts";
import { undetermined } from "../../core/estimate.ts";
import { forecastFigures, pairFigures } from "../figures/wheelSoilFigures.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { estimateCell, readingUnit, unitScale } from "../showEstimate.ts";
import { showUnit } from "../../core/units.ts";
import type { Unit } from "../../core/units.ts";
import { table } from "../table.ts";
import { plainNumber } from "../words.ts";

/** The soil as the wheels felt it: what the runs determine, how the models did on conditions left out, forecasts, and what to test next. */
export function wheelSoilSection(day: DayResult): Html {
  const { wheelSoil } = day;
  if (wheelSoil === null) return html`<section id="wheelsoil"><h2>The soil under the wheels</h2><p class="none">Not asked for. With <code>wheelModel: {}</code> under <code>soil</code> in rig.yaml, wheel–soil models are fitted to the traction runs.</p></section>`;
  return html`<section id="wheelsoil"><h2>The soil under the wheels</h2><p>${wheelSoil.sentence}</p>
${wheelSoil.verdict === "determined" && decided(day, wheelSoil)}
${points(wheelSoil)}</section>`;
}

function decided(day: DayResult, result: WheelSoilResult): Html {
  return html`<h3>What the wheel runs determine</h3>
${table(result.parameters, [
    { heading: "Constant", show: ({ symbol }) => symbol },
    { heading: "Value ± expanded uncertainty (95 %)", align: "right", show: ({ share, estimate, symbol }) => estimateCell(share === "undetermined" ? undetermined(estimate.unit, `not determined by these runs: ${symbol} stays within what was believed`) : estimate) },
    { heading: "By profile of the data", align: "right", show: ({ profile, estimate }) => (profile === null ? "–" : ends([profile.low, profile.high], estimate.unit)) },
    { heading: "By refits to drawn beds", align: "right", show: ({ bootstrap, estimate }) => (bootstrap === null ? "–" : ends(bootstrap, estimate.unit)) },
    { heading: "Believed before", align: "wrap", show: believed },
    { heading: "Narrowed to", align: "right", show: ({ narrowing }) => `${(100 * narrowing).toFixed(0)} %` },
    { heading: "In words", align: "wrap", show: ({ sentence }) => sentence },
  ], { stack: true })}
<p class="fignote">Intervals of 95 %. The value's own is of data and belief together. The profile is of the data, without what was believed of the constant itself: an open end says that the runs do not hold it there. Refits are to whole beds drawn with replacement, or to runs where no bed is named; what wheels or calibrations share does not show in them. p₁₀ is the pressure at 10 mm sinkage at a width of ${plainNumber(Math.round(1e4 * result.fitted.referenceWidthM) / 10)} mm; χ = k<sub>c</sub>/(b k<sub>φ</sub>) there. ${lugsInWords(result)}A constant that is partly or not determined must not be used alone: soil.json holds all of them with their covariance and draws. ${result.flexibleForm !== null && `Flexible wheels are taken as ${result.flexibleForm === "wider circle" ? "a rigid wheel of a wider circle" : "flattened where they touch"}, which foretold loads left out better than the other form. `}Beyond the runs' own uncertainties the model misses ${Object.entries(result.discrepancy).map(([name, delta]) => `${name} ${(100 * delta).toFixed(1)} %`).join(", ")} (of load, of load times radius, of radius); the bands contain it. ${groups(result)}</p>
<details class="day"><summary>What is known together</summary>${table(result.combinations, [
    { heading: "Combination, in units of the beliefs", align: "wrap", show: ({ weights }) => weights.map(({ symbol, weight }) => `${weight < 0 ? "−" : "+"} ${Math.abs(weight).toFixed(2)} ${symbol}`).join(" ") },
    { heading: "Narrowed to", align: "right", show: ({ narrowing }) => `${(100 * narrowing).toFixed(1)} %` },
  ])}<p class="fignote">Each is independent of the others; the best known comes first. What stands at 100 % is belief.</p></details>
<h3>Models on conditions they had not seen</h3>
${table(result.scores, [
    { heading: "Model", show: ({ model }) => model },
    { heading: "Left out", show: ({ heldOut }) => `each ${heldOut === "slip" ? "range of slip" : heldOut}` },
    { heading: "Error of pull / load", align: "right", show: ({ error }) => share(error.pull) },
    { heading: "Error of torque / (R W)", align: "right", show: ({ error }) => share(error.torque) },
    { heading: "Error of sinkage / R", align: "right", show: ({ error }) => share(error.sinkage) },
    { heading: "Inside the 95 % band", align: "right", show: ({ inside }) => percent(inside) },
    { heading: "pull, torque, sinkage", align: "right", show: ({ insideBy }) => [insideBy.pull, insideBy.torque, insideBy.sinkage].map(percent).join(", ") },
    { heading: "Score of pull", align: "right", show: ({ logScore }) => (Number.isFinite(logScore.pull) ? logScore.pull.toFixed(2).replace("-", "−") : "–") },
    { heading: "Without a forecast", align: "wrap", show: failures },
  ])}
<p class="fignote">Error: root mean square. Score: mean logarithm of the predictive density; greater is better, and a band too wide costs as one too narrow does.</p>
${forecastFigures(day, result)}
<p class="fignote">Small crosses: what a fit foretold that had not seen that load; a ring marks a measured point outside the 95 % interval of that forecast. Points with ± 2 standard uncertainties of the run alone; bands hold the next measurement with 95 %. ${result.posterior.sentence} ${(100 * result.posterior.insideReplicates).toFixed(0)} % of the measured values lie inside the 95 % interval of their replicates.</p>
<details class="day"><summary>What goes together: draws of the posterior</summary>${pairFigures(result)}</details>
<details class="day"><summary>What a further test would narrow</summary>${table(result.nextTests, [
    { heading: "Test", show: ({ name }) => name },
    ...result.parameters.map(({ symbol }, i) => ({ heading: symbol, align: "right" as const, show: ({ ratios }: { readonly ratios: readonly number[] }) => `${(100 * (ratios[i] ?? 1)).toFixed(0)} %` })),
  ])}<p class="fignote">Standard deviation expected after the test, over that now; 100 % = nothing new.</p></details>`;
}

function lugsInWords({ wheels, fitted: { unitWeight } }: WheelSoilResult): string {
  if (wheels.every(({ lugs }) => lugs === 0)) return "";
  return `κ is the share of the lugs' height that shears; with the rest each lug pushes a passive wedge of soil${unitWeight === null ? ", by its cohesion alone: no bed has a density in beds.csv" : ` of ${(unitWeight / 1000).toFixed(1)} kN/m³, the mean of the beds`}. `;
}

function believed({ believed: { value, sd, reason }, estimate }: WheelSoilParameter): string {
  const unit = readingUnit(estimate.unit);
  const scale = unitScale(estimate.unit, unit);
  return `${Number((value * scale).toPrecision(3))} ± ${Number((sd * scale).toPrecision(2))}${unit === "1" ? "" : ` ${showUnit(unit)}`}: ${reason}`;
}

/** "0.92 … 1.07 kPa", "open" where an end was not found. */
function ends(interval: readonly [number | null, number | null], of: Unit): string {
  const unit = readingUnit(of);
  const scale = unitScale(of, unit);
  const [low, high] = interval.map((end) => (end === null ? "open" : plainNumber(Number((end * scale).toPrecision(3)))));
  return low === "open" && high === "open" ? "open" : `${low} … ${high}${unit === "1" ? "" : ` ${showUnit(unit)}`}`;
}

/** What beds and wheels differ by, or that these runs cannot tell it. */
function groups({ bedSpread, wheelSpread, wheels }: WheelSoilResult): string {
  const told = (spread: Readonly<Record<WheelQuantityName, number>>): string => Object.entries(spread).map(([name, sd]) => `${name} ${(100 * sd).toFixed(1)} %`).join(", ");
  const any = (spread: Readonly<Record<WheelQuantityName, number>>): boolean => Object.values(spread).some((sd) => sd > 0);
  const beds = any(bedSpread) ? `From bed to bed, alike in all runs on a bed: ${told(bedSpread)}.` : "These runs tell no difference from bed to bed; three beds with more than one run each could.";
  const others = any(wheelSpread) ? `From wheel to wheel: ${told(wheelSpread)}; the band of a wheel that was not tested is widened by Student's factor for ${wheels.length} wheels.` : "These runs tell no difference from wheel to wheel: a band for a wheel that was not tested does not contain it.";
  return `${beds} ${others}`;
}

/** What was used, what counts less, and what was not used, with the reasons. */
function points({ points: all, refused }: WheelSoilResult): Html {
  const less = all.filter(({ reason }) => reason !== "");
  const robust = all.some(({ weight }) => weight !== 1);
  const row = ({ run, quantity, measured, fitted, weight }: WheelFitPoint): string => `${run}, ${quantity}: measured ${measured.toFixed(3)}, fitted ${fitted.toFixed(3)}, weight ${weight.toFixed(2)}`;
  return html`${less.length > 0 && html`<p>${less.length} of ${all.length} points lie far from the model and count less:</p><ul class="reasons">${each(less, (point) => html`<li>${point.run}, ${point.quantity}: ${point.reason}</li>`)}</ul>`}
${robust && html`<details class="day"><summary>The weight of every point</summary><ul>${each(all, (point) => html`<li>${row(point)}</li>`)}</ul></details>`}
${refused.length > 0 && html`<details class="day"><summary>Runs that were not used</summary><ul>${each(refused, ({ run, reason }) => html`<li>${run}: ${reason}</li>`)}</ul></details>`}`;
}

function percent(value: number): string {
  return Number.isFinite(value) ? `${(100 * value).toFixed(0)} %` : "–";
}

function share(value: number): string {
  return Number.isFinite(value) ? `${(100 * value).toFixed(1)} %` : "–";
}

function failures({ failed }: ModelScore): string {
  return failed.length === 0 ? "" : failed.length === 1 ? (failed[0] as string) : `${failed.length}, the first: ${failed[0] as string}`;
}
