import { convert, showUnit } from "../../core/units.ts";
import type { Curve, DayResult, RunResult } from "../../processing/dayResult.ts";
import type { DropFits } from "../../processing/dropFitsResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { extent, levels, usableRuns, wheelOrder } from "../pick.ts";
import { readingUnit } from "../showEstimate.ts";
import { plainNumber } from "../words.ts";
import { bandMarks, drawPlot, lineMark, pointMarks, seriesStyle, zeroLine } from "./drawPlot.ts";

export interface CurveFigure {
  /** the curve's name in the runs */
  readonly name: string;
  readonly description: string;
  readonly logX?: boolean;
  readonly logY?: boolean;
  readonly note?: string;
}

interface Line {
  readonly rows: readonly { readonly x: number; readonly y: number }[];
  readonly curve: Curve;
}

/** One curve of every usable drop, a figure per wheel on common scales, drops of one height in one colour; null without any. */
export function dropCurves(day: DayResult, figure: CurveFigure): Html | null {
  const runs = usableRuns(day, "drop").filter((run) => run.curves.some((curve) => curve.name === figure.name));
  if (runs.length === 0) return null;
  const heights = levels(runs.map((run) => run.plan.dropHeightM));
  const lines = new Map(runs.map((run) => [run, lineOf(run, figure)]));
  const all = [...lines.values()].flatMap((line) => line.rows);
  const sample = (lines.get(runs[0] as RunResult) as Line).curve;
  const domain = (values: readonly number[], log: boolean | undefined): [number, number] => (log === true ? [Math.min(...values) / 1.15, Math.max(...values) * 1.15] : extent([0, ...values]));
  const [xDomain, yDomain] = [domain(all.map((row) => row.x), figure.logX), domain(all.map((row) => row.y), figure.logY)];
  return html`<div class="multiples">${wheelOrder(day, runs.map((run) => run.plan.wheel)).map((wheel) => {
    const own = runs.filter((run) => run.plan.wheel === wheel);
    return drawPlot({
      title: `Wheel ${wheel}`,
      description: `${figure.description}, wheel ${wheel}`,
      x: { label: axisLabel(sample.x), domain: xDomain, ...(figure.logX === true && { type: "log", ticks: 4, tickFormat: plainTick }) },
      y: { label: axisLabel(sample.y), domain: yDomain, ...(figure.logY === true && { type: "log", ticks: 4, tickFormat: plainTick }) },
      marginLeft: 60,
      legend: heights.filter((height) => own.some((run) => run.plan.dropHeightM === height)).map((height) => ({ label: `${plainNumber(height * 1000)} mm`, style: seriesStyle(heights.indexOf(height)) })),
      marks: [...(figure.logY === true ? [] : [zeroLine()]), ...own.map((run) => lineMark((lines.get(run) as Line).rows, seriesStyle(run.plan.dropHeightM === null ? heights.length : heights.indexOf(run.plan.dropHeightM))))],
    });
  })}</div>${figure.note !== undefined && html`<p class="fignote">${figure.note}</p>`}`;
}

const plainTick = (value: number): string => plainNumber(value);

/** The unit a side is read in, and the label with it; a pure number has none. */
function axisLabel(side: Curve["x"]): string {
  const unit = readingUnit(side.unit);
  return unit === "1" ? `${side.label} [–]` : `${side.label} [${showUnit(unit)}]`;
}

function lineOf(run: RunResult, figure: CurveFigure): Line {
  const curve = run.curves.find((candidate) => candidate.name === figure.name) as Curve;
  const read = (side: Curve["x"], i: number): number => convert(side.values[i] ?? Number.NaN, side.unit, readingUnit(side.unit));
  const rows = curve.x.values.map((_, i) => ({ x: read(curve.x, i), y: read(curve.y, i) })).filter((row) => Number.isFinite(row.x) && Number.isFinite(row.y) && (figure.logY !== true || row.y > 0));
  return { rows, curve };
}

/** Peak, duration and restitution after filters of other classes, over their value at the declared class: the highest drops of each wheel. */
export function filterFigures(day: DayResult): Html | null {
  const declared = day.campaign.rig.drop?.filterClass;
  const runs = usableRuns(day, "drop").filter((run) => run.curves.some((curve) => curve.name === "peakByFilter"));
  if (declared === undefined || runs.length === 0) return null;
  const wheels = wheelOrder(day, runs.map((run) => run.plan.wheel));
  const shown = wheels.flatMap((wheel) => {
    const own = runs.filter((run) => run.plan.wheel === wheel);
    const highest = Math.max(...own.map((run) => run.plan.dropHeightM ?? 0));
    return own.filter((run) => (run.plan.dropHeightM ?? 0) === highest);
  });
  const parts = [["peakByFilter", "Peak acceleration"], ["durationByFilter", "Pulse duration at 10 %"], ["restitutionByFilter", "Restitution from velocities"]] as const;
  return html`<div class="multiples">${parts.map(([name, label]) => {
    const lines = shown.flatMap((run) => {
      const curve = run.curves.find((candidate) => candidate.name === name);
      const base = curve?.y.values[curve.x.values.indexOf(declared)];
      if (curve === undefined || typeof base !== "number") return [];
      return [{ wheel: run.plan.wheel as string, rows: curve.x.values.flatMap((x, i) => (typeof x === "number" && typeof curve.y.values[i] === "number" ? [{ x, y: curve.y.values[i] / base }] : [])) }];
    });
    if (lines.length === 0) return html``;
    return drawPlot({
      title: `${label}, highest drops`,
      description: `${label} after filters of other classes, as a share of its value at the declared class ${declared}`,
      x: { label: "filter class [Hz]", type: "log", ticks: 4, tickFormat: plainTick },
      y: { label: `over that of class ${declared} [1]`, domain: extent([1, ...lines.flatMap((line) => line.rows.map((row) => row.y))]) },
      legend: wheels.map((wheel, i) => ({ label: `wheel ${wheel}`, style: seriesStyle(i) })),
      marks: lines.map((line) => lineMark(line.rows, seriesStyle(wheels.indexOf(line.wheel)))),
    });
  })}</div>`;
}

/** Restitution against impact speed with the fitted curve and its band, a figure per wheel. */
export function restitutionFigures(day: DayResult): Html {
  const points = day.dropFits.flatMap(({ restitution }) => restitution.points.filter((point) => Number.isFinite(point.x) && Number.isFinite(point.y)));
  const xDomain = extent(points.map((point) => point.x));
  const yDomain = extent(points.flatMap((point) => [point.y - 2 * (point.yUncertainty ?? 0), point.y + 2 * (point.yUncertainty ?? 0)]));
  return html`<div class="multiples">${day.dropFits.map(({ wheel, restitution, restitutionBand: band }, i) => {
    const style = seriesStyle(i);
    const bars = restitution.points.filter((point) => Number.isFinite(point.x) && Number.isFinite(point.y)).map((point) => ({ x: point.x, y: point.y, yHalf: point.yUncertainty === null ? null : 2 * point.yUncertainty, kept: point.kept, title: `${point.run}${point.kept ? "" : `: not used, ${point.reason}`}` }));
    return drawPlot({
      title: `Wheel ${wheel}`,
      description: `Restitution against impact speed of wheel ${wheel}, drops, fitted curve and its 95 % band`,
      height: 220,
      x: { label: "impact speed [m/s]", domain: xDomain },
      y: { label: "restitution [1]", domain: yDomain },
      marks: [...pointMarks(bars, style), ...(band === null ? [] : bandMarks(band.x.map((x, k) => ({ x, value: band.value[k] as number, low: band.low[k] as number, high: band.high[k] as number })), style))],
    });
  })}</div>`;
}

/** Measured over fitted, quantity by quantity, against contact speed. */
export function contactFigure(drops: DropFits, quantities: readonly string[]): Html | null {
  const kept = drops.contact.points.filter((point) => point.kept);
  if (kept.length === 0) return null;
  const series = quantities.map((label, i) => ({ label, style: seriesStyle(i), points: kept.filter((_, k) => k % quantities.length === i).map((point) => ({ x: point.x, y: point.y, yHalf: point.yUncertainty === null ? null : 2 * point.yUncertainty, kept: true, title: point.run })) }));
  return drawPlot({
    title: `Wheel ${drops.wheel}: measured over fitted`,
    description: `Measured over fitted peak acceleration, compression, duration and restitution of wheel ${drops.wheel} against contact speed`,
    width: 440,
    x: { label: "contact speed [m/s]", domain: extent(kept.map((point) => point.x)) },
    y: { label: "measured over fitted [1]", domain: extent(series.flatMap((one) => one.points.flatMap((point) => [point.y - (point.yHalf ?? 0), point.y + (point.yHalf ?? 0)]))) },
    legend: series.map(({ label, style }) => ({ label, style })),
    marks: series.flatMap(({ points, style }, i) => pointMarks(points, style, (i - (quantities.length - 1) / 2) * 6)),
    note: "Bars are ± 2 standard uncertainties, the model's misfit within them.",
  });
}
