import type { BudgetRow, Estimate } from "../core/estimate.ts";
import { estimateFrom, undetermined } from "../core/estimate.ts";
import type { Fit, Verdict } from "../core/fit.ts";
import type { Measure } from "../core/measure.ts";
import type { Unit } from "../core/units.ts";
import { dwellPoints, exponentialCreep, logCreep } from "./measures/creep.ts";
import type { CreepLaw, DwellPoint } from "./measures/creep.ts";
import type { Dwell } from "./measures/dwell.ts";
import type { PressCurve } from "./measures/pressCurve.ts";
import { recomputedRows } from "./measures/recomputedRows.ts";
import type { RecomputedCause } from "./measures/recomputedRows.ts";

/** difference of the criteria from which one law describes clearly better (K. P. Burnham and D. R. Anderson, 2002, from memory) */
const clear = 4;
const fewestPoints = 8;

/** Creep while the load was held: how much, and which of two laws describes it. */
export function dwellCreep(run: string, curve: PressCurve, dwell: Dwell, causes: readonly RecomputedCause<PressCurve>[]): { readonly measures: readonly Measure[]; readonly fits: readonly Fit[] } {
  const points = dwellPoints(curve, dwell);
  if (points.length < fewestPoints) {
    const reason = `the dwell holds ${points.length} stretches with samples; ${fewestPoints} are needed`;
    return { measures: [{ name: "creepDuringDwell", label: "Creep while the load was held", estimate: undetermined("m", reason), segment: null }], fits: [] };
  }
  const first = points[0] as DwellPoint;
  const last = points[points.length - 1] as DwellPoint;
  const log = logCreep(points);
  const exponential = exponentialCreep(points);
  const evaluate = (data: PressCurve): number[] => {
    const moved = dwellPoints(data, dwell);
    return [(moved.at(-1) as DwellPoint).displacementM - (moved[0] as DwellPoint).displacementM, ...logCreep(moved).parameters, ...exponentialCreep(moved).parameters];
  };
  const rows = recomputedRows(curve, causes, evaluate) as [BudgetRow[], BudgetRow[], BudgetRow[], BudgetRow[], BudgetRow[], BudgetRow[]];
  const change = last.displacementM - first.displacementM;
  const noise: BudgetRow = { cause: `noise of the displacement, ${run}`, effect: Math.hypot(first.standardError, last.standardError), sharedBy: null, degreesOfFreedom: Math.min(first.count, last.count) - 1 };
  const creep = estimateFrom(change, "m", `displacement at the end of the dwell less that at its fiftieth: from ${first.timeS.toPrecision(3)} to ${last.timeS.toPrecision(3)} s after the load was reached`, [...rows[0], noise]);
  const better = exponential.criterion - log.criterion;
  const shared = { run, points, change, doubt: creep.standardUncertainty ?? Number.NaN };
  const fits = [
    lawFit(shared, log, { model: "creep by the logarithm of time", formula: `δ = δ1 + C · log10(t / ${first.timeS.toPrecision(3)} s); δ1 and C in m`, parameters: [["deflectionAtStart", "δ1", "m"], ["creepPerTenfoldTime", "C", "m"]] }, rows.slice(1, 3), better),
    lawFit(shared, exponential, { model: "creep that runs out", formula: "δ = δ0 + A · (1 − e^(−t/τ)); δ0 and A in m, τ in s", parameters: [["deflectionAtOnce", "δ0", "m"], ["creepInTheEnd", "A", "m"], ["creepTime", "τ", "s"]] }, rows.slice(3, 6), -better),
  ];
  const [byLog, byExponential] = fits as [Fit, Fit];
  return {
    measures: [
      { name: "creepDuringDwell", label: "Creep while the load was held", estimate: creep, segment: null },
      { name: "creepPerTenfoldTime", label: "Creep per tenfold time", estimate: fromLaw(byLog, 1), segment: null },
      { name: "creepTime", label: "Time over which the creep runs out", estimate: fromLaw(byExponential, 2), segment: null },
    ],
    fits,
  };
}

interface Shared {
  readonly run: string;
  readonly points: readonly DwellPoint[];
  readonly change: number;
  readonly doubt: number;
}

interface LawWords {
  readonly model: string;
  readonly formula: string;
  readonly parameters: readonly (readonly [name: string, symbol: string, unit: Unit])[];
}

/** One law as a Fit; `better` is how far the other law's criterion lies above this one's. */
function lawFit({ run, points, change, doubt }: Shared, law: CreepLaw, words: LawWords, rows: readonly BudgetRow[][], better: number): Fit {
  const degreesOfFreedom = points.length - law.parameters.length;
  const told = Math.abs(change) > 2 * doubt;
  const verdict: Verdict = told && better >= clear ? "determined" : "undetermined";
  const sentence = !told
    ? "The displacement changes by less than twice its standard uncertainty while the load is held: no creep can be told."
    : better >= clear
      ? `It describes the dwell better than the other law (difference of the corrected Akaike criterion ${better.toFixed(1)}). Beyond the dwell either is an extrapolation.`
      : better > -clear
        ? `Both laws describe the dwell about as well (difference of the corrected Akaike criterion ${better.toFixed(1)}): hold the load longer to tell them apart, and carry neither beyond the dwell.`
        : `The other law describes the dwell better (difference of the corrected Akaike criterion ${(-better).toFixed(1)}).`;
  return {
    model: words.model,
    formula: words.formula,
    parameters: words.parameters.map(([name, symbol, unit], i) => {
      const scatter: BudgetRow = { cause: `scatter about the creep law, ${run}`, effect: Math.sqrt(Math.max(0, (law.covariance[i] as readonly number[])[i] as number)), sharedBy: null, degreesOfFreedom };
      return { name, symbol, estimate: estimateFrom(law.parameters[i] as number, unit, "weighted least squares over stretches of the dwell", [...(rows[i] as BudgetRow[]), scatter]) };
    }),
    covariance: law.covariance,
    points: points.map((point) => ({ run, x: point.timeS, y: point.displacementM, yUncertainty: point.standardError, kept: true, reason: "" })),
    residuals: law.residuals,
    degreesOfFreedom,
    verdict,
    sentence,
    findings: [],
  };
}

/** A constant as a measure: withheld where its law was not found to hold. */
function fromLaw(fit: Fit, index: number): Estimate {
  const { estimate } = fit.parameters[index] as Fit["parameters"][number];
  return fit.verdict === "determined" ? estimate : undetermined(estimate.unit, fit.sentence);
}
