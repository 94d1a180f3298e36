import type { LifeFit } from "../../processing/enduranceResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { extent } from "../pick.ts";
import { drawPlot, lineMark, Plot, seriesStyle } from "./drawPlot.ts";

/** Share of wheels still sound over the distance: steps at the failures, the fitted distribution, ticks for wheels that had not failed; nothing before a failure. */
export function survivalFigure({ lives, survival, fitted }: LifeFit): Html {
  if (survival.length === 0) return html``;
  const ran = lives.filter((life) => life.distanceM > 0).map((life) => ({ x: life.distanceM / 1000, failed: life.failed, title: `${life.wheel}: ${life.failed ? "failed at" : "sound after"} ${life.distanceM / 1000} km` }));
  const last = Math.max(...ran.map(({ x }) => x));
  const shareAt = (x: number): number => survival.filter((step) => step.distanceM / 1000 <= x).at(-1)?.share ?? 1;
  const steps = [{ x: 0, y: 1 }, ...survival.map((step) => ({ x: step.distanceM / 1000, y: step.share })), { x: last, y: shareAt(last) }];
  const curve = fitted.map(({ distanceM, share }) => ({ x: distanceM / 1000, y: share }));
  const [stepped, drawn] = [seriesStyle(0), seriesStyle(1)];
  return drawPlot({
    title: "Wheels still sound over the distance",
    description: "Share of wheels still sound against the distance run: product limit in steps, and the fitted distribution",
    x: { label: "distance [km]", domain: extent([0, last]) },
    y: { label: "share still sound [–]", domain: [0, 1] },
    marks: [
      Plot.line(steps, { x: "x", y: "y", curve: "step-after", stroke: stepped.color, strokeWidth: 1.6 }),
      ...(curve.length > 0 ? [lineMark(curve, drawn)] : []),
      Plot.ruleX(ran.filter(({ failed }) => !failed), { x: "x", y1: (life: { x: number }) => shareAt(life.x) - 0.035, y2: (life: { x: number }) => shareAt(life.x) + 0.035, stroke: stepped.color, strokeWidth: 1.6, title: "title" }),
    ],
    note: `Steps: product limit. Short upright ticks: wheels still sound there.${curve.length > 0 ? " Dashed: the fitted distribution." : ""}`,
  });
}
