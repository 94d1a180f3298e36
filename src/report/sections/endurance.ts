import type { DayResult } from "../../processing/dayResult.ts";
import type { EnduranceResult, LogInterval, WheelEndurance } from "../../processing/enduranceResult.ts";
import type { Estimate } from "../../core/estimate.ts";
import { cycleFigures } from "../figures/wearFigures.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { usableRuns } from "../pick.ts";
import { estimateCell, roundSignificant } from "../showEstimate.ts";
import { table } from "../table.ts";
import { fitVerdict, plainNumber } from "../words.ts";
import { inspectionsPart } from "./inspections.ts";
import { livesPart } from "./lives.ts";
import { measureTable } from "./measureTable.ts";
import { wearTrendsPart } from "./wearTrends.ts";

/** Endurance: wear over the distance and at the mission, inspections, cycles of load, lives, demonstration; nothing on a day without. */
export function enduranceSection(day: DayResult): Html {
  const { endurance } = day;
  if (endurance === null) return html``;
  const mission = day.campaign.rig.endurance?.missionDistance ?? null;
  const runs = day.runs.filter((run) => run.plan.kind === "endurance");
  // of the others only how far they came is known: they stand under inspections and lives
  const followed = endurance.wheels.filter((one) => one.trends.length > 0 || one.damage !== null);
  return html`<section id="endurance"><h2>Endurance</h2>
<p>${mission === null ? "No mission distance is stated: write missionDistance, in m, under endurance in rig.yaml." : `Held against a mission of ${plainNumber(mission / 1000)} km.`}</p>
${followed.length > 0 && summary(followed)}
${wearTrendsPart(endurance, mission)}
<h3>Inspections</h3>${inspectionsPart(endurance)}
<h3>Cycles of load</h3>${cycleFigures(usableRuns(day, "endurance")) ?? html`<p class="none">No endurance run counted cycles of its load.</p>`}
<h3>Lives</h3>${livesPart(endurance)}
<h3>Demonstration without failures</h3>${demonstrationPart(endurance, mission)}
${runs.length > 0 && html`<details class="day"><summary>Every endurance run in numbers</summary>${measureTable(runs)}</details>`}</section>`;
}

function summary(wheels: readonly WheelEndurance[]): Html {
  return html`${table(wheels, [
    { heading: "Wheel", show: (one) => one.wheel },
    { heading: "Mass lost per distance", align: "right", show: (one) => estimateCell(one.massLossPerDistance) },
    { heading: "Specific wear rate", align: "right", show: (one) => estimateCell(one.specificWear) },
    { heading: "Damage in the runs", align: "right", show: ({ damage }) => (damage === null ? noCycles : damageCell(damage.damage, damage.damageInterval)) },
    { heading: "Damage of a mission", align: "right", show: ({ damage }) => (damage === null ? noCycles : damageCell(damage.atMission, damage.missionInterval)) },
  ], { stack: true })}
<p class="fignote">Specific wear rate: volume lost for each newton of load and metre of sliding. Damage: linear sum over rain-flow cycles; failure is expected about 1, and single lives scatter by a factor of about three either way (common practice); its interval is on the logarithmic scale. The order of loads and their mean are left out.</p>`;
}

const noCycles = html`<span class="nd">not determined</span> <small>no endurance run of this wheel counted cycles</small>`;

/** The interval that people read is the one on the logarithmic scale. */
function damageCell(damage: Estimate, interval: LogInterval | null): Html {
  if (interval === null) return estimateCell(damage);
  return html`<span class="num">${roundSignificant(damage.value, 2)}</span> <small>95 %: ${roundSignificant(interval.low, 2)} to ${roundSignificant(interval.high, 2)}</small>`;
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
