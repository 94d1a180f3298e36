import type { DayResult } from "../../processing/dayResult.ts";
import { coneFigures, gradientFigure } from "../figures/coneFigures.ts";
import { coneMap } from "../figures/coneMap.ts";
import { plateFigures, shearFigures, strengthFigures } from "../figures/soilFigures.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { estimateCell } from "../showEstimate.ts";
import { table } from "../table.ts";
import { freeColumns, plainNumber, severityBadge } from "../words.ts";
import { bekkerConstants } from "./bekkerConstants.ts";
import { fitBlock } from "./fitBlock.ts";

export function soilSection(day: DayResult): Html {
  const { soil } = day;
  return html`<section id="soil"><h2>Soil</h2>
<h3>Pressure and sinkage</h3>
${soil.pressureSinkage === null ? html`<p class="none">No plate runs that could be used.</p>` : fitBlock(soil.pressureSinkage)}
${soil.pressureSinkage !== null && html`<p class="fignote">k<sub>c</sub> and k<sub>φ</sub> carry a power of metre that follows n: they belong to this n and cannot be set beside constants found with another. A negative k<sub>c</sub> is kept as found.</p>`}
${soil.pressureSinkage !== null && bekkerConstants(soil.pressureSinkage)}
${soil.plateWidths.length > 0 && plateFigures(day)}
${soil.plateWidths.length > 0 && html`<details class="day"><summary>The fit of each plate width</summary>${each(soil.plateWidths, (plate) => html`<h4>Width ${plainNumber(plate.widthM * 1000)} mm <small>runs ${plate.runs.join(", ")}</small></h4>${fitBlock(plate.fit)}`)}</details>`}
<h3>Shear strength</h3>
${soil.shearStrength === null ? html`<p class="none">No shear runs that could be used.</p>` : html`${fitBlock(soil.shearStrength)}${strengthFigures(day)}`}
${soil.shearCurves.length > 0 && html`<h3>Shear stress and displacement</h3>${shearFigures(day)}<details class="day"><summary>The shear modulus at each normal stress</summary>${each(soil.shearCurves, (curve) => html`<h4>${plainNumber(curve.normalStressPa / 1000)} kPa <small>runs ${curve.runs.join(", ")}</small></h4>${fitBlock(curve.fit)}`)}</details>`}
<p class="fignote">Points are as measured, bars ± 2 standard uncertainties of the unshared part. Constants hold inside the range of sinkage, pressure and stress that was measured; soil.json states it.</p></section>`;
}

export function conesSection(day: DayResult): Html {
  return html`<section id="cones"><h2>Cones and beds</h2><div class="scroll">${gradientFigure(day)}</div>${day.coneTrend !== null && html`<h3>Through the day</h3><h4>Gradient</h4>${fitBlock(day.coneTrend)}`}${day.coneIndexTrend !== null && html`<h4>Mean cone index</h4>${fitBlock(day.coneIndexTrend)}`}${day.campaign.cones.length > 0 ? html`<details class="day"><summary>Cone profiles and maps, bed by bed</summary>${coneFigures(day)}${coneMap(day)}</details>` : html`<p class="none">No cone readings.</p>`}
${table(day.campaign.beds, [
    { heading: "Bed", show: (bed) => bed.id },
    { heading: "Cone index gradient ± expanded uncertainty (95 %)", align: "right", show: (bed) => each(day.cones.filter((cone) => cone.bed === bed.id), (cone) => estimateCell(cone.gradient)) },
    { heading: "Against target", show: (bed) => day.cones.filter((cone) => cone.bed === bed.id).map((cone) => cone.acceptance).join(", ") },
    { heading: "Target [kPa/mm]", align: "right", show: (bed) => (bed.targetGradientPaM === null ? "–" : plainNumber(bed.targetGradientPaM / 1e6)) },
    { heading: `Mean cone index, ${plainNumber(1000 * day.campaign.rig.coneIndexDepth[0])} to ${plainNumber(1000 * day.campaign.rig.coneIndexDepth[1])} mm`, align: "right", show: (bed) => each(day.cones.filter((cone) => cone.bed === bed.id), (cone) => estimateCell(cone.index)) },
    { heading: "Density [kg/m³]", align: "right", show: (bed) => (bed.densityKgM3 === null ? "–" : plainNumber(bed.densityKgM3)) },
    { heading: "Moisture [%]", align: "right", show: (bed) => (bed.moisture === null ? "–" : plainNumber(bed.moisture * 100)) },
    { heading: "Found", align: "wrap", show: (bed) => each(day.cones.filter((cone) => cone.bed === bed.id).flatMap((cone) => cone.findings), (finding) => html`${severityBadge(finding.severity)} ${finding.message} `) },
    { heading: "Remark", align: "wrap", show: (bed) => [bed.remark, freeColumns(bed.more)].filter((part) => part !== "").join("; ") },
  ])}</section>`;
}
