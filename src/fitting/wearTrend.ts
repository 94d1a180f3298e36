import { undetermined } from "../core/estimate.ts";
import type { Estimate } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { Fit, FitPoint } from "../core/fit.ts";
import type { Unit } from "../core/units.ts";
import { lineAt } from "../numerics/lineAt.ts";
import type { LineReading } from "../numerics/lineAt.ts";
import type { Line } from "../numerics/lineFit.ts";
import type { Band } from "../processing/dayResult.ts";
import type { WearQuantity, WearTrend } from "../processing/enduranceResult.ts";
import { functionOfFit, parameterEstimates } from "./parameterEstimates.ts";
import { formIsBeyondDoubt, wearForms } from "./wearForms.ts";
import type { FittedForm } from "./wearForms.ts";

/** One reading of a wheel at one inspection. */
export interface WearPoint {
  /** the wheel and where it was, for people */
  readonly at: string;
  readonly distanceM: number;
  readonly estimate: Estimate;
  /** why it does not count; null = it does */
  readonly refused: string | null;
}

const fewestDistances = 3;
const bandPoints = 61;
/** Scatter below this share of the readings is rounding of the computation. */
const rounding = 1e-9;
/** Beyond the last inspection by more than this share a person looks. */
const farBeyond = 0.25;

/**
 * One quantity of a wheel over the distance it has run, and what it will be at the mission distance.
 *
 *   y = y₀ + Δ g(x)        g: straight line or logarithm, see `wearForms`
 *
 * y₀ and Δ, the change over the distance inspected, in the quantity's unit. Weights 1/u² where every point has its own
 * uncertainty, then the covariance times max(1, χ²/ν); else all alike, with the scatter about the trend. Each inspection
 * counts as independent: a balance that is off by as much every time shifts y₀ and leaves Δ. Beyond the last inspection the
 * intervals hold as far as the form does. Undetermined with fewer than three different distances,
 * and where readings without stated uncertainty show no scatter at all.
 *
 * @param points           the readings, in order of distance
 * @param quantity, label  what is read
 * @param unit             of the quantity
 * @param missionM         mission distance [m]; null = not stated
 * @returns                the trend; a finding where the mission lies beyond the inspections, and where the other form, as good, says otherwise there
 * @source                 confidence and prediction interval of a line: Draper & Smith, Applied Regression Analysis, chapter 1 (from memory)
 * @checked                tests/fitting/wearTrend.test.ts
 */
export function wearTrend(points: readonly WearPoint[], quantity: WearQuantity, label: string, unit: Unit, missionM: number | null): WearTrend {
  const told = { quantity, label };
  const fitPoints = points.map(({ at, distanceM, estimate, refused }): FitPoint => {
    const reason = refused ?? (Number.isFinite(estimate.value) ? "" : `not determined: ${estimate.method}`);
    return { run: at, x: distanceM, y: estimate.value, yUncertainty: estimate.standardUncertainty, kept: reason === "", reason };
  });
  const kept = fitPoints.filter((point) => point.kept);
  const distances = kept.map((point) => point.x);
  const different = new Set(distances).size;
  const noMission = missionM === null ? "rig.yaml states no missionDistance under endurance" : null;
  const own = kept.map((point) => point.yUncertainty);
  const weighted = own.every((u) => u !== null && u > 0);
  const y = kept.map((point) => point.y);
  const forms = different < fewestDistances ? null : wearForms(distances, y, weighted ? own.map((u) => 1 / (u as number) ** 2) : undefined);
  const scatters = weighted || forms === null || forms[0].line.residualSd > rounding * Math.max(...y.map(Math.abs));
  if (forms === null || !scatters) {
    const sentence = scatters ? `${label} was determined at ${different} ${different === 1 ? "distance" : "different distances"}; a trend needs at least ${fewestDistances}.` : `The readings of ${label.toLowerCase()} lie on the trend exactly: their resolution hides how well they are known. State their uncertainty under endurance in rig.yaml.`;
    return { ...told, form: "line", choice: "", band: null, predictionBand: null, prediction: null, atMission: undetermined(unit, noMission ?? sentence), fit: { model: `${label} over distance`, formula: "y = y₀ + Δ x/x_e", parameters: [], covariance: [], points: fitPoints, residuals: [], degreesOfFreedom: Math.max(0, kept.length - 2), verdict: "undetermined", sentence, findings: [] } };
  }
  const [taken, other] = forms.map((fitted) => reader(fitted, distances, weighted ? (own as number[]) : null)) as [TrendReader, TrendReader];
  const last = Math.max(...distances);
  const { parameters, covariance } = parameterEstimates(
    [taken.line.intercept, taken.line.slope],
    [{ name: "start", symbol: "y₀", unit }, { name: "changeOverDistance", symbol: "Δ", unit }],
    taken.line.covariance, taken.line.degreesOfFreedom, `scatter of the inspections about the trend, ${label}`, [], `${weighted ? "weighted " : ""}least squares over ${kept.length} inspections`,
  );
  const fit: Fit = {
    model: `${label} over distance`,
    formula: `${taken.form.formula}; x distance, x_e = ${km(last)}${taken.form.name === "logarithm" ? `, x₁ = ${km(Math.min(...distances.filter((x) => x > 0)))}` : ""}`,
    parameters, covariance, points: fitPoints,
    residuals: kept.map((point) => point.y - taken.at(point.x).value),
    degreesOfFreedom: taken.line.degreesOfFreedom,
    verdict: "determined",
    sentence: changeSentence(label, taken.line, kept.length, last),
    findings: missionM === null ? [] : [...beyond(label, missionM, last), ...formOpen(label, forms, taken.at(missionM), other.at(missionM))],
  };
  const span = Math.max(last, missionM ?? 0);
  const x = Array.from({ length: bandPoints }, (_, i) => (span * i) / (bandPoints - 1));
  const band = (half: (reading: LineReading) => number): Band => {
    const readings = x.map(taken.at);
    return { x, value: readings.map((r) => r.value), low: readings.map((r) => r.value - half(r)), high: readings.map((r) => r.value + half(r)) };
  };
  const there = missionM === null ? null : taken.at(missionM);
  return {
    ...told,
    form: taken.form.name,
    choice: choiceSentence(forms),
    fit,
    band: band((reading) => reading.confidenceHalf),
    predictionBand: band((reading) => reading.predictionHalf),
    atMission: there === null || missionM === null ? undetermined(unit, noMission as string) : functionOfFit(fit, there.value, [1, taken.form.g(missionM)], unit, `${taken.form.name} over ${kept.length} inspections, read at ${km(missionM)}${missionM > last ? `, ${km(missionM - last)} beyond the last one` : ""}`),
    prediction: there === null ? null : { low: there.value - there.predictionHalf, high: there.value + there.predictionHalf },
  };
}

interface TrendReader {
  readonly form: FittedForm["form"];
  readonly line: Line;
  readonly at: (distanceM: number) => LineReading;
}

/** With stated uncertainties the scatter may widen what they give, never narrow it. */
function reader({ form, line }: FittedForm, distances: readonly number[], own: readonly number[] | null): TrendReader {
  const weights = distances.map((_, i) => (own === null ? 1 : 1 / (own[i] as number) ** 2));
  const scatter = own === null ? line.residualSd : Math.max(1, line.residualSd);
  const sum = (of: (g: number) => number): number => distances.reduce((total, x, i) => total + (weights[i] as number) * of(form.g(x)), 0);
  const whole = sum(() => 1);
  const middle = sum((g) => g) / whole;
  const spread = sum((g) => (g - middle) ** 2);
  const square = scatter * scatter;
  const widened: Line = { ...line, covariance: [[square * (1 / whole + (middle * middle) / spread), (-square * middle) / spread], [(-square * middle) / spread, square / spread]] };
  const typical = Math.sqrt(distances.length / whole);
  return { form, line: widened, at: (distanceM) => lineAt(widened, form.g(distanceM), scatter * typical) };
}

function changeSentence(label: string, line: Line, count: number, last: number): string {
  const { confidenceHalf } = lineAt({ ...line, intercept: 0, covariance: [[0, 0], [0, line.covariance[1][1]]] }, 1, 0);
  const told = Math.abs(line.slope) > confidenceHalf;
  return `${count} inspections over ${km(last)}; ${told ? `a ${line.slope < 0 ? "fall" : "rise"} of ${label.toLowerCase()} is clear of the scatter` : `a change of ${label.toLowerCase()} cannot be told from the scatter`} (95 %).`;
}

function choiceSentence([taken, other]: readonly [FittedForm, FittedForm]): string {
  if (taken.heldOutError === null || other.heldOutError === null) return "A straight line: three inspections cannot tell a straight line from a logarithm.";
  const errors = other.heldOutError > 0 ? `its error at inspections left out in turn is ${(taken.heldOutError / other.heldOutError).toPrecision(2)} times the other's` : "the inspections lie on both";
  if (taken.form.name === "logarithm") return `A logarithm: it foretells clearly better (${errors}).`;
  return `A straight line: a logarithm does not foretell clearly better (${errors}).`;
}

function beyond(label: string, missionM: number, last: number): Finding[] {
  if (missionM <= last) return [];
  const share = missionM / last - 1;
  const far = share > farBeyond;
  return [finding("mission-extrapolated", far ? "look" : "note", `${label} at ${km(missionM)} is extrapolated: it lies ${(100 * share).toFixed(0)} % beyond the last inspection, at ${km(last)}. ${far ? "No interval knows what begins to wear or break later; run on and inspect before this number is used" : "The interval holds if nothing new begins"}`, { measured: share, limit: farBeyond })];
}

/** Two forms that may both be and part ways beyond the data: the interval of either is too narrow. */
function formOpen(label: string, [taken, other]: readonly [FittedForm, FittedForm], here: LineReading, there: LineReading): Finding[] {
  const apart = Math.abs(here.value - there.value);
  if (formIsBeyondDoubt(taken, other) || apart <= here.confidenceHalf) return [];
  return [finding("trend-form-open", "look", `${label} at the mission distance hangs on the form of the trend, which these inspections do not settle: the ${other.form.name} lies ${((100 * apart) / Math.abs(here.value)).toPrecision(2)} % ${there.value > here.value ? "above" : "below"} the ${taken.form.name} taken, further than the trend’s own interval is wide either way. Run on and inspect`, { measured: apart, limit: here.confidenceHalf })];
}

const km = (metres: number): string => `${Number((metres / 1000).toPrecision(4))} km`;
