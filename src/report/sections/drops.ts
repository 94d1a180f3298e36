import type { DayResult, RunResult } from "../../processing/dayResult.ts";
import { measureFigures } from "../figures/measureFigures.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct, wheelOrder } from "../pick.ts";
import { measureTable } from "./measureTable.ts";

/** Drops: restitution by height and method, peak acceleration, and every drop in numbers. */
export function dropsSection(day: DayResult): Html {
  const drops = day.runs.filter((run) => run.plan.kind === "drop");
  if (drops.length === 0) return html`<section id="drops"><h2>Drops</h2><p class="none">No drop runs.</p></section>`;
  const names = distinct(drops.flatMap((run) => run.measures.map((measure) => measure.name)));
  const labels = new Map(drops.flatMap((run) => run.measures.map((measure) => [measure.name, measure.label] as const)));
  const restitution = names.filter((name) => /^restitutionFrom/.test(name)).map((name) => ({ name, label: (labels.get(name) ?? name).replace(/^Restitution from /, "from ") }));
  const height = { label: "drop height [mm]", read: (run: RunResult) => (run.plan.dropHeightM === null ? null : { value: run.plan.dropHeightM * 1000, half: null }) };
  const common = { kind: "drop" as const, title: (wheel: string) => `Wheel ${wheel}`, group: (run: RunResult) => run.plan.wheel, x: height };
  const rest = measureFigures(day, { ...common, yLabel: "restitution", measures: restitution, apart: true, close: true });
  const wheels = wheelOrder(day, drops.map((run) => run.plan.wheel));
  const peak = measureFigures(day, {
    ...common,
    title: () => "Peak acceleration, all wheels",
    group: () => "all",
    yLabel: "peak acceleration",
    apart: true,
    measures: [{ name: "peakAcceleration", label: "peak acceleration" }],
    series: { names: wheels, of: (run) => run.plan.wheel ?? "" },
  });
  const filter = day.campaign.rig.drop;
  return html`<section id="drops"><h2>Drops</h2>
<h3>Restitution by height and method</h3>${rest ?? html`<p class="none">Not determined in any run.</p>`}
<h3>Peak acceleration</h3>${peak ?? html`<p class="none">Not determined in any run.</p>`}
${filter !== undefined && html`<p class="fignote">Accelerations passed the two-pass filter of class ${filter.filterClass} (${filter.filterStandard}); a peak is only comparable with peaks of the same class.</p>`}
<p class="fignote">Points are single drops with ± 2 standard uncertainties; markers of one height stand a little apart sideways so that none hides another. The restitution axis does not start at zero.</p>
<details class="day"><summary>Every drop in numbers</summary>${measureTable(drops)}</details></section>`;
}
