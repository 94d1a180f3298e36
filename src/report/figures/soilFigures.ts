import type { Fit } from "../../core/fit.ts";
import type { DayResult } from "../../processing/dayResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { extent, spread } from "../pick.ts";
import { plainNumber } from "../words.ts";
import { bandMarks, drawPlot, lineMark, Plot, pointMarks, seriesStyle, zeroLine } from "./drawPlot.ts";
import type { Bar } from "./drawPlot.ts";

const kilo = 1e-3;
const milli = 1e3;
/** More points than this per series only thicken the ink. */
const drawnPoints = 300;

interface Axis {
  readonly scale: number;
  readonly label: string;
}
const pressure: Axis = { scale: kilo, label: "pressure [kPa]" };
const sinkage: Axis = { scale: milli, label: "sinkage [mm]" };

/** Pressure against sinkage, a series per plate width, with fit and band; below it the residuals. */
export function plateFigures(day: DayResult): Html {
  const plates = day.soil.plateWidths.map((plate, index) => ({ plate, style: seriesStyle(index), label: `plate ${plainNumber(plate.widthM * 1000)} mm` }));
  const legend = plates.map(({ label, style }) => ({ label, style }));
  const depths = extent([0, ...plates.flatMap(({ plate }) => plate.fit.points.map((point) => point.x * milli))]);
  const curves = plates.flatMap(({ plate, style }) => {
    const { band } = plate;
    if (band === null) return [];
    return bandMarks(band.x.map((x, i) => ({ x: x * milli, value: (band.value[i] as number) * kilo, low: (band.low[i] as number) * kilo, high: (band.high[i] as number) * kilo })), style);
  });
  return html`<div class="multiples wide">${drawPlot({
    title: "Pressure against sinkage",
    description: `Plate pressure against sinkage for ${plates.length} plate widths, measured points, fitted power laws and their 95 % bands`,
    width: 440,
    height: 290,
    x: { label: sinkage.label, domain: depths },
    y: { label: pressure.label },
    legend,
    marks: [zeroLine(), ...plates.flatMap(({ plate, style }) => pointMarks(points(plate.fit, sinkage, pressure), style)), ...curves],
  })}${drawPlot({
    title: "Residuals of the pressure",
    description: "Measured pressure less fitted pressure against sinkage",
    width: 440,
    height: 290,
    x: { label: sinkage.label, domain: depths },
    y: { label: "measured − fitted [kPa]", domain: barsOf(plates.flatMap(({ plate }) => residuals(plate.fit, sinkage, pressure))) },
    legend,
    marks: [zeroLine(), ...plates.flatMap(({ plate, style }) => pointMarks(residuals(plate.fit, sinkage, pressure), style))],
  })}</div>`;
}

/** Shear strength against normal stress with its fit, residuals, and the joint region of cohesion and friction angle. */
export function strengthFigures(day: DayResult): Html {
  const fit = day.soil.shearStrength;
  if (fit === null) return html``;
  const style = seriesStyle(0);
  const stress: Axis = { scale: kilo, label: "normal stress [kPa]" };
  const line = fitted(fit, stress, pressure);
  const outline = day.soil.jointRegion.map(([cohesion, angle]) => ({ x: cohesion * kilo, y: (angle * 180) / Math.PI }));
  const best = bestStrength(fit);
  return html`<div class="multiples">${drawPlot({
    title: "Shear strength against normal stress",
    description: "Shear strength against normal stress, measured points and fitted line",
    x: { label: stress.label, domain: extent([0, ...fit.points.map((point) => point.x * kilo)]) },
    y: { label: "shear strength [kPa]", domain: extent([0, ...fit.points.map((point) => (point.y + 2 * (point.yUncertainty ?? 0)) * kilo)]) },
    marks: [zeroLine(), lineMark(line, style), ...pointMarks(points(fit, stress, pressure), style)],
  })}${drawPlot({
    title: "Residuals of the shear strength",
    description: "Measured shear strength less fitted strength against normal stress",
    x: { label: stress.label, domain: extent([0, ...fit.points.map((point) => point.x * kilo)]) },
    y: { label: "measured − fitted [kPa]", domain: barsOf(residuals(fit, stress, pressure)) },
    marks: [zeroLine(), ...pointMarks(residuals(fit, stress, pressure), style)],
  })}${outline.length > 2 && drawPlot({
    title: "Cohesion and friction angle together",
    description: "95 % joint region of cohesion and friction angle; the narrow slanted shape shows that the two are known together better than one by one",
    x: { label: "cohesion [kPa]" },
    y: { label: "friction angle [deg]" },
    marks: [
      Plot.line([...outline, outline[0] as { x: number; y: number }], { x: "x", y: "y", stroke: style.color, fill: style.color, fillOpacity: 0.14, strokeWidth: 1.5 }),
      ...(best === null ? [] : pointMarks([best], style)),
    ],
    note: "Inside the outline: 95 % of where the pair may lie.",
  })}</div>`;
}

/** Shear stress against displacement, one figure per normal stress. */
export function shearFigures(day: DayResult): Html {
  const travel: Axis = { scale: milli, label: "shear displacement [mm]" };
  const curves = day.soil.shearCurves;
  const yDomain = extent([0, ...curves.flatMap((curve) => curve.fit.points.map((point) => point.y * kilo))]);
  return html`<div class="multiples">${curves.map((curve, index) => {
    const style = seriesStyle(index);
    return drawPlot({
      title: `Normal stress ${plainNumber(curve.normalStressPa * kilo)} kPa`,
      description: `Shear stress against displacement at ${plainNumber(curve.normalStressPa * kilo)} kPa normal stress`,
      height: 220,
      x: { label: travel.label },
      y: { label: "shear stress [kPa]", domain: yDomain },
      marks: [zeroLine(), ...pointMarks(points(curve.fit, travel, pressure), style), lineMark(fitted(curve.fit, travel, pressure), { ...style, color: "var(--ink)" })],
    });
  })}</div>`;
}

function points(fit: Fit, x: Axis, y: Axis): Bar[] {
  return spread(fit.points, drawnPoints).map((point) => ({
    x: point.x * x.scale,
    y: point.y * y.scale,
    yHalf: point.yUncertainty === null ? null : 2 * point.yUncertainty * y.scale,
    kept: point.kept,
    title: `${point.run}${point.kept ? "" : `: not used, ${point.reason}`}`,
  }));
}

function residuals(fit: Fit, x: Axis, y: Axis): Bar[] {
  const kept = fit.points.filter((point) => point.kept).map((point, index) => ({ point, residual: fit.residuals[index] ?? Number.NaN }));
  return spread(kept.filter((entry) => Number.isFinite(entry.residual)), drawnPoints).map(({ point, residual }) => ({
    x: point.x * x.scale,
    y: residual * y.scale,
    yHalf: point.yUncertainty === null ? null : 2 * point.yUncertainty * y.scale,
    kept: true,
    title: point.run,
  }));
}

/** Room for the points and their bars. */
function barsOf(bars: readonly Bar[]): [number, number] {
  return extent(bars.flatMap((bar) => [bar.y - (bar.yHalf ?? 0), bar.y + (bar.yHalf ?? 0)]));
}

/** The fitted curve where it was measured: y less its residual. */
function fitted(fit: Fit, x: Axis, y: Axis): { x: number; y: number }[] {
  if (fit.verdict === "undetermined") return [];
  const rows = fit.points.filter((point) => point.kept).map((point, index) => ({ x: point.x * x.scale, y: (point.y - (fit.residuals[index] ?? Number.NaN)) * y.scale }));
  return spread(rows.filter((row) => Number.isFinite(row.y)).sort((a, b) => a.x - b.x), drawnPoints).slice();
}

function bestStrength(fit: Fit): Bar | null {
  const cohesion = fit.parameters.find((parameter) => parameter.estimate.unit === "Pa")?.estimate.value;
  const angle = fit.parameters.find((parameter) => parameter.estimate.unit === "rad")?.estimate.value;
  if (cohesion === undefined || angle === undefined || !Number.isFinite(cohesion) || !Number.isFinite(angle)) return null;
  return { x: cohesion * kilo, y: (angle * 180) / Math.PI, kept: true, title: "best pair" };
}
