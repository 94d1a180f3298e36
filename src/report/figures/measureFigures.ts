import type { RunKind } from "../../campaign/rigSchema.ts";
import { convert, showUnit } from "../../core/units.ts";
import type { Unit } from "../../core/units.ts";
import type { DayResult, RunResult } from "../../processing/dayResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { extent, measureOf, usableRuns, wheelOrder } from "../pick.ts";
import { readingUnit, unitScale } from "../showEstimate.ts";
import { drawPlot, pointMarks, seriesStyle, zeroLine } from "./drawPlot.ts";
import type { Bar } from "./drawPlot.ts";

export interface MeasureFigure {
  readonly kind: RunKind;
  readonly title: (group: string) => string;
  /** what one figure shows: usually the wheel */
  readonly group: (run: RunResult) => string | null;
  readonly x: { readonly label: string; readonly read: (run: RunResult) => { readonly value: number; readonly half: number | null } | null };
  readonly yLabel: string;
  /** the measures drawn, one series each unless `series` splits one measure */
  readonly measures: readonly { readonly name: string; readonly label: string }[];
  /** series stand a little apart sideways, where they share their x */
  readonly apart?: boolean;
  /** the y axis may leave zero out, where small differences matter */
  readonly close?: boolean;
  readonly series?: { readonly names: readonly string[]; readonly of: (run: RunResult) => string };
}

/** A measure of many runs against a condition: small multiples on common scales, points with ± 2 standard uncertainties. */
export function measureFigures(day: DayResult, figure: MeasureFigure): Html | null {
  const runs = usableRuns(day, figure.kind);
  const groups = wheelOrder(day, runs.map(figure.group));
  const drawn = groups.map((group) => ({ group, series: seriesOf(runs.filter((run) => figure.group(run) === group), figure) })).filter((entry) => entry.series.some((series) => series.points.length > 0));
  if (drawn.length === 0) return null;
  const unit = drawn.flatMap((entry) => entry.series).find((series) => series.points.length > 0)?.unit ?? "1";
  const points = drawn.flatMap((entry) => entry.series.flatMap((series) => series.points));
  const xDomain = extent([0, ...points.map((point) => point.x)]);
  const yDomain = extent([...(figure.close === true ? [] : [0]), ...points.flatMap((point) => [point.y - (point.yHalf ?? 0), point.y + (point.yHalf ?? 0)])]);
  return html`<div class="multiples">${drawn.map(({ group, series }) =>
    drawPlot({
      title: figure.title(group),
      description: `${figure.yLabel} against ${figure.x.label}: ${figure.title(group)}`,
      x: { label: figure.x.label, domain: xDomain },
      y: { label: `${figure.yLabel} [${showUnit(unit)}]`, domain: yDomain },
      legend: series.filter((entry) => entry.points.length > 0).map((entry) => ({ label: entry.label, style: seriesStyle(entry.index) })),
      marks: [...(figure.close === true ? [] : [zeroLine()]), ...series.flatMap((entry) => pointMarks(entry.points, seriesStyle(entry.index), figure.apart === true ? (entry.index - (series.length - 1) / 2) * 6 : 0))],
    }),
  )}</div>`;
}

/** A measure as the x of a figure, slip in per cent. */
export function measureAsX(name: string, unit: Unit): MeasureFigure["x"]["read"] {
  return (run) => {
    const estimate = measureOf(run, name)?.estimate;
    if (estimate === undefined || !Number.isFinite(estimate.value)) return null;
    return { value: convert(estimate.value, estimate.unit, unit), half: estimate.standardUncertainty === null ? null : 2 * estimate.standardUncertainty * unitScale(estimate.unit, unit) };
  };
}

function seriesOf(runs: readonly RunResult[], figure: MeasureFigure): { readonly label: string; readonly index: number; readonly unit: Unit; readonly points: readonly Bar[] }[] {
  const split = figure.series;
  if (split === undefined) return figure.measures.map((measure, index) => ({ label: measure.label, index, ...pointsOf(runs, measure.name, figure) }));
  const name = figure.measures[0]?.name ?? "";
  return split.names.map((label, index) => ({ label, index, ...pointsOf(runs.filter((run) => split.of(run) === label), name, figure) }));
}

function pointsOf(runs: readonly RunResult[], name: string, figure: MeasureFigure): { readonly unit: Unit; readonly points: readonly Bar[] } {
  let shown: Unit = "1";
  const points = runs.flatMap((run) => {
    const x = figure.x.read(run);
    const estimate = measureOf(run, name)?.estimate;
    // Without an uncertainty there is no answer to draw; the run's own part says why.
    if (x === null || estimate === undefined || estimate.standardUncertainty === null || !Number.isFinite(estimate.value)) return [];
    const unit = readingUnit(estimate.unit);
    shown = unit;
    return [{ x: x.value, xHalf: x.half, y: convert(estimate.value, estimate.unit, unit), yHalf: 2 * estimate.standardUncertainty * unitScale(estimate.unit, unit), kept: true, title: run.plan.id }];
  });
  return { unit: shown, points };
}
