import type { ScatterShare } from "../processing/scatterShare.ts";
import { bedPlan } from "./curveScatter.ts";
import type { CurveScatter } from "./curveScatter.ts";
import type { SlipPoint } from "./slipCurveFit.ts";

/**
 * What a curve's runs scatter by, in numbers and in words: what beds deviate by, or why that is not told apart from runs.
 *
 * @param points   of the curve
 * @param scatter  of its fit
 * @returns        for report and results.json
 * @source         `scatterOf`
 * @checked        tests/fitting/curveScatter.test.ts
 */
export function scatterShare(points: readonly SlipPoint[], scatter: CurveScatter): ScatterShare {
  const { beds, runsOnBeds, apart, few } = bedPlan(points);
  const greatest = Math.max(...points.map(({ slip }) => Math.abs(slip.value)));
  // of few runs: σ² (½ + (s/s_m)²)
  const run = few ? scatter.tilt * Math.SQRT1_2 : scatter.run;
  const tilt = `${size(scatter.tilt)} at ${(100 * greatest).toFixed(0)} % slip and in proportion below it`;
  const bySlip = apart ? `, the ${beds} beds, each once for all its runs, by ${size(scatter.bed)} and by ${tilt}` : ` and by ${tilt}; ${few ? "so few runs do not tell the two apart, so one scatter of this shape is taken; " : ""}${notApart(beds, runsOnBeds)}`;
  return { run, bed: apart ? scatter.bed : null, tilt: scatter.tilt, beds, runs: runsOnBeds, sentence: `Beyond their own uncertainties runs scatter by ${size(run)}${bySlip}.` };
}

function size(sd: number): string {
  return sd === 0 ? "nothing" : sd.toPrecision(2);
}

function notApart(beds: number, runs: number): string {
  if (beds === 0) return "the run sheet names no beds, so runs count as if each had a bed of its own";
  if (beds === runs) return "every run has a bed of its own, so what beds bring is inside and not told apart from runs";
  return `${runs} runs on ${beds} ${beds === 1 ? "bed" : "beds"} do not tell beds apart from runs, so runs count as if each had a bed of its own, and what runs of one bed share is not inside`;
}
