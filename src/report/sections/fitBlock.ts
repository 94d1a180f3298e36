import type { Fit } from "../../core/fit.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct } from "../pick.ts";
import { estimateCell, showDegrees } from "../showEstimate.ts";
import { table } from "../table.ts";
import { fitVerdict, plainWords, severityBadge } from "../words.ts";

/** A fit as text: verdict, formula, constants with their intervals, what was left out. */
export function fitBlock(fit: Fit): Html {
  const refused = fit.points.filter((point) => !point.kept);
  const reasons = distinct(refused.map((point) => point.reason));
  return html`${fitVerdict(fit.verdict, fit.sentence)}<p class="formula">${fit.formula}</p>
${table(fit.parameters, [
    { heading: "Constant", show: (parameter) => html`${plainWords(parameter.name)} <i class="symbol">${parameter.symbol}</i>` },
    { heading: "Value ± expanded uncertainty (95 %)", align: "right", show: (parameter) => estimateCell(parameter.estimate) },
    { heading: "Found by", align: "wrap", show: (parameter) => parameter.estimate.method },
  ], { stack: true })}
<p class="fignote">${fit.points.length - refused.length} points used${fit.degreesOfFreedom !== Infinity && html`, ${showDegrees(fit.degreesOfFreedom)} degrees of freedom`}.${refused.length > 0 && html` ${refused.length} left out: ${each(reasons, (reason) => html`${reason} (${refused.filter((point) => point.reason === reason).length} ×) `)}`}</p>
${fit.findings.length > 0 && html`<ul class="reasons">${each(fit.findings, (finding) => html`<li>${severityBadge(finding.severity)} ${finding.message}</li>`)}</ul>`}`;
}
