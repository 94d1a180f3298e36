import { convert, showUnit } from "../../core/units.ts";
import type { EnduranceResult, WearTrend } from "../../processing/enduranceResult.ts";
import { wearFigures } from "../figures/wearFigures.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct } from "../pick.ts";
import { estimateCell, readingUnit, roundPair } from "../showEstimate.ts";
import { table } from "../table.ts";
import { fitVerdict, plainNumber, severityBadge } from "../words.ts";
import { fitBlock } from "./fitBlock.ts";

interface Followed {
  readonly wheel: string;
  readonly trend: WearTrend;
}

/** Every quantity that inspections follow: its figures, its value at the mission, and what to know of it. */
export function wearTrendsPart(endurance: EnduranceResult, mission: number | null): Html {
  const trends = endurance.wheels.flatMap((one) => one.trends.map((trend): Followed => ({ wheel: one.wheel, trend })));
  const quantities = distinct(trends.map(({ trend }) => trend.quantity));
  if (quantities.length === 0) return html`<h3>Wear over the distance</h3><p class="none">No quantity was followed: write masses, radii, stiffnesses or pulls into inspections.csv.</p>`;
  return html`${each(quantities, (quantity) => {
    const those = trends.filter(({ trend }) => trend.quantity === quantity);
    return html`<h3>${those[0]?.trend.label} over the distance</h3>${wearFigures(endurance, quantity, mission)}
${table(those, [
      { heading: "Wheel", show: ({ wheel }) => wheel },
      { heading: mission === null ? "At the mission distance" : `At ${plainNumber(mission / 1000)} km`, align: "right", show: ({ trend }) => estimateCell(trend.atMission) },
      { heading: "One more inspection there, 95 %", align: "right", show: ({ trend }) => furtherInspection(trend) },
      { heading: "Trend", align: "wrap", show: ({ trend }) => html`${fitVerdict(trend.fit.verdict, trend.fit.sentence)}${trend.choice}` },
    ], { stack: true })}${saidOf(those)}`;
  })}
<p class="fignote">Shaded: the trend with 95 % confidence. Dotted: 95 % of further inspections of this wheel. Dashed upright: the mission distance. Bars are ± 2 standard uncertainties of a point; crosses do not count. Upright axes have one span and do not start at zero.</p>
<details class="day"><summary>Constants of the trends</summary>${each(trends, ({ wheel, trend }) => html`<h4>Wheel ${wheel}, ${trend.label.toLowerCase()}</h4>${fitBlock(trend.fit)}`)}</details>`;
}

/** What is found of several wheels in the same words is said once. */
function saidOf(trends: readonly Followed[]): Html | false {
  const found = trends.flatMap(({ wheel, trend }) => trend.fit.findings.map((finding) => ({ wheel, finding })));
  const messages = distinct(found.map(({ finding }) => finding.message));
  return messages.length > 0 && html`<ul class="reasons">${each(messages, (message) => {
    const those = found.filter(({ finding }) => finding.message === message);
    return html`<li>${severityBadge(those[0]?.finding.severity ?? "look")} ${those.map(({ wheel }) => wheel).join(", ")}: ${message}</li>`;
  })}</ul>`;
}

function furtherInspection({ prediction, atMission }: WearTrend): string {
  if (prediction === null) return "–";
  const unit = readingUnit(atMission.unit);
  const [low, high] = [prediction.low, prediction.high].map((value) => convert(value, atMission.unit, unit)) as [number, number];
  return `${roundPair((low + high) / 2, (high - low) / 2)}${unit === "1" ? "" : ` ${showUnit(unit)}`}`;
}
