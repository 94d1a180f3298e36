import type { DayResult, RunResult } from "../../processing/dayResult.ts";
import { deflectionFigures } from "../figures/otherFigures.ts";
import { measureFigures } from "../figures/measureFigures.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct, wheelOrder } from "../pick.ts";
import { estimateCell, roundSignificant } from "../showEstimate.ts";
import { table } from "../table.ts";
import type { Column } from "../table.ts";
import { plainNumber, verdictBadge } from "../words.ts";
import { runAnchor } from "./runPart.ts";

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
<details class="day"><summary>Every drop in numbers</summary>${measureTable(drops, names, labels)}</details></section>`;
}

/** Static stiffness: curves, measures and the rolling radii that slip is counted from. */
export function stiffnessSection(day: DayResult): Html {
  const pressed = day.runs.filter((run) => run.plan.kind === "loadDeflection");
  const names = distinct(pressed.flatMap((run) => run.measures.map((measure) => measure.name)));
  const labels = new Map(pressed.flatMap((run) => run.measures.map((measure) => [measure.name, measure.label] as const)));
  return html`<section id="stiffness"><h2>Stiffness and rolling radius</h2>
<h3>Load against deflection</h3>${day.deflections.length > 0 ? deflectionFigures(day) : html`<p class="none">No load–deflection runs gave a curve.</p>`}
${pressed.length > 0 && measureTable(pressed, names, labels)}
<h3>Rolling radius on the hard floor</h3>${table(day.rollingRadii, [
    { heading: "Wheel", show: (radius) => radius.wheel },
    { heading: "Load [N]", align: "right", show: (radius) => roundSignificant(radius.loadN, 3) },
    { heading: "Rolling radius ± expanded uncertainty (95 %)", align: "right", show: (radius) => estimateCell(radius.estimate) },
    { heading: "Runs", align: "wrap", show: (radius) => radius.runs.join(", ") },
  ])}</section>`;
}

/** Runs down, measures across, every number with its interval. */
function measureTable(runs: readonly RunResult[], names: readonly string[], labels: ReadonlyMap<string, string>): Html {
  const columns: Column<RunResult>[] = [
    { heading: "Run", show: (run) => html`<a href="#${runAnchor(run)}">${run.plan.id}</a>` },
    { heading: "Verdict", show: (run) => verdictBadge(run.verdict) },
    { heading: "Wheel", show: (run) => run.plan.wheel ?? "–" },
    ...(runs.some((run) => run.plan.dropHeightM !== null) ? [{ heading: "Height [mm]", align: "right" as const, show: (run: RunResult) => (run.plan.dropHeightM === null ? "–" : plainNumber(run.plan.dropHeightM * 1000)) }] : []),
    ...names.map((name) => ({
      heading: labels.get(name) ?? name,
      align: "right" as const,
      show: (run: RunResult) => {
        const measure = run.measures.find((candidate) => candidate.name === name);
        return measure === undefined ? "–" : estimateCell(measure.estimate);
      },
    })),
  ];
  return table(runs, columns);
}
