import type { EnduranceResult } from "../../processing/enduranceResult.ts";
import { survivalFigure } from "../figures/survivalFigure.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { roundSignificant } from "../showEstimate.ts";
import { table } from "../table.ts";
import { fitVerdict } from "../words.ts";
import { fitBlock } from "./fitBlock.ts";

/** How far wheels came: the distribution once two have failed, and the share that outlives each failure. */
export function livesPart({ lives }: EnduranceResult): Html {
  const { fit, b10, b10Interval, survival } = lives;
  const km = (metres: number, figures: number): string => roundSignificant(metres / 1000, figures);
  return html`${survivalFigure(lives)}${fit.verdict === "undetermined" ? fitVerdict(fit.verdict, fit.sentence) : fitBlock(fit)}
${b10Interval !== null && html`<p>Nine of ten wheels outlive ${km(b10.value, 2)} km; 95 % interval, on the logarithmic scale: ${km(b10Interval.low, 2)} to ${km(b10Interval.high, 2)} km.</p>`}
${survival.length > 0 && table(survival, [
    { heading: "Failure at [km]", align: "right", show: (step) => km(step.distanceM, 3) },
    { heading: "Share of wheels that outlive it (product limit)", align: "right", show: (step) => roundSignificant(step.share, 3) },
  ])}
<p class="fignote">All wheels with inspections are taken for one kind, whatever their make. A wheel counts as failed where the inspection found it, late by up to one interval; wheels still sound count with what they have run.</p>`;
}
