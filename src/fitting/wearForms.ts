import { lineFit } from "../numerics/lineFit.ts";
import type { Line } from "../numerics/lineFit.ts";

/** A form a trend may take: a straight line in g(x), which runs from 0 at no distance to 1 at the last inspection. */
export interface WearForm {
  readonly name: "line" | "logarithm";
  readonly formula: string;
  readonly g: (distanceM: number) => number;
}

/** A form fitted, and how it foretells inspections left out. */
export interface FittedForm {
  readonly form: WearForm;
  readonly line: Line;
  /** root mean square error at each inspection, left out in turn; null = too few to tell */
  readonly heldOutError: number | null;
}

/** The logarithm is taken below this share of the line's error; below the second share of the other's a form is beyond doubt. */
const clearly = 0.5;
const beyondDoubt = 0.25;
const fewestToTell = 4;

/**
 * Straight line or logarithm for a trend over distance, chosen by what they say of inspections left out.
 *
 *   line: g = x/x_e        logarithm: g = ln(1 + x/x₁) / ln(1 + x_e/x₁)        y = y₀ + Δ g
 *
 * x_e: last inspection, x₁: first one that is not at 0. The logarithm is taken where its root mean square error at the
 * inspections, each left out in turn, is below half that of the line; else the line: wear is
 * mostly in proportion to the distance, and a wrong logarithm misses far beyond the data. Unit of y.
 *
 * @param distances  [m], ≥ 0, at least three different
 * @param y          as many
 * @param weights    1/u², or undefined
 * @returns          the form taken and the other one
 * @source           common practice
 * @checked          tests/fitting/wearTrend.test.ts
 */
export function wearForms(distances: readonly number[], y: readonly number[], weights: readonly number[] | undefined): readonly [FittedForm, FittedForm] {
  const last = Math.max(...distances);
  const first = Math.min(...distances.filter((x) => x > 0));
  const forms: readonly WearForm[] = [
    { name: "line", formula: "y = y₀ + Δ x/x_e", g: (x) => x / last },
    { name: "logarithm", formula: "y = y₀ + Δ ln(1 + x/x₁)/ln(1 + x_e/x₁)", g: (x) => Math.log1p(x / first) / Math.log1p(last / first) },
  ];
  const fitted = forms.map((form): FittedForm => {
    const g = distances.map(form.g);
    return { form, line: lineFit(g, y, weights), heldOutError: g.length < fewestToTell ? null : heldOut(g, y, weights) };
  });
  const [line, logarithm] = fitted as [FittedForm, FittedForm];
  return below(logarithm, line, clearly) ? [logarithm, line] : [line, logarithm];
}

/**
 * Whether one form is so much better than the other that the other need not be thought of.
 *
 *   error at inspections left out < a quarter of the other's
 *
 * A handful of inspections that scatter gives half the error by chance.
 *
 * @param form    the form taken
 * @param other   the other one
 * @returns       false also where there are too few inspections to tell
 * @source        common practice
 * @checked       tests/fitting/wearTrend.test.ts
 */
export function formIsBeyondDoubt(form: FittedForm, other: FittedForm): boolean {
  return below(form, other, beyondDoubt);
}

function below(form: FittedForm, other: FittedForm, share: number): boolean {
  return form.heldOutError !== null && other.heldOutError !== null && form.heldOutError < share * other.heldOutError;
}

function heldOut(g: readonly number[], y: readonly number[], weights: readonly number[] | undefined): number {
  const without = <T>(values: readonly T[], out: number): T[] => values.filter((_, i) => i !== out);
  const squares = g.map((at, i) => {
    const { intercept, slope } = lineFit(without(g, i), without(y, i), weights === undefined ? undefined : without(weights, i));
    return ((y[i] as number) - intercept - slope * at) ** 2;
  });
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / squares.length);
}
