import { showUnit } from "../../core/units.ts";
import type { DayResult, PullCurve } from "../../processing/dayResult.ts";
import { pullFigures, wheelComparison } from "../figures/pullFigures.ts";
import { measureAsX, measureFigures } from "../figures/measureFigures.ts";
import { legendMark, seriesStyle } from "../figures/drawPlot.ts";
import { sweepFigure } from "../figures/sweepFigure.ts";
import { curveName } from "../curveName.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { levels, usableRuns, wheelOrder } from "../pick.ts";
import { estimateCell } from "../showEstimate.ts";
import { table } from "../table.ts";
import { fitVerdictWords, freeColumns, plainNumber } from "../words.ts";
import { candidateTable, covariateTable, curveReadings, policyTable } from "./curveReadings.ts";
import { fitBlock } from "./fitBlock.ts";
import { measureTable } from "./measureTable.ts";

/** Wheels against each other: pull at the stated slips, then the curves behind it. */
export function wheelsSection(day: DayResult): Html {
  if (day.pullCurves.length === 0) return html`<section id="wheels"><h2>Wheels compared</h2><p class="none">No traction runs gave a pull–slip curve.</p></section>`;
  const slips = levels(day.pullCurves.flatMap((curve) => curve.atSlip.map((point) => point.slip)));
  const curves = pullFigures(day);
  return html`<section id="wheels"><h2>Wheels compared</h2>
${each(slips, (slip) => html`<div class="beside">${wheelComparison(day, slip)}${pullTable(day, slip)}</div>`)}
<p class="fignote">Intervals that overlap do not prove that two wheels are equal, nor that they differ: calibrations shared by all wheels stand in every interval.</p>
<h3>Pull–slip curves, wheel by wheel</h3>${curves.byWheel}
<h3>The same, load by load</h3>${curves.byLoad}
<p class="fignote">Points are single runs, and stretches of a slip sweep; bars are ± 2 standard uncertainties, upright the part not shared with other runs, level the slip. Line: fitted curve; shade: its 95 % band at any one slip; thin lines: the band that holds the whole curve at once. A grey cross is a run left out of the fit; its name and reason appear under the pointer.</p>
${sweepsPart(day)}
${curveReadings(sortedCurves(day))}
${covariateTable(day)}
<details class="day"><summary>The fitted curves in numbers</summary>${each(sortedCurves(day), (curve) => html`<h4>${curveName(curve)}</h4>${candidateTable(curve)}${fitBlock(curve.fit)}`)}</details>
${policyTable(day)}
<details class="day"><summary>The wheels as recorded</summary>${wheelTable(day)}</details></section>`;
}

/** Slip sweeps: the loop of each, with its lag and hysteresis. */
function sweepsPart(day: DayResult): Html | false {
  const swept = usableRuns(day, "sweep");
  return swept.length > 0 && html`<h3>Slip sweeps</h3><div class="multiples wide">${each(swept, (run) => sweepFigure(run, `${run.plan.id}: wheel ${run.plan.wheel ?? "not stated"}${run.plan.setLoadN === null ? "" : `, ${plainNumber(run.plan.setLoadN)} N`}, one point a revolution`))}</div>${measureTable(swept)}
<p class="fignote">A sweep is a screening: runs at one slip each are the measurement. On the curves above it stands with the weight of one run.</p>`;
}

/** Sinkage and efficiency against slip. */
export function sinkageSection(day: DayResult): Html {
  const loads = levels(usableRuns(day, "traction").map((run) => run.plan.setLoadN));
  const names = loads.map((load) => `${plainNumber(load)} N`);
  const common = {
    kind: "traction" as const,
    title: (wheel: string) => `Wheel ${wheel}`,
    group: (run: DayResult["runs"][number]) => run.plan.wheel,
    x: { label: "slip (skid below zero) [%]", read: slipAsX },
    series: { names, of: (run: DayResult["runs"][number]) => (run.plan.setLoadN === null ? "" : `${plainNumber(run.plan.setLoadN)} N`) },
  };
  const wheels = wheelOrder(day, usableRuns(day, "traction").map((run) => run.plan.wheel));
  const standing = measureFigures(day, {
    kind: "traction",
    title: () => "All wheels, before they turn",
    group: () => "all",
    x: { label: "set load [N]", read: (run) => (run.plan.setLoadN === null ? null : { value: run.plan.setLoadN, half: null }) },
    yLabel: "sinkage, standing",
    measures: [{ name: "sinkageStatic", label: "standing sinkage" }],
    series: { names: wheels, of: (run) => run.plan.wheel ?? "" },
    apart: true,
  });
  const figures = [
    { heading: "Running sinkage", figure: measureFigures(day, { ...common, yLabel: "sinkage", measures: [{ name: "sinkageRunning", label: "sinkage" }] }) },
    { heading: "Sinkage while standing", figure: standing },
    { heading: "Gross traction ratio", figure: measureFigures(day, { ...common, yLabel: "gross traction ratio", measures: [{ name: "grossTractionRatio", label: "gross traction ratio" }] }) },
    { heading: "Tractive efficiency", figure: measureFigures(day, { ...common, yLabel: "tractive efficiency", measures: [{ name: "tractiveEfficiency", label: "tractive efficiency" }] }) },
  ];
  return html`<section id="sinkage"><h2>Sinkage, torque and efficiency</h2>
${each(figures, ({ heading, figure }) => html`<h3>${heading}</h3>${figure ?? html`<p class="none">Not measured, or not determined in any run.</p>`}`)}
<p class="fignote">Points are single runs with ± 2 standard uncertainties; markers of one load stand a little apart sideways where they share it. The wheel's measured deflection at the load is taken off the hub's drop; the method of each run stands in its part.</p></section>`;
}

/** Driven slip to the right, skid of a braked wheel to the left of zero [%]. */
function slipAsX(run: DayResult["runs"][number]): { readonly value: number; readonly half: number | null } | null {
  const skid = measureAsX("skid", "%")(run);
  return measureAsX("slip", "%")(run) ?? (skid === null ? null : { ...skid, value: -skid.value });
}

function pullTable(day: DayResult, slip: number): Html {
  const loads = levels(day.pullCurves.map((curve) => curve.setLoadN));
  const wheels = wheelOrder(day, day.pullCurves.map((curve) => curve.wheel));
  return html`<div class="scroll"><table><caption>Pull coefficient [${showUnit("1")}] at ${plainNumber(slip * 100)} % slip ± expanded uncertainty (95 %)</caption><thead><tr><th scope="col">Wheel</th>${each(loads, (load, index) => html`<th scope="col">${legendMark(seriesStyle(index))} ${plainNumber(load)} N</th>`)}</tr></thead>
<tbody>${each(wheels, (wheel) => html`<tr><th scope="row">${wheel}</th>${each(loads, (load) => html`<td>${pullCell(day.pullCurves.find((curve) => curve.wheel === wheel && curve.setLoadN === load && curve.pass === 1), slip)}</td>`)}</tr>`)}</tbody></table></div>`;
}

function pullCell(curve: PullCurve | undefined, slip: number): Html {
  if (curve === undefined) return html`<small>not run</small>`;
  const point = curve.atSlip.find((candidate) => candidate.slip === slip);
  const doubt = curve.fit.verdict === "determined" ? "" : ` (${fitVerdictWords[curve.fit.verdict]})`;
  if (point === undefined) return html`<span class="nd">not determined</span> <small>${curve.fit.sentence}</small>`;
  return html`${estimateCell(point.estimate)}${curve.fit.verdict === "atLimit" && html`<small>${doubt}</small>`}`;
}

function sortedCurves(day: DayResult): PullCurve[] {
  return wheelOrder(day, day.pullCurves.map((curve) => curve.wheel)).flatMap((wheel) => day.pullCurves.filter((curve) => curve.wheel === wheel).sort((a, b) => a.setLoadN - b.setLoadN || a.pass - b.pass));
}

function wheelTable(day: DayResult): Html {
  return table(day.campaign.wheels, [
    { heading: "Wheel", show: (wheel) => wheel.id },
    { heading: "Radius [mm]", align: "right", show: (wheel) => plainNumber(wheel.radiusM * 1000) },
    { heading: "Width [mm]", align: "right", show: (wheel) => plainNumber(wheel.widthM * 1000) },
    { heading: "Mass [kg]", align: "right", show: (wheel) => plainNumber(wheel.massKg) },
    { heading: "Lugs", align: "right", show: (wheel) => (wheel.lugs === 0 ? "none" : `${wheel.lugs} of ${plainNumber(wheel.lugHeightM * 1000)} mm`) },
    { heading: "Flexible", show: (wheel) => (wheel.flexible ? "yes" : "no") },
    { heading: "Construction", align: "wrap", show: (wheel) => freeColumns(wheel.factors) },
    { heading: "Description", align: "wrap", show: (wheel) => wheel.description },
  ]);
}
