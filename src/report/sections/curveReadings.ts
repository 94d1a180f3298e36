import type { CurveCandidate, DayResult, PullCurve } from "../../processing/dayResult.ts";
import { curveName } from "../curveName.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct, usableRuns } from "../pick.ts";
import { estimateCell } from "../showEstimate.ts";
import { table } from "../table.ts";
import type { Column } from "../table.ts";
import { fitVerdictWords, plainNumber } from "../words.ts";
import { measureTable } from "./measureTable.ts";

/** What is read from the curves beside the pull at stated slips; every number with its interval, or why there is none. */
export function curveReadings(curves: readonly PullCurve[]): Html {
  const pulls = distinct(curves.flatMap((curve) => curve.atPull.map((point) => point.pull)));
  const number = (heading: string, of: (curve: PullCurve) => Parameters<typeof estimateCell>[0]): Column<PullCurve> => ({ heading, align: "right", show: (curve) => estimateCell(of(curve)) });
  return html`<h3>Read from the curves</h3>${table(
    curves,
    [
      { heading: "Curve", named: false, show: (curve) => html`<b class="num">${curveName(curve)}</b>` },
      number("Best efficiency", (curve) => curve.bestEfficiency.efficiency),
      number("at slip", (curve) => curve.bestEfficiency.slip),
      ...pulls.flatMap((pull) => [number(`Slip at a pull coefficient of ${plainNumber(pull)}`, (curve) => (curve.atPull.find((point) => point.pull === pull) as PullCurve["atPull"][number]).estimate)]),
      number("Self-propelled: slip at no pull", (curve) => curve.selfPropelled),
      number("Towed: slip at no torque", (curve) => curve.towed.slip),
      number("Towed: pull coefficient", (curve) => curve.towed.pull),
    ],
    { stack: true },
  )}<p class="fignote">Slip below zero is minus the skid of a braked wheel, 1 − rω/v. Self-propelled and towed points are read from the curve of both signs where braked runs count. Efficiency: (P/W)(1 − s)/(T/(rW)) of the two fitted curves.</p>`;
}

/** Every form that was tried on a curve's runs, and why one was chosen. */
export function candidateTable(curve: PullCurve): Html {
  return html`${table(curve.candidates, [
    { heading: "Form", show: (one: CurveCandidate) => html`${one.fit.model}${one.chosen ? html` <b>chosen</b>` : one.comparable && html` <small>comparable</small>`}` },
    { heading: "Error at slips left out [–]", align: "right", show: (one) => (one.heldOutError === null ? "not scored" : one.heldOutError.toPrecision(2)) },
    { heading: "Verdict", align: "wrap", show: (one) => html`${fitVerdictWords[one.fit.verdict]} <small>${one.fit.verdict === "determined" ? "" : one.fit.sentence}</small>` },
  ])}<p class="fignote">${curve.choice}${curve.scatter !== null && html` ${curve.scatter.sentence}`}</p>`;
}

const covariateWords = { coneGradient: "firmer bed, per 10 % of cone index gradient", speed: "faster, per doubling of the carriage speed" } as const;

/** What firmness and speed do to the pull beside slip and load. */
export function covariateTable(day: DayResult): Html {
  return html`<h3>Beside slip and load</h3>${table(day.covariateEffects, [
    { heading: "Wheel", show: (effect) => effect.wheel },
    { heading: "Covariate", show: (effect) => covariateWords[effect.covariate] },
    { heading: "Change of the pull coefficient [–]", align: "right", show: (effect) => estimateCell(effect.estimate) },
    // of one that is not determined the cell beside it says why
    { heading: "Found by", align: "wrap", show: (effect) => (effect.estimate.standardUncertainty === null ? "–" : effect.estimate.method) },
  ], { stack: true })}`;
}

/** The slip of every run under each policy of the radius. */
export function policyTable(day: DayResult): Html {
  const names = ["slip", "skid", "slipByRim", "slipByLugTips", "slipByLoadedRadius", "slipByRollingRadius"];
  const { policy, lugs } = day.campaign.rig.slipRadius;
  return html`<details class="day"><summary>Slip by the choice of radius, run by run</summary><p>Declared in rig.yaml: ${policy} radius, ${lugs} lugs. The other columns show what another choice would say of the same run; results use the declared one. Skid stands below zero in them.</p>${measureTable(usableRuns(day, "traction"), names)}</details>`;
}
