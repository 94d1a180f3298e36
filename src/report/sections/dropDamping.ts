import type { DayResult } from "../../processing/dayResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { levels, measureOf, usableRuns, wheelOrder } from "../pick.ts";
import { estimateCell } from "../showEstimate.ts";
import { table } from "../table.ts";
import type { Column } from "../table.ts";
import { plainNumber } from "../words.ts";
import { runAnchor } from "./runPart.ts";

/** Four ways to a damping ratio, each with what must be so for it to hold. */
const methods = [
  { measure: "dampingRatioDecrement", way: "logarithmic decrement", seen: "peaks of the ringing after the last flight", holds: "one lightly damped mode, viscous; the wheel stays on the ground; small swings about rest" },
  { measure: "dampingRatioFit", way: "fitted decay", seen: "the whole ringing after the last flight", holds: "as the decrement; unlike sides and losses that change with the swing to first order" },
  { measure: "dampingRatioHalfPower", way: "half-power bandwidth", seen: "spectrum of that ringing", holds: "one linear mode; the ringing has died before the log ends; a frequency that changes with the swing makes it too large" },
  { measure: "dampingRatioLoop", way: "area of the loop", seen: "the first contact, as half a cycle", holds: "equivalent viscous damping at the speed of the impact, every loss of the contact in it; first order in ζ" },
] as const;

/** Damping ratios side by side, by method and drop. */
export function dampingPart(day: DayResult): Html {
  const runs = usableRuns(day, "drop");
  const order = wheelOrder(day, runs.map((run) => run.plan.wheel));
  // One drop of each height and wheel shows how the ways differ; all of them stand in the table of every drop.
  const shown = order.flatMap((wheel) => levels(runs.map((run) => run.plan.dropHeightM)).flatMap((height) => runs.find((run) => run.plan.wheel === wheel && run.plan.dropHeightM === height) ?? []));
  const columns: Column<(typeof runs)[number]>[] = [
    { heading: "Wheel", show: (run) => run.plan.wheel ?? "–" },
    { heading: "Height [mm]", align: "right", show: (run) => plainNumber((run.plan.dropHeightM ?? Number.NaN) * 1000) },
    { heading: "Drop", show: (run) => html`<a href="#${runAnchor(run)}">${run.plan.id}</a>` },
    ...methods.map((method): Column<(typeof runs)[number]> => ({
      heading: `ζ by ${method.way}`,
      align: "right",
      show: (run) => {
        const measure = measureOf(run, method.measure);
        return measure === undefined ? "–" : estimateCell(measure.estimate);
      },
    })),
  ];
  return html`${table(methods, [
    { heading: "Way", show: (method) => method.way },
    { heading: "Seen in", align: "wrap", show: (method) => method.seen },
    { heading: "Holds for", align: "wrap", show: (method) => method.holds },
  ], { stack: true })}
<p class="fignote">The ringing is small and slow, the impact large and fast: a wheel whose losses grow with the speed has more damping in its loop than in its ringing, and both are right. The first drop of each height is shown.</p>
${table(shown, columns, { stack: true })}`;
}
