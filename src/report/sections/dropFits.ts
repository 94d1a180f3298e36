import type { Finding } from "../../core/finding.ts";
import type { DayResult } from "../../processing/dayResult.ts";
import type { DropFits } from "../../processing/dropFitsResult.ts";
import { contactFigure, restitutionFigures } from "../figures/dropFigures.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct } from "../pick.ts";
import { estimateCell } from "../showEstimate.ts";
import { table } from "../table.ts";
import { fitVerdict, plainNumber, severityBadge } from "../words.ts";
import { fitBlock } from "./fitBlock.ts";

/** Restitution against impact speed: figures, then each wheel's verdict. */
export function restitutionPart(day: DayResult): Html {
  if (day.dropFits.length === 0) return html`<p class="none">No drops of a wheel.</p>`;
  return html`${restitutionFigures(day)}
${each(day.dropFits, (drops) => html`<p><b>Wheel ${drops.wheel}.</b> ${drops.restitution.sentence}</p>${said(drops.restitution.findings)}`)}
<details class="day"><summary>Constants of the restitution curves</summary>${each(day.dropFits, (drops) => html`<h4>Wheel ${drops.wheel}</h4>${fitBlock(drops.restitution)}`)}</details>`;
}

/** The fitted contact of each wheel, how it predicts heights it was not fitted to, and drops that were not made. */
export function contactPart(day: DayResult): Html {
  if (day.dropFits.length === 0) return html`<p class="none">No drops of a wheel.</p>`;
  const asked = day.campaign.rig.drop?.predict ?? [];
  return html`<p>A push that grows with a power of the compression and with its speed (Hunt and Crossley), and a viscous part, fitted to all drops of a wheel at once. It is scored by leaving out one height after the other and predicting its drops.</p>
${each(day.dropFits, (drops) => html`<h4>Wheel ${drops.wheel}</h4>${fitVerdict(drops.contact.verdict, drops.contact.sentence)}${said(drops.contact.findings)}
${drops.contact.verdict !== "undetermined" && html`<div class="multiples wide">${contactFigure(drops, ["peak acceleration", "largest compression", "contact duration", "restitution"])}</div>`}
${scored(drops)}
${asked.length > 0 && predictions(drops)}
<details class="day"><summary>Constants of wheel ${drops.wheel}</summary>${fitBlock(drops.contact)}</details>`)}
${asked.length === 0 && html`<p class="none">No drop to predict is asked for. Write in rig.yaml, under drop: predict: [{ height: 0.3, gravity: 1.62 }], height in m, gravity in m/s².</p>`}`;
}

/** Findings stand in the open beside the verdict they qualify. */
function said(findings: readonly Finding[]): Html {
  return html`${findings.length > 0 && html`<ul class="reasons">${each(findings, (finding) => html`<li>${severityBadge(finding.severity)} ${finding.message}</li>`)}</ul>`}`;
}

function scored(drops: DropFits): Html {
  if (drops.heldOut.length === 0) return html`<p class="none">Not scored: leaving a height out needs four.</p>`;
  const rows = distinct(drops.heldOut.map((one) => one.quantity)).map((quantity) => {
    const of = drops.heldOut.filter((one) => one.quantity === quantity);
    return { quantity, of };
  });
  const heights = distinct(drops.heldOut.map((one) => one.heightM));
  const percent = (value: number): string => {
    const shown = (100 * value).toFixed(1);
    return Number(shown) === 0 ? "0.0" : `${value < 0 ? "−" : "+"}${shown.replace("-", "")}`;
  };
  return table(rows, [
    { heading: "Held out, measured less predicted [%]", show: (row) => row.quantity },
    ...heights.map((height) => ({
      heading: `from ${plainNumber(height * 1000)} mm`,
      align: "right" as const,
      show: (row: (typeof rows)[number]) => row.of.filter((one) => one.heightM === height).map((one) => percent(one.error)).join(", "),
    })),
    { heading: "Inside 95 %", align: "right", show: (row) => `${row.of.filter((one) => one.inside).length} of ${row.of.length}` },
  ], { stack: true });
}

function predictions(drops: DropFits): Html {
  if (drops.predicted.length === 0) return html`<p class="none">No prediction: the contact is not determined.</p>`;
  return html`${table(drops.predicted, [
    { heading: "Predicted drop", show: (one) => `${plainNumber(one.heightM * 1000)} mm at ${plainNumber(one.gravity)} m/s²` },
    { heading: "Contact speed [m/s]", align: "right", show: (one) => plainNumber(Number(one.impactSpeedMps.toPrecision(3))) },
    { heading: "Peak acceleration", align: "right", show: (one) => estimateCell(one.acceleration) },
    { heading: "Peak force", align: "right", show: (one) => (one.force === null ? "–" : estimateCell(one.force)) },
    { heading: "Compression", align: "right", show: (one) => estimateCell(one.compression) },
    { heading: "Duration", align: "right", show: (one) => estimateCell(one.duration, "ms") },
    { heading: "Restitution", align: "right", show: (one) => estimateCell(one.restitution) },
  ], { stack: true })}${each(drops.predicted.filter((one) => one.cautions.length > 0), (one) => html`<p class="fignote"><b>${plainNumber(one.heightM * 1000)} mm at ${plainNumber(one.gravity)} m/s²:</b> ${one.cautions.join("; ")}.</p>`)}<p class="fignote">A free fall, without a guide's friction. The interval is that of one more drop: constants, what all drops share, misfit, and the error with which a height as far out was missed.</p>`;
}
