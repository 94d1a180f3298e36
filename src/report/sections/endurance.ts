import type { InspectionRecord } from "../../campaign/campaign.ts";
import { convert, showUnit } from "../../core/units.ts";
import type { DayResult } from "../../processing/dayResult.ts";
import type { EnduranceResult, LoadDamage, WearQuantity, WearTrend, WheelEndurance } from "../../processing/enduranceResult.ts";
import { cycleFigures, wearFigures } from "../figures/wearFigures.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct, usableRuns } from "../pick.ts";
import { estimateCell, readingUnit, roundPair, roundSignificant } from "../showEstimate.ts";
import { table } from "../table.ts";
import { fitVerdict, plainNumber, severityBadge } from "../words.ts";
import { fitBlock } from "./fitBlock.ts";
import { measureTable } from "./measureTable.ts";

/** Endurance: wear over the distance and at the mission, inspections, cycles of load, lives, demonstration; nothing on a day without. */
export function enduranceSection(day: DayResult): Html {
  const { endurance } = day;
  if (endurance === null) return html``;
  const mission = day.campaign.rig.endurance?.missionDistance ?? null;
  const runs = day.runs.filter((run) => run.plan.kind === "endurance");
  return html`<section id="endurance"><h2>Endurance</h2>
<p>${mission === null ? "No mission distance is stated: write missionDistance, in m, under endurance in rig.yaml." : `Held against a mission of ${plainNumber(mission / 1000)} km.`}</p>
${table(endurance.wheels, [
    { heading: "Wheel", show: (one) => one.wheel },
    { heading: "Mass lost per distance", align: "right", show: (one) => estimateCell(one.massLossPerDistance) },
    { heading: "Specific wear rate", align: "right", show: (one) => estimateCell(one.specificWear) },
    { heading: "Damage in the runs", align: "right", show: (one) => (one.damage === null ? noCycles : estimateCell(one.damage.damage)) },
    { heading: "Damage of a mission", align: "right", show: (one) => (one.damage === null ? noCycles : missionDamage(one.damage)) },
  ], { stack: true })}
<p class="fignote">Specific wear rate: volume lost for each newton of load and metre of sliding. Damage: linear sum over rain-flow cycles; failure is expected about 1, and single lives scatter by a factor of about three either way (common practice); the interval is on the logarithmic scale. The order of loads and their mean are left out.</p>
${trendsPart(endurance, mission)}
<h3>Inspections</h3>${each(endurance.wheels, inspections)}
<h3>Cycles of load</h3>${cycleFigures(usableRuns(day, "endurance")) ?? html`<p class="none">No endurance run counted cycles of its load.</p>`}
<h3>Lives</h3>${livesPart(endurance)}
<h3>Demonstration without failures</h3>${demonstrationPart(endurance, mission)}
${runs.length > 0 && html`<details class="day"><summary>Every endurance run in numbers</summary>${measureTable(runs)}</details>`}</section>`;
}

const noCycles = html`<span class="nd">not determined</span> <small>no endurance run of this wheel counted cycles</small>`;

/** The interval that people read is the one on the logarithmic scale. */
function missionDamage({ atMission, missionInterval }: LoadDamage): Html {
  if (missionInterval === null) return estimateCell(atMission);
  return html`<span class="num">${roundSignificant(atMission.value, 2)}</span> <small>95 %: ${roundSignificant(missionInterval.low, 2)} to ${roundSignificant(missionInterval.high, 2)}</small>`;
}

function trendsPart(endurance: EnduranceResult, mission: number | null): Html {
  const trends = endurance.wheels.flatMap((one) => one.trends.map((trend) => ({ wheel: one.wheel, trend })));
  const quantities = distinct<WearQuantity>(trends.map(({ trend }) => trend.quantity));
  if (quantities.length === 0) return html`<h3>Wear over the distance</h3><p class="none">No inspections: write inspections.csv.</p>`;
  return html`${each(quantities, (quantity) => html`<h3>${trends.find(({ trend }) => trend.quantity === quantity)?.trend.label} over the distance</h3>${wearFigures(endurance, quantity, mission)}
${table(trends.filter(({ trend }) => trend.quantity === quantity), [
    { heading: "Wheel", show: ({ wheel }) => wheel },
    { heading: mission === null ? "At the mission distance" : `At ${plainNumber(mission / 1000)} km`, align: "right", show: ({ trend }) => estimateCell(trend.atMission) },
    { heading: "One more inspection there, 95 %", align: "right", show: ({ trend }) => furtherInspection(trend) },
    { heading: "Trend", align: "wrap", show: ({ trend }) => html`${fitVerdict(trend.fit.verdict, trend.fit.sentence)}${trend.choice}${each(trend.fit.findings, (found) => html`<p>${severityBadge(found.severity)} ${found.message}</p>`)}` },
  ], { stack: true })}`)}
<p class="fignote">Shaded: the trend with 95 % confidence. Dotted: 95 % of further inspections of this wheel. Dashed upright: the mission distance. Bars are ± 2 standard uncertainties of a point; crosses do not count. Upright axes have one span and do not start at zero.</p>
<details class="day"><summary>Constants of the trends</summary>${each(trends, ({ wheel, trend }) => html`<h4>Wheel ${wheel}, ${trend.label.toLowerCase()}</h4>${fitBlock(trend.fit)}`)}</details>`;
}

function furtherInspection({ prediction, atMission }: WearTrend): string {
  if (prediction === null) return "–";
  const unit = readingUnit(atMission.unit);
  const [low, high] = [prediction.low, prediction.high].map((value) => convert(value, atMission.unit, unit)) as [number, number];
  return `${roundPair((low + high) / 2, (high - low) / 2)}${unit === "1" ? "" : ` ${showUnit(unit)}`}`;
}

function inspections(one: WheelEndurance): Html {
  if (one.inspections.length === 0) return html`<p class="none">Wheel ${one.wheel}: none.</p>`;
  const cell = (value: number | null, scale: number): string => (value === null ? "–" : plainNumber(value * scale));
  // What was never written down needs no column.
  const number = (heading: string, of: (record: InspectionRecord) => number | null, scale: number) =>
    one.inspections.every(({ record }) => of(record) === null) ? [] : [{ heading, align: "right" as const, show: ({ record }: WheelEndurance["inspections"][number]) => cell(of(record), scale) }];
  return html`<h4>Wheel ${one.wheel}</h4>${table(one.inspections, [
    { heading: "Distance [km]", align: "right", show: ({ record }) => plainNumber(record.distanceM / 1000) },
    ...number("Weighed [kg]", (record) => record.massKg, 1),
    ...number("Soil on it [g]", (record) => record.soilMassKg, 1000),
    { heading: "Mass without soil", align: "right", show: ({ mass }) => estimateCell(mass) },
    ...number("Radius [mm]", (record) => record.radiusM, 1000),
    ...number("Stiffness [N/mm]", (record) => record.stiffnessNm, 0.001),
    ...number("Pull coefficient [1]", (record) => record.pullCoefficient, 1),
    ...number("Broken elements", (record) => record.brokenElements, 1),
    ...(one.inspections.some(({ record }) => record.run !== null) ? [{ heading: "Pull from run", show: ({ record }: WheelEndurance["inspections"][number]) => record.run ?? "–" }] : []),
    { heading: "State", show: ({ record, refused }) => `${record.failed ? "failed" : "sound"}${refused === null ? "" : `; left out: ${refused}`}` },
    { heading: "Remark", align: "wrap", show: ({ record }) => record.remark },
  ], { stack: true })}${one.findings.length > 0 && html`<ul class="reasons">${each(one.findings, (found) => html`<li>${severityBadge(found.severity)} ${found.message}</li>`)}</ul>`}`;
}

function livesPart({ lives }: EnduranceResult): Html {
  const { fit, b10, b10Interval, survival } = lives;
  const km = (metres: number): string => roundSignificant(metres / 1000, 3);
  return html`${fit.verdict === "undetermined" ? fitVerdict(fit.verdict, fit.sentence) : html`${fitBlock(fit)}<p>Nine of ten wheels outlive ${estimateCell(b10, "km")}${b10Interval !== null && html`; 95 % interval on the logarithmic scale ${km(b10Interval.low)} to ${km(b10Interval.high)} km`}.</p>`}
${survival.length > 0 && table(survival, [
    { heading: "Failure at [km]", align: "right", show: (step) => km(step.distanceM) },
    { heading: "Share of wheels that outlive it (product limit)", align: "right", show: (step) => roundSignificant(step.share, 3) },
  ])}
<p class="fignote">A wheel counts as failed where the inspection found it, late by up to one interval; wheels still sound count with what they have run.</p>`;
}

function demonstrationPart({ demonstration }: EnduranceResult, mission: number | null): Html {
  return html`${fitVerdict(demonstration.verdict, demonstration.sentence)}
${demonstration.needed.length > 0 && table(demonstration.needed, [
    { heading: "New wheels", align: "right", show: (plan) => String(plan.wheels) },
    { heading: "Missions each, without a failure", align: "right", show: (plan) => roundSignificant(plan.missions, 3) },
    ...(mission === null ? [] : [{ heading: "Distance each [km]", align: "right" as const, show: (plan: { readonly distanceM: number }) => roundSignificant(plan.distanceM / 1000, 3) }]),
  ])}
<p class="fignote">One failure ends such a demonstration. Only a lower limit is learned, and it hangs on the shape of lives that is assumed.</p>`;
}
