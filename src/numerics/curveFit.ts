import { dampedSteps } from "./dampedSteps.ts";
import { centralJacobian, type Jacobian } from "./jacobian.ts";
import { allFinite, columnLengths, covarianceFactor } from "./normalInverse.ts";

// Steps and stops; all relative, so they do not depend on units.
const mostSteps = 1000;
const firstDamping = 1e-3;
const mostDamping = 1e25;
const smallStep = 1e-11;
const smallCosine = 1e-12;
const leastReduction = 4 * 2 ** -52;

/** What `curveFit` needs. */
export interface CurveProblem {
  readonly model: (x: number, parameters: readonly number[]) => number;
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
  readonly start: readonly number[];
  /** of each y, > 0; left out: all alike and unknown, told from the scatter */
  readonly standardUncertainties?: ArrayLike<number>;
  readonly lower?: readonly number[];
  readonly upper?: readonly number[];
  /** ∂model/∂parameter at x; central differences when left out */
  readonly jacobian?: Jacobian;
  readonly maximumSteps?: number;
}

/** A fitted curve and how far to trust it. */
export interface CurveFit {
  readonly parameters: readonly number[];
  /** NaN throughout when the data cannot tell the parameters apart or leave no degrees of freedom to scale by */
  readonly covariance: readonly (readonly number[])[];
  readonly standardErrors: readonly number[];
  /** y − model, unweighted */
  readonly residuals: readonly number[];
  /** Σ ((y − model)/u)², u = 1 when not stated */
  readonly sumOfSquares: number;
  /** √(sumOfSquares / degreesOfFreedom); NaN without degrees of freedom */
  readonly residualSd: number;
  /** sumOfSquares / degreesOfFreedom when uncertainties were stated, else null */
  readonly reducedChiSquare: number | null;
  readonly degreesOfFreedom: number;
  readonly converged: boolean;
  readonly atLimit: boolean[];
  /** of the weighted Jacobian with columns of length one; large = parameters cannot be told apart */
  readonly conditionNumber: number;
  readonly steps: number;
  /** one sentence: why it stopped */
  readonly reason: string;
}

interface State {
  parameters: number[];
  /** (y − model)/u */
  residuals: Float64Array<ArrayBuffer>;
  cost: number;
}

/**
 * Weighted nonlinear least squares by Levenberg–Marquardt.
 *
 *   minimise Σ ((yᵢ − f(xᵢ, p)) / uᵢ)²
 *   (JᵀJ + λ D²) δ = Jᵀr,   D = largest column lengths of J so far,   solved by QR of J stacked on √λ D
 *   λ follows the gain ratio: actual over predicted fall of the sum
 *   covariance = (JᵀJ)⁻¹ with stated uncertainties, s² (JᵀJ)⁻¹ without
 *
 * Units as the model's. Bounds by projection: a parameter at a bound with the slope pointing outwards rests there for that
 * step. A trial where the model is not finite counts as infinitely bad. With a parameter at its limit the covariance is
 * the formal one of the unbounded problem: use it with the verdict only. No answer is a value (`converged` false, NaN),
 * never an exception.
 *
 * @param problem { model, x, y, start, standardUncertainties?, lower?, upper?, jacobian?, maximumSteps? }
 * @returns       { parameters, covariance, standardErrors, residuals, sumOfSquares, residualSd, reducedChiSquare,
 *                degreesOfFreedom, converged, atLimit, conditionNumber, steps, reason }
 * @throws        RangeError if lengths differ, there are fewer points than parameters, data or start are not finite,
 *                an uncertainty is not above zero, or a lower bound is not below its upper bound
 * @source        Moré, Lecture Notes in Mathematics 630 (1978) 105 (scaling); Nielsen, IMM-REP-1999-05 (damping) (from memory)
 * @checked       tests/numerics/curveFit.test.ts
 */
export function curveFit(problem: CurveProblem): CurveFit {
  requireSound(problem);
  const count = problem.start.length;
  const lower = problem.lower ?? new Array<number>(count).fill(-Infinity);
  const upper = problem.upper ?? new Array<number>(count).fill(Infinity);
  const inside = (p: readonly number[]): number[] => p.map((value, j) => Math.min(upper[j] as number, Math.max(lower[j] as number, value)));
  const n = problem.x.length;
  let state = evaluate(problem, inside(problem.start), new Float64Array(n));
  if (!Number.isFinite(state.cost)) return answer(problem, state, null, false, 0, "the model is not finite at the start values");

  let spare = new Float64Array(n); // for the residuals of a trial
  const scales = new Float64Array(count);
  const jacobian = new Float64Array(n * count);
  const tangents = dampedSteps(n, count);
  let damping = firstDamping;
  let growth = 2;
  let steps = 0;
  weightedJacobian(problem, state, lower, upper, jacobian);
  let reason = "";
  const most = problem.maximumSteps ?? mostSteps;
  while (reason === "" && steps < most) {
    if (!allFinite(jacobian)) return answer(problem, state, jacobian, false, steps, "the slope of the model is not finite");
    const gradient = gradientOf(jacobian, state.residuals, n, count);
    const free = gradient.map((slope, j) => !(((state.parameters[j] as number) <= (lower[j] as number) && slope < 0) || ((state.parameters[j] as number) >= (upper[j] as number) && slope > 0)));
    const lengths = columnLengths(jacobian, n, count);
    for (let j = 0; j < count; j++) scales[j] = Math.max(scales[j] as number, lengths[j] as number) || 1;
    const cosine = gradient.reduce((most, slope, j) => (free[j] && lengths[j] !== 0 ? Math.max(most, Math.abs(slope) / (lengths[j] as number)) : most), 0) / Math.sqrt(state.cost);
    if (state.cost === 0 || cosine <= smallCosine) {
      reason = state.cost === 0 ? "the curve passes through every point" : "the sum of squares is flat";
      break;
    }
    tangents.place(jacobian, state.residuals, free, scales);
    // a full step from afar overshoots: the first is no longer than the start vector
    if (steps === 0) damping = tangents.cautious(state.parameters, firstDamping);
    for (;;) {
      steps++;
      const step = tangents.step(damping);
      const trial = evaluate(problem, inside(state.parameters.map((value, j) => value + (step[j] as number))), spare);
      const moved = trial.parameters.map((value, j) => value - (state.parameters[j] as number));
      const predicted = tangents.fall(moved);
      const gain = (state.cost - trial.cost) / predicted;
      const still = moved.every((value, j) => Math.abs(value) <= smallStep * Math.abs(state.parameters[j] as number));
      const level = predicted <= leastReduction * state.cost && damping <= 1;
      if (trial.cost < state.cost && (predicted > 0 || still)) {
        spare = state.residuals;
        state = trial;
        damping *= Math.max(1 / 3, 1 - (2 * Math.min(gain, 1) - 1) ** 3);
        growth = 2;
        if (still || level) reason = "the last step changed nothing that counts";
        weightedJacobian(problem, state, lower, upper, jacobian);
        break;
      }
      if (still || level) {
        reason = "no further step lowers the sum of squares";
        break;
      }
      damping *= growth;
      growth *= 2;
      if (damping > mostDamping || steps >= most) return answer(problem, state, jacobian, false, steps, `no minimum found after ${steps} steps`);
    }
  }
  return answer(problem, state, jacobian, reason !== "", steps, reason === "" ? `no minimum found after ${steps} steps` : reason);
}

/** The model at these parameters; `residuals` receives (y − model)/u. */
function evaluate({ model, x, y, standardUncertainties }: CurveProblem, parameters: number[], residuals: Float64Array<ArrayBuffer>): State {
  let cost = 0;
  for (let i = 0; i < residuals.length; i++) {
    const residual = ((y[i] as number) - model(x[i] as number, parameters)) / (standardUncertainties === undefined ? 1 : (standardUncertainties[i] as number));
    residuals[i] = residual;
    cost += residual * residual;
  }
  return { parameters, residuals, cost }; // a NaN is never below anything, so such a trial is never taken
}

/** ∂model/∂p / u, column-major, into `matrix`. */
function weightedJacobian(problem: CurveProblem, state: State, lower: readonly number[], upper: readonly number[], matrix: Float64Array): void {
  const { x, standardUncertainties, jacobian } = problem;
  const n = x.length;
  const count = state.parameters.length;
  if (jacobian === undefined) centralJacobian(problem.model, x, state.parameters, problem.start, lower, upper, matrix);
  else {
    for (let i = 0; i < n; i++) {
      const slopes = jacobian(x[i] as number, state.parameters);
      for (let j = 0; j < count; j++) matrix[j * n + i] = slopes[j] as number;
    }
  }
  if (standardUncertainties !== undefined) for (let j = 0; j < count; j++) for (let i = 0; i < n; i++) matrix[j * n + i] = (matrix[j * n + i] as number) / (standardUncertainties[i] as number);
}

function gradientOf(jacobian: Float64Array, residuals: Float64Array, n: number, count: number): number[] {
  const gradient: number[] = [];
  for (let j = 0; j < count; j++) {
    let total = 0;
    for (let i = 0; i < n; i++) total += (jacobian[j * n + i] as number) * (residuals[i] as number);
    gradient.push(total);
  }
  return gradient;
}

function answer(problem: CurveProblem, state: State, jacobian: Float64Array | null, converged: boolean, steps: number, reason: string): CurveFit {
  const { x, y, model, standardUncertainties, lower, upper } = problem;
  const { parameters, cost } = state;
  const count = parameters.length;
  const n = x.length;
  const degreesOfFreedom = n - count;
  const variance = degreesOfFreedom > 0 ? cost / degreesOfFreedom : Number.NaN;
  const { factor, conditionNumber } = covarianceFactor(jacobian, n, count);
  const scale = standardUncertainties === undefined ? variance : 1;
  const covariance = factor.map((row) => row.map((value) => value * scale));
  return {
    parameters,
    covariance,
    standardErrors: covariance.map((row, j) => Math.sqrt(row[j] as number)),
    residuals: Array.from(x, (value, i) => (y[i] as number) - model(value, parameters)),
    sumOfSquares: cost,
    residualSd: Math.sqrt(variance),
    reducedChiSquare: standardUncertainties === undefined ? null : variance,
    degreesOfFreedom,
    converged: converged && conditionNumber < Infinity,
    atLimit: parameters.map((value, j) => value <= (lower?.[j] ?? -Infinity) || value >= (upper?.[j] ?? Infinity)),
    conditionNumber,
    steps,
    reason: converged && conditionNumber === Infinity ? "a parameter has lost all influence on the curve" : reason,
  };
}

function requireSound({ x, y, start, standardUncertainties, lower, upper }: CurveProblem): void {
  const n = x.length;
  const count = start.length;
  const differs = (name: string, found: number, expected: number): void => {
    if (found !== expected) throw new RangeError(`curveFit: expected ${expected} ${name}, found ${found}`);
  };
  differs("values of y", y.length, n);
  if (standardUncertainties !== undefined) differs("standard uncertainties", standardUncertainties.length, n);
  if (lower !== undefined) differs("lower bounds", lower.length, count);
  if (upper !== undefined) differs("upper bounds", upper.length, count);
  if (count === 0 || n < count) throw new RangeError(`curveFit: expected at least as many points as parameters, found ${n} points and ${count} parameters`);
  if (!start.every(Number.isFinite)) throw new RangeError(`curveFit: expected finite start values, found ${start.join(", ")}`);
  for (let i = 0; i < n; i++) {
    if (!Number.isFinite(x[i]) || !Number.isFinite(y[i])) throw new RangeError(`curveFit: expected finite data, found (${x[i]}, ${y[i]}) at index ${i}`);
    const uncertainty = standardUncertainties === undefined ? 1 : (standardUncertainties[i] as number);
    if (!(uncertainty > 0 && uncertainty < Infinity)) throw new RangeError(`curveFit: expected a finite standard uncertainty above zero, found ${uncertainty} at index ${i}`);
  }
  for (let j = 0; j < count; j++) if ((lower?.[j] ?? -Infinity) >= (upper?.[j] ?? Infinity)) throw new RangeError(`curveFit: expected lower < upper, found ${lower?.[j]} and ${upper?.[j]} for parameter ${j}`);
}
