import type { DayResult } from "../../processing/dayResult.ts";
import { footprintFigures } from "../figures/footprintFigures.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { measureTable } from "./measureTable.ts";

/** Footprints: pictures with their scale, and areas, pressures and conformity in numbers. */
export function footprintsSection(day: DayResult): Html {
  const taken = day.runs.filter((run) => run.plan.kind === "footprint");
  if (taken.length === 0) return html`<section id="footprints"><h2>Footprints</h2><p class="none">No footprint runs.</p></section>`;
  return html`<section id="footprints"><h2>Footprints</h2>${footprintFigures(day)}
${measureTable(taken)}
<p class="fignote">Conformity index: contact area over contact length times width of the rim, the share of the footprint’s box that bears, alike on flat ground, step and rock. Photographs: what counts as contact is tinted. A cell’s pressure is a mean over the cell; pads of different cells are not compared by their peaks.</p></section>`;
}
