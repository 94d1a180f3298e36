import { convert, showUnit } from "../../core/units.ts";
import type { Band, RunResult } from "../../processing/dayResult.ts";
import type { EnduranceResult, WearQuantity, WearTrend } from "../../processing/enduranceResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { extent } from "../pick.ts";
import { readingUnit } from "../showEstimate.ts";
import { plainNumber } from "../words.ts";
import { bandMarks, drawPlot, edgeMarks, Plot, pointMarks, seriesStyle } from "./drawPlot.ts";

/** One quantity of every wheel over the distance, on scales of one span, so that slopes compare: points, trend with its band, band of one more inspection, mission. */
export function wearFigures({ wheels }: EnduranceResult, quantity: WearQuantity, missionM: number | null): Html | null {
  const drawn = wheels.flatMap((one) => one.trends.filter((trend) => trend.quantity === quantity && trend.fit.points.some((point) => Number.isFinite(point.y))).map((trend) => ({ wheel: one.wheel, trend })));
  const [sample] = drawn;
  if (sample === undefined) return null;
  const from = sample.trend.atMission.unit;
  const unit = readingUnit(from);
  const shown = (value: number): number => convert(value, from, unit);
  const figures = drawn.map(({ wheel, trend }, i) => ({ wheel, style: seriesStyle(i), ...marksOf(trend, shown) }));
  const mission = missionM === null ? [] : [missionM / 1000];
  const xDomain = extent([0, ...mission, ...figures.flatMap((one) => one.points.map((point) => point.x))]);
  const reach = figures.map((one) => extent([...one.points.map((point) => point.y), ...one.edges.flatMap((row) => [row.low, row.high])]));
  const span = Math.max(...reach.map(([low, high]) => high - low));
  const yDomain = ([low, high]: readonly [number, number]): [number, number] => [(low + high - span) / 2, (low + high + span) / 2];
  return html`<div class="multiples">${figures.map(({ wheel, style, points, band, edges }, i) =>
    drawPlot({
      title: `Wheel ${wheel}`,
      description: `${sample.trend.label} of wheel ${wheel} over the distance it has run, with its trend`,
      marginLeft: 64,
      x: { label: "distance [km]", domain: xDomain },
      y: { label: `${sample.trend.label.toLowerCase()} [${showUnit(unit)}]`, domain: yDomain(reach[i] as [number, number]) },
      marks: [Plot.ruleX(mission, { stroke: "var(--faint)", strokeDasharray: "3 3" }), ...bandMarks(band, style), ...edgeMarks(edges, style), ...pointMarks(points, style)],
    }),
  )}</div>`;
}

function marksOf({ fit, band, predictionBand }: WearTrend, shown: (value: number) => number) {
  const rows = (of: Band | null) => (of?.x ?? []).map((x, i) => ({ x: x / 1000, value: shown(of?.value[i] as number), low: shown(of?.low[i] as number), high: shown(of?.high[i] as number) }));
  const points = fit.points
    .filter((point) => Number.isFinite(point.y))
    .map((point) => ({ x: point.x / 1000, y: shown(point.y), yHalf: point.yUncertainty === null ? null : shown(2 * point.yUncertainty), kept: point.kept, title: point.kept ? point.run : `${point.run}: ${point.reason}` }));
  return { points, band: rows(band), edges: rows(predictionBand) };
}

/** Classes a reader can tell apart. */
const wanted = 32;

/** Cycles of the load by their range, a figure a run; null without any. */
export function cycleFigures(runs: readonly RunResult[]): Html | null {
  const counted = runs.flatMap((run) => run.curves.filter((curve) => curve.name === "loadCycles" && curve.x.values.length > 0).map((curve) => ({ run, curve })));
  if (counted.length === 0) return null;
  const widest = Math.max(...counted.flatMap(({ curve }) => curve.x.values as number[]));
  const width = Number((widest / wanted).toPrecision(1)) || 1;
  const floor = 0.4;
  const figures = counted.map(({ run, curve }) => {
    const sums = new Map<number, number>();
    curve.x.values.forEach((range, i) => {
      const place = Math.floor((range as number) / width);
      sums.set(place, (sums.get(place) ?? 0) + (curve.y.values[i] as number));
    });
    return { run, bars: [...sums].map(([place, cycles]) => ({ from: place * width, to: (place + 1) * width, cycles, floor, title: `${plainNumber(place * width)} to ${plainNumber((place + 1) * width)} N: ${plainNumber(cycles)}` })) };
  });
  const most = Math.max(...figures.flatMap((one) => one.bars.map((bar) => bar.cycles)));
  return html`<div class="multiples">${figures.map(({ run, bars }) =>
    drawPlot({
      title: `Run ${run.plan.id}, wheel ${run.plan.wheel ?? "not stated"}`,
      description: `Rain-flow cycles of the vertical load in run ${run.plan.id} by their range`,
      marginLeft: 60,
      x: { label: "range of the vertical load [N]", domain: [0, widest + width] },
      y: { label: `cycles per ${plainNumber(width)} N [–]`, type: "log", domain: [floor, 2 * most], ticks: 4, tickFormat: (value: number) => plainNumber(value) },
      marks: [Plot.rect(bars, { x1: "from", x2: "to", y1: "floor", y2: "cycles", fill: seriesStyle(0).color, fillOpacity: 0.55, stroke: "var(--paper)", title: "title" })],
    }),
  )}</div>`;
}
