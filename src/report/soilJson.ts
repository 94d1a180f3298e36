import type { Estimate } from "../core/estimate.ts";
import type { Fit } from "../core/fit.ts";
import type { DayResult, RunResult } from "../processing/dayResult.ts";
import { estimateJson, finite, sortedJson, stableJson } from "./stableJson.ts";
import type { Json } from "./stableJson.ts";
import { wheelSoilCard } from "./wheelSoilJson.ts";

/** soil.json: the soil constants with covariance, verdict, what range of data stands behind them, the bed's state and the files. */
export function soilJson(day: DayResult): string {
  const { soil } = day;
  const rolled = new Set(day.wheelSoil?.verdict === "determined" ? day.wheelSoil.runs : []);
  const used = day.runs.filter((run) => run.plan.kind === "plate" || run.plan.kind === "shear" || rolled.has(run.plan.id));
  const beds = new Set(used.map((run) => run.plan.bed).filter((bed) => bed !== null));
  const plateFits = soil.plateWidths.map((plate) => plate.fit);
  const shearFits = soil.shearCurves.map((curve) => curve.fit);
  return stableJson({
    format: "drawbar soil constants",
    formatVersion: 1,
    drawbarVersion: day.drawbarVersion,
    notes: "SI units. unitInWords spells the power of metre; k_c and k_phi belong to their own n and to no other. null = not determined or not finite.",
    circularPlateWidth: day.campaign.rig.soil?.circularPlateWidth ?? null,
    pressureSinkage: soil.pressureSinkage === null ? null : constantsJson(soil.pressureSinkage),
    plateWidths: soil.plateWidths.map((plate) => ({ widthM: finite(plate.widthM), runs: plate.runs, ...constantsJson(plate.fit) })),
    shearStrength: soil.shearStrength === null ? null : constantsJson(soil.shearStrength),
    shearModulus: soil.shearCurves.map((curve) => ({ normalStressPa: finite(curve.normalStressPa), runs: curve.runs, ...constantsJson(curve.fit) })),
    underWheels: wheelSoilCard(day),
    validity: {
      sentence: "Measured inside these ranges; beyond them a number is an extrapolation.",
      sinkageM: range(plateFits, "x"),
      pressurePa: range(plateFits, "y"),
      plateWidthsM: [...new Set(soil.plateWidths.map((plate) => plate.widthM))].sort((a, b) => a - b).map(finite),
      normalStressPa: soil.shearStrength === null ? null : range([soil.shearStrength], "x"),
      shearDisplacementM: range(shearFits, "x"),
    },
    beds: day.campaign.beds
      .filter((bed) => beds.has(bed.id))
      .map((bed) => ({
        id: bed.id,
        densityKgM3: bed.densityKgM3,
        moisture: bed.moisture,
        coneGradient: day.cones.filter((cone) => cone.bed === bed.id).map((cone) => estimateJson(cone.gradient))[0] ?? null,
        targetGradientPaM: bed.targetGradientPaM,
        remark: bed.remark,
        more: sortedJson(bed.more),
      })),
    runs: used.map(runTrail),
    files: day.campaign.files.map((file) => ({ file: file.file, sha256: file.sha256 })),
  });
}

function constantsJson(fit: Fit): { readonly [key: string]: Json } {
  return {
    model: fit.model,
    formula: fit.formula,
    verdict: fit.verdict,
    sentence: fit.sentence,
    constants: fit.parameters.map((parameter) => ({
      name: parameter.name,
      symbol: parameter.symbol,
      unitInWords: unitInWords(parameter.estimate, fit),
      estimate: estimateJson(parameter.estimate),
    })),
    covariance: fit.covariance.map((row) => row.map(finite)),
    degreesOfFreedom: finite(fit.degreesOfFreedom),
    points: { kept: fit.points.filter((point) => point.kept).length, refused: fit.points.filter((point) => !point.kept).length },
  };
}

/** "newton per metre to the power n + 1, here n = 0.79" */
function unitInWords(estimate: Estimate, fit: Fit): string {
  const power = { "N/m^(n+1)": "n + 1", "N/m^(n+2)": "n + 2" }[estimate.unit as string];
  if (power === undefined) return estimate.unit === "1" ? "pure number" : estimate.unit;
  const exponent = fit.parameters.find((parameter) => parameter.symbol === "n" || parameter.name === "n")?.estimate.value;
  const here = exponent !== undefined && Number.isFinite(exponent) ? `, here n = ${exponent}` : "";
  return `newton per metre to the power (${power})${here}`;
}

function range(fits: readonly Fit[], axis: "x" | "y"): Json {
  const values = fits.flatMap((fit) => fit.points.filter((point) => point.kept).map((point) => point[axis])).filter(Number.isFinite);
  // Thousands of points: no spreading into Math.min.
  return values.length === 0 ? null : { from: values.reduce((a, b) => Math.min(a, b)), to: values.reduce((a, b) => Math.max(a, b)) };
}

function runTrail(run: RunResult): Json {
  return { id: run.plan.id, kind: run.plan.kind, bed: run.plan.bed, verdict: run.verdict, sources: run.sources.map((source) => ({ file: source.file, sha256: source.sha256 })) };
}
