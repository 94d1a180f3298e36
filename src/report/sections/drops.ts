import type { DayResult, RunResult } from "../../processing/dayResult.ts";
import { dropCurves, filterFigures } from "../figures/dropFigures.ts";
import { measureFigures } from "../figures/measureFigures.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct, wheelOrder } from "../pick.ts";
import { plainNumber } from "../words.ts";
import { dampingPart } from "./dropDamping.ts";
import { contactPart, restitutionPart } from "./dropFits.ts";
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
  const loops = dropCurves(day, { name: "forceCompression", description: "Contact force over compression of the first contact, drops of one height in one colour", note: "Force: falling mass times acceleration and gravity, after the declared filter. Compression: acceleration integrated twice from first touch, anchored by the contact speed. The area of a loop is what the contact absorbed." });
  const energies = dropCurves(day, { name: "bounceEnergy", description: "Energy of the motion at first touch and after every bounce", logY: true, note: "Energy of the motion at first touch (0 bounces) and at every lift-off; a straight line is a restitution that does not change." });
  const shock = shockPart(day);
  return html`<section id="drops"><h2>Drops</h2>
<h3>Restitution by height and method</h3>${rest ?? html`<p class="none">Not determined in any run.</p>`}
<h3>Peak acceleration</h3>${peak ?? html`<p class="none">Not determined in any run.</p>`}
${filter !== undefined && html`<p class="fignote">Accelerations passed the two-pass filter of class ${filter.filterClass} (${filter.filterStandard}); a peak is only comparable with peaks of the same class.</p>`}
<p class="fignote">Points are single drops with ± 2 standard uncertainties; markers of one height stand a little apart sideways so that none hides another. The restitution axis does not start at zero.</p>
<h3>Restitution against impact speed</h3>${restitutionPart(day)}
<h3>Loops of force over compression</h3>${loops ?? html`<p class="none">No drop gave a loop: it needs a contact that begins and ends, uncut, and what falls as a mass.</p>`}
<h3>Energy bounce by bounce</h3>${energies ?? html`<p class="none">Not determined in any run.</p>`}
<h3>Damping, four ways</h3>${dampingPart(day)}
<h3>Shock response</h3>${shock}
<h3>How much the filter decides</h3>${filterFigures(day) ?? html`<p class="none">Not determined in any run.</p>`}
<p class="fignote">The same contacts after filters of other classes, over what the declared class gives. Where a line is steep at the declared class, the number is one of the filter.</p>
<h3>Contact model and drops that were not made</h3>${contactPart(day)}
<details class="day"><summary>Every drop in numbers</summary>${measureTable(drops)}</details></section>`;
}

/** Shock response spectra and pseudo-velocities, or how to declare them. */
function shockPart(day: DayResult): Html {
  const declared = day.campaign.rig.drop?.shockSpectrum;
  if (declared === undefined) return html`<p class="none">Not determined: a shock response spectrum hangs on the damping ratio of its oscillators and on its range, and rig.yaml declares none. Write under drop: shockSpectrum: { dampingRatio: 0.05, fromHz: 5, toHz: 1000 }.</p>`;
  const response = dropCurves(day, { name: "shockResponse", description: "Shock response spectrum of the first contact: largest acceleration of an oscillator on the hub", logX: true, logY: true });
  const velocity = dropCurves(day, { name: "pseudoVelocity", description: "Pseudo-velocity of an oscillator on the hub", logX: true, logY: true });
  if (response === null || velocity === null) return html`<p class="none">Not determined in any run.</p>`;
  return html`${response}<h4>Pseudo-velocity</h4>${velocity}<p class="fignote">Maximax absolute acceleration (ISO 18431-4, ramp-invariant) and pseudo-velocity of an oscillator of damping ratio ${plainNumber(declared.dampingRatio)} (Q = ${plainNumber(Number((1 / (2 * declared.dampingRatio)).toPrecision(3)))}) on the hub, first contact against free fall, after the declared filter. Shown up to the lowest of ${plainNumber(declared.toHz)} Hz, the filter's class and a tenth of the sampling rate.</p>`;
}
