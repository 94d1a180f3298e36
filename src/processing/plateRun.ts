import type { BudgetRow, Estimate } from "../core/estimate.ts";
import type { Finding } from "../core/finding.ts";
import type { Fit, FitPoint } from "../core/fit.ts";
import type { Unit } from "../core/units.ts";
import type { RunPlan } from "../campaign/campaign.ts";
import { estimateFrom, undetermined } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import { binMeans } from "./measures/binMeans.ts";
import { normalPress, pressCurve } from "./measures/pressCurve.ts";
import type { PressCurve } from "./measures/pressCurve.ts";
import { recomputedRows } from "./measures/recomputedRows.ts";
import { powerLawGoodness, sinkagePowerLaw } from "./measures/sinkagePowerLaw.ts";
import type { PlatePoint } from "./measures/sinkagePowerLaw.ts";
import { virginLoading } from "./measures/virginLoading.ts";
import type { PreparedRun, Reduced } from "./preparedRun.ts";
import { plateKnee } from "./plateKnee.ts";
import { plateReload } from "./plateReload.ts";
import { refused } from "./pressSegments.ts";

/** points a plate curve is thinned to */
const mostPoints = 60;
/** fewest points a power law is read from */
const fewestPoints = 6;
/** sinkage at which the pressure is reported: well inside usual tests, so well determined [m] */
export const referenceSinkageM = 0.01;
/** difference of n with and without weights that shows the curve is no power law */
const bent = 0.15;

const names: readonly { readonly name: string; readonly symbol: string; readonly label: string; readonly unit: Unit }[] = [
  { name: "sinkageExponent", symbol: "n", label: "Sinkage exponent", unit: "1" },
  { name: "plateStiffness", symbol: "k", label: "Plate stiffness k = k_c/b + k_φ", unit: "N/m^(n+2)" },
  { name: "pressureAt10mm", symbol: "p₁₀", label: "Pressure at 10 mm sinkage", unit: "Pa" },
];

/** Area of a plate [m²]; the width of a circle is its diameter. */
export function plateArea(plate: NonNullable<RunPlan["plate"]>): number {
  return plate.shape === "circle" ? (Math.PI * plate.widthM ** 2) / 4 : plate.widthM * plate.lengthM;
}

/** A plate pressed into soil: pressure over sinkage on first loading, and the power law through it. */
export function reducePlateRun(run: PreparedRun): Reduced {
  const { plate, id } = run.plan;
  if (plate === null) return refused("plate-not-stated", "The run sheet states no plate; without its size there is no pressure. Fill in plate, plate width and plate length.");
  const reading = pressCurve(run, normalPress);
  if (reading === null) return refused("press-channels-missing", "Press force and press displacement are needed, with at least 5 samples in common; record both.");
  const { curve, causes } = reading;
  const area = plateArea(plate);
  const { kept, unloadings } = virginLoading(curve.displacement);
  const findings: Finding[] = [...reading.findings];
  const toPoints = (data: PressCurve): PlatePoint[] => {
    const loaded = kept.filter((i) => (data.displacement[i] as number) > 0 && (data.force[i] as number) > 0);
    return binMeans(loaded.map((i) => data.displacement[i] as number), loaded.map((i) => (data.force[i] as number) / area), mostPoints).map(({ x, y }) => ({ sinkageM: x, pressurePa: y }));
  };
  const points = toPoints(curve);
  if (points.length < fewestPoints) return refused("plate-curve-too-short", `Only ${points.length} points with pressure and sinkage above zero on first loading; at least ${fewestPoints} are needed. Press deeper or sample faster.`);
  const dropped = kept.filter((i) => !((curve.displacement[i] as number) > 0 && (curve.force[i] as number) > 0)).length;
  if (dropped > 0) findings.push(finding("seating-dropped", "note", `${dropped} sample${dropped === 1 ? "" : "s"} at or below zero pressure, while the plate seats itself, left out.`, { channel: "pressForce", measured: dropped }));
  const turns = unloadings.length;
  if (turns > 0) findings.push(finding("unloadings-dropped", "note", `${turns} ${turns === 1 ? "unloading" : "unloadings"} with reloading left out; the constants describe first loading.`, { channel: "pressDisplacement", measured: turns }));

  const deepestM = points.reduce((most, point) => Math.max(most, point.sinkageM), 0);
  const inside = deepestM >= referenceSinkageM;
  const evaluate = (data: PressCurve): number[] => {
    const { exponent, stiffness } = sinkagePowerLaw(toPoints(data));
    return [exponent, stiffness, stiffness * referenceSinkageM ** exponent];
  };
  const law = sinkagePowerLaw(points);
  const unweighted = sinkagePowerLaw(points, "none");
  if (Math.abs(unweighted.exponent - law.exponent) > bent * Math.abs(law.exponent)) {
    findings.push(finding("power-law-bends", "note", `The exponent is ${law.exponent.toFixed(3)} with p² weights and ${unweighted.exponent.toFixed(3)} without: the curve is not one power law over this range.`, { measured: unweighted.exponent - law.exponent, limit: bent * law.exponent }));
  }
  const rows = recomputedRows(curve, causes, evaluate);
  const [[nn, nk], [, kk]] = law.covariance as [[number, number], [number, number]];
  const reach = Math.log(referenceSinkageM);
  const own = [Math.sqrt(nn), law.stiffness * Math.sqrt(kk), law.stiffness * referenceSinkageM ** law.exponent * Math.sqrt(Math.max(0, kk + 2 * reach * nk + reach ** 2 * nn))];
  const values = evaluate(curve);
  const method = `weighted least squares (p²) over ${points.length} points of first loading down to ${(1000 * deepestM).toFixed(1)} mm`;
  const estimates = names.map(({ unit }, i): Estimate => {
    if (i === 2 && !inside) return undetermined(unit, `the plate went down ${(1000 * deepestM).toFixed(1)} mm only; the pressure at 10 mm is not measured`);
    if (reading.unknownCause !== null) return undetermined(unit, `${method}; no uncertainty, because ${reading.unknownCause}`, values[i] as number);
    const scatter: BudgetRow = { cause: "scatter about the power law", effect: own[i] as number, sharedBy: null, degreesOfFreedom: Math.max(1, law.effectivePoints - 2) };
    return estimateFrom(values[i] as number, unit, method, [scatter, ...(rows[i] as BudgetRow[])]);
  });
  const covariance = names.map((_, i) => names.map((_, j) => (rows[i] as BudgetRow[]).reduce((sum, row, cause) => sum + row.effect * ((rows[j] as BudgetRow[])[cause] as BudgetRow).effect, 0)));
  const gradient = [[1, 0], [0, law.stiffness], [(values[2] as number) * reach, values[2] as number]];
  const whole = covariance.map((row, i) => row.map((value, j) => value + gradient[i]!.reduce((sum, a, p) => sum + gradient[j]!.reduce((inner, b, q) => inner + a * b * (law.covariance[p] as readonly number[])[q]!, 0), 0)));
  const fit: Fit = {
    model: "pressure over sinkage, one plate",
    formula: "p = k zⁿ; k in N/m^(n+2), z in m, p in Pa",
    parameters: names.map(({ name, symbol }, i) => ({ name, symbol, estimate: estimates[i] as Estimate })),
    covariance: whole,
    points: points.map(({ sinkageM, pressurePa }): FitPoint => ({ run: id, x: sinkageM, y: pressurePa, yUncertainty: null, kept: true, reason: "" })),
    residuals: points.map((point) => point.pressurePa - law.stiffness * point.sinkageM ** law.exponent),
    degreesOfFreedom: points.length - 2,
    verdict: "determined",
    sentence: `${points.length} points down to ${(1000 * deepestM).toFixed(1)} mm; goodness ε = ${powerLawGoodness(points, law.exponent, law.stiffness).toFixed(3)}. Points of one run move together, so soil constants take their uncertainty from run to run, not from here.`,
    findings,
  };
  const knee = plateKnee(id, reading, (data) => toPoints(data).map(({ sinkageM, pressurePa }) => ({ x: sinkageM, y: pressurePa })));
  if (knee !== null) findings.push(finding("plate-knee", "note", `The pressure has a knee: a plateau with a rise describes it better than a power law. ${knee.sentence}`));
  const from = curve.timesS[kept[0] as number] as number;
  const to = curve.timesS[kept[kept.length - 1] as number] as number;
  return {
    measures: [...names.map(({ name, label }, i) => ({ name, label, estimate: estimates[i] as Estimate, segment: null })), ...plateReload(reading, area, unloadings)],
    fits: knee === null ? [fit] : [fit, knee],
    findings,
    segments: [{ kind: "loading", fromS: from, toS: to, reason: "from contact to the greatest sinkage" }],
    windowChoices: [],
  };
}
