import type { DayResult, RunResult } from "../../processing/dayResult.ts";
import { footprintFigures } from "../figures/footprintFigures.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { estimateCell } from "../showEstimate.ts";
import { table } from "../table.ts";
import { plainNumber } from "../words.ts";
import { measureTable } from "./measureTable.ts";

/** Footprints: pictures with their scale, and areas, pressures and conformity in numbers. */
export function footprintsSection(day: DayResult): Html {
  const taken = day.runs.filter((run) => run.plan.kind === "footprint");
  if (taken.length === 0) return html`<section id="footprints"><h2>Footprints</h2><p class="none">No footprint runs.</p></section>`;
  return html`<section id="footprints"><h2>Footprints</h2>${footprintFigures(day)}
<h3>Where the wheel touches</h3>${measureTable(taken, given(taken, ["contactArea", "contactLength", "contactLengthByDeflection", "conformityIndex"]))}
<h3>How hard</h3>${measureTable(taken, given(taken, ["meanPressure", "peakPressure", "peakOverMean", "footprintForce", "footprintForceRatio"]))}
${day.conformity.length > 0 && html`<h3>Uneven ground against flat</h3>${table(day.conformity, [
    { heading: "Wheel", show: (one) => one.wheel },
    { heading: "Load [N]", align: "right", show: (one) => plainNumber(one.setLoadN) },
    { heading: "Ground", show: (one) => one.ground },
    { heading: "By", show: (one) => (one.from === "pad" ? "pad" : "photograph") },
    { heading: "Conformity index over that on flat ground", align: "right", show: (one) => estimateCell(one.index) },
    { heading: "Contact area over that on flat ground", align: "right", show: (one) => estimateCell(one.area) },
    { heading: "Runs", align: "wrap", show: (one) => one.runs.join(", ") },
  ], { stack: true })}<p class="fignote">Both ratios compare a wheel with itself at one load and by one recorder. Near 1 the rim lies on the obstacle as it does on the floor; below 1 it bridges. The index leaves out how long the footprint is, the area does not.</p>`}
<p class="fignote">Conformity index: contact area over contact length times width of the rim, the share of the footprint’s box that bears, alike on flat ground, step and rock. Photographs: what counts as contact is tinted. A cell’s pressure is a mean over the cell; pads of different cells are not compared by their peaks.</p></section>`;
}

/** Those of the named measures that some run has. */
function given(runs: readonly RunResult[], names: readonly string[]): string[] {
  return names.filter((name) => runs.some((run) => run.measures.some((measure) => measure.name === name)));
}
