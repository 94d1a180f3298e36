import type { ClimbCurve, DayResult } from "../../processing/dayResult.ts";
import { climbFigures } from "../figures/climbFigures.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { estimateCell } from "../showEstimate.ts";
import { table } from "../table.ts";
import { fitVerdict, plainNumber } from "../words.ts";
import { measureTable } from "./measureTable.ts";

/** Obstacles: chance of success against height, the heights for 50 % and 90 %, statics beside them, every trial in numbers. */
export function obstaclesSection(day: DayResult): Html {
  const trials = day.runs.filter((run) => run.plan.kind === "obstacle");
  if (trials.length === 0 && day.climbCurves.length === 0) return html`<section id="obstacles"><h2>Obstacles</h2><p class="none">No obstacle runs.</p></section>`;
  return html`<section id="obstacles"><h2>Obstacles</h2>${climbFigures(day)}${table(day.climbCurves, [
    { heading: "Wheel", show: (curve) => curve.wheel },
    { heading: "Edge", show: (curve) => curve.edge },
    { heading: "Got over / did not", align: "right", show: (curve) => `${curve.climbed} / ${curve.failed}` },
    ...[0, 1].map((index) => ({ heading: `Height for ${index === 0 ? 50 : 90} %, 95 % interval`, align: "right" as const, show: (curve: ClimbCurve) => heightCell(curve, index) })),
    { heading: "Friction a lone rigid wheel needs at 50 %", align: "right", show: (curve) => estimateCell(curve.frictionAtHalf) },
    { heading: "Height by the stated friction", align: "right", show: (curve) => estimateCell(curve.heightByFriction) },
    { heading: "Verdict", align: "wrap", show: (curve) => fitVerdict(curve.fit.verdict, curve.fit.sentence) },
  ])}
<p class="fignote">Heights and intervals by logistic regression and profile likelihood; heights of obstacles count as exact, trials as independent. Statics is that of a lone rigid wheel at a rigid edge, which nothing pushes: wheels of a rover do better, a rim that gives way too.</p>
<details class="day"><summary>Every trial in numbers</summary>${measureTable(trials)}</details></section>`;
}

function heightCell(curve: ClimbCurve, index: number): Html {
  const height = curve.heights[index];
  if (height === undefined || height.estimate.standardUncertainty === null || height.low === null || height.high === null) return height === undefined ? html`–` : estimateCell(height.estimate);
  const mm = (metres: number): string => plainNumber(Number((metres * 1000).toPrecision(3)));
  return html`<span class="num">${mm(height.estimate.value)} mm</span> <small>${mm(height.low)} … ${mm(height.high)} mm</small>`;
}
