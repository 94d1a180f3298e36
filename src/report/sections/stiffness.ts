import type { DayResult } from "../../processing/dayResult.ts";
import { circumferenceFigures, deflectionFigures } from "../figures/stiffnessFigures.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { estimateCell, roundSignificant } from "../showEstimate.ts";
import { table } from "../table.ts";
import { fitVerdict, plainNumber } from "../words.ts";
import { measureTable } from "./measureTable.ts";

/** The press: curves, what they say of stiffness, loss, settling and creep, how even each wheel is, what its core adds; and the rolling radii that slip is counted from. */
export function stiffnessSection(day: DayResult): Html {
  const pressed = day.runs.filter((run) => run.plan.kind === "loadDeflection");
  const names = ["deflection", "secantStiffness", "tangentStiffness", "loopEnergy", "lossFactor", "loadedRadius"];
  const slow = ["settlingTotal", "settlingPerCycle", "creepDuringDwell", "creepPerTenfoldTime", "creepTime"];
  const crept = slow.filter((name) => pressed.some((run) => run.measures.some((measure) => measure.name === name)));
  return html`<section id="stiffness"><h2>Stiffness and rolling radius</h2>
<h3>Load against deflection</h3>${day.deflections.length > 0 ? deflectionFigures(day) : html`<p class="none">No load–deflection runs gave a curve.</p>`}
${pressed.length > 0 && measureTable(pressed, names)}
${crept.length > 0 && html`<details class="day"><summary>Settling from cycle to cycle, and creep under held load</summary>${measureTable(pressed, crept)}<p class="fignote">Settling counts from the first contact of the run; conditioning cycles are in the total, not in the settling per cycle. Of two creep laws the one that describes the dwell clearly better is given; neither holds beyond the dwell.</p></details>`}
${day.circumferences.length > 0 && roundSection(day)}
${day.coreDifferences.length > 0 && coreSection(day)}
<h3>Rolling radius on the hard floor</h3>${table(day.rollingRadii, [
    { heading: "Wheel", show: (radius) => radius.wheel },
    { heading: "Load [N]", align: "right", show: (radius) => roundSignificant(radius.loadN, 3) },
    { heading: "Rolling radius ± expanded uncertainty (95 %)", align: "right", show: (radius) => estimateCell(radius.estimate) },
    { heading: "Runs", align: "wrap", show: (radius) => radius.runs.join(", ") },
  ])}</section>`;
}

const measureWords: Readonly<Record<string, string>> = { secantStiffness: "Secant stiffness", deflection: "Deflection" };

function roundSection(day: DayResult): Html {
  return html`<h3>Round the circumference</h3>${circumferenceFigures(day)}${table(day.circumferences, [
    { heading: "Wheel", show: (round) => round.wheel },
    { heading: "Set load [N]", align: "right", show: (round) => (round.setLoadN === null ? "–" : plainNumber(round.setLoadN)) },
    { heading: "Measure", show: (round) => measureWords[round.measure] ?? round.measure },
    { heading: "Mean", align: "right", show: (round) => estimateCell(round.mean) },
    { heading: "Greatest less least", align: "right", show: (round) => estimateCell(round.range) },
    { heading: "Amplitude of one wave a turn", align: "right", show: (round) => estimateCell(round.amplitude) },
    { heading: "Verdict", align: "wrap", show: (round) => fitVerdict(round.fit.verdict, round.fit.sentence) },
  ])}`;
}

function coreSection(day: DayResult): Html {
  return html`<h3>Core against bare frame</h3>${each(day.coreDifferences, (pair) => html`<h4>${pair.wheel} less ${pair.frame}${pair.setLoadN !== null && html` <small>at ${plainNumber(pair.setLoadN)} N; runs ${pair.runs.join(", ")}</small>`}</h4>${table(pair.differences, [
    { heading: "Measure", show: (row) => row.label },
    { heading: `${pair.wheel}, with core`, align: "right", show: (row) => estimateCell(row.withCore) },
    { heading: `${pair.frame}, bare frame`, align: "right", show: (row) => estimateCell(row.bare) },
    { heading: "The core’s part", align: "right", show: (row) => estimateCell(row.core) },
  ])}`)}<p class="fignote">Springs and losses side by side add, as far as core and frame deflect together. Calibrations that both wheels share enter a difference by their difference only.</p>`;
}
