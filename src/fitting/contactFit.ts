import type { Finding } from "../core/finding.ts";
import { finding } from "../core/finding.ts";
import type { Fit, FitPoint } from "../core/fit.ts";
import { wheelBlow } from "../models/wheelBlow.ts";
import type { WheelContact } from "../models/wheelBlow.ts";
import { curveFit } from "../numerics/curveFit.ts";
import type { CurveFit } from "../numerics/curveFit.ts";
import { leastSquares } from "../numerics/linearAlgebra.ts";
import { median } from "../numerics/statistics.ts";
import { blowQuantities } from "./contactDrops.ts";
import type { ContactDrop } from "./contactDrops.ts";
import { parameterEstimates } from "./parameterEstimates.ts";
import type { ParameterName, ParameterShift } from "./parameterEstimates.ts";
import { sharedEffects, unsharedUncertainty } from "./sharedEffects.ts";
import type { SharedEffect } from "./sharedEffects.ts";

const names: readonly ParameterName[] = [
  { name: "push", symbol: "A", unit: "m/s2" },
  { name: "exponent", symbol: "p", unit: "1" },
  { name: "speedLoss", symbol: "β", unit: "1" },
  { name: "viscousRatio", symbol: "ζ", unit: "1" },
];
const fewestHeights = 3;
/** A model that misses by more than this share of its quantities is no description of the wheel. */
const largestMisfit = 0.1;
const lower = [0, 0.5, 0, 0];
const upper = [Infinity, 5, 3, 0.9];

/** A contact model fitted to the drops of one wheel. */
export interface ContactFit {
  readonly fit: Fit;
  readonly contact: WheelContact;
  /** places of the fitted constants in the model's four; a dissipation that came out as none is left out */
  readonly free: readonly number[];
  /** scatter between drops and misfit of the model beyond the drops' own uncertainties, as a share of each quantity */
  readonly misfit: number;
}

/**
 * Contact model of one wheel over all its drops.
 *
 *   F/m = A (d/d₀)^p (1 + β ḋ/v₀) + 2ζ √(A/d₀) ḋ,   peak acceleration, compression, duration and restitution of every drop
 *   minimise Σ ((y − f(v₁))/u)²,   u² = u_y² + (∂f/∂v₁)² u_v² + (τ f)²
 *
 * A [m/s²], p, β, ζ [1]; d₀ and v₀ are the medians of largest compression and contact speed. The mass does not enter: F = m
 * times this. u_y, u_v: each drop's own uncertainties; what drops share is added after. τ: zero unless χ² exceeds its degrees
 * of freedom, then as large as makes them equal: scatter between drops and misfit of the model. A dissipation that ends at
 * none is left out and the rest fitted again. Undetermined with fewer than three heights, or where τ exceeds 10 %.
 *
 * @param drops   the drops that count
 * @param refused points that do not count, with their reasons
 * @param gravity at the laboratory [m/s²]
 * @returns       the Fit, its points measured over fitted against contact speed; `contact` only means something when determined
 * @source        K. H. Hunt and F. R. E. Crossley, J. Applied Mechanics 42 (1975) 440; τ: R. C. Paule and J. Mandel, J. Res. NBS 87 (1982) 377 (both from memory)
 * @checked       tests/fitting/contactFit.test.ts
 */
export function contactFit(drops: readonly ContactDrop[], refused: readonly FitPoint[], gravity: number): ContactFit {
  const heights = new Set(drops.map((drop) => drop.heightM ?? Number(drop.speed.value.toPrecision(1)))).size;
  const shape = { model: "contact of a dropped wheel", points: refused };
  const start: WheelContact = { push: 1, exponent: 1, loss: 0, viscous: 0, referenceM: 1, referenceMps: 1 };
  const none = (sentence: string): ContactFit => ({ contact: start, free: [], misfit: Number.NaN, fit: { ...shape, formula: formulaOf(null), parameters: [], covariance: [], residuals: [], degreesOfFreedom: 0, verdict: "undetermined", sentence, findings: [] } });
  if (heights < fewestHeights) return none(`${heights} ${heights === 1 ? "height" : "heights"} with usable drops; the contact needs at least ${fewestHeights}.`);
  const observations = observationsOf(drops);
  const first = startOf(drops, gravity);
  let free = [0, 1, 2, 3];
  let solved = solve(observations, first, free, gravity, 0);
  for (const dissipation of [2, 3]) {
    if (solved.result.atLimit[free.indexOf(dissipation)] !== true || (solved.contactValues[dissipation] as number) > 0 || free.length < 4) continue;
    free = free.filter((place) => place !== dissipation);
    solved = solve(observations, withValue(first, dissipation, 0), free, gravity, 0);
  }
  const degreesOfFreedom = observations.length - free.length;
  // Scatter and residuals lean on each other only a little: three rounds settle both.
  let misfit = 0;
  for (let round = 0; round < 3; round++) {
    misfit = misfitOf(observations, solved, degreesOfFreedom);
    if (misfit === 0 && round === 0) break;
    solved = solve(observations, solved.contact, free, gravity, misfit);
  }
  if (!solved.result.converged) return none(`The fit did not settle: ${solved.result.reason}.`);
  return reported(drops, refused, observations, solved, free, misfit, degreesOfFreedom, heights);
}

/** One quantity of one drop. */
interface Observation {
  readonly drop: ContactDrop;
  readonly quantity: number;
  readonly value: number;
  readonly own: number;
  readonly speed: number;
  readonly speedOwn: number;
}

function observationsOf(drops: readonly ContactDrop[]): Observation[] {
  return drops.flatMap((drop) => drop.observed.map((estimate, quantity): Observation => ({ drop, quantity, value: estimate.value, own: unsharedUncertainty(estimate), speed: drop.speed.value, speedOwn: unsharedUncertainty(drop.speed) })));
}

function startOf(drops: readonly ContactDrop[], gravity: number): WheelContact {
  const middle = (quantity: number): number => median(drops.map((drop) => (drop.observed[quantity] as ContactDrop["speed"]).value));
  const loss = Math.max(0.02, 1 - middle(3));
  return { push: middle(0) + gravity, exponent: 1.2, loss: 0.7 * loss, viscous: 0.15 * loss, referenceM: middle(1), referenceMps: median(drops.map((drop) => drop.speed.value)) };
}

const keys = ["push", "exponent", "loss", "viscous"] as const;

function withValue(contact: WheelContact, place: number, value: number): WheelContact {
  return { ...contact, [keys[place] as string]: value };
}

/**
 * The model's constants with some of them replaced.
 *
 *   contact with its constants `free` set to `values`, in order
 *
 * @param contact where the others come from
 * @param free    places in (A, p, β, ζ)
 * @param values  as many numbers
 * @returns       the constants
 * @source        definition
 * @checked       tests/fitting/contactFit.test.ts
 */
export function contactWith(contact: WheelContact, free: readonly number[], values: readonly number[]): WheelContact {
  return free.reduce((built, place, i) => withValue(built, place, values[i] as number), contact);
}

interface Solved {
  readonly contact: WheelContact;
  readonly contactValues: readonly number[];
  readonly result: CurveFit;
  /** the model's value, its slope by the contact speed, and the uncertainty that was used, observation by observation */
  readonly predicted: readonly number[];
  readonly bySpeed: readonly number[];
  readonly gravity: number;
}

/**
 * One quantity of a blow.
 *
 *   f(v₁, g) of `wheelBlow`, in the order of `blowQuantities`
 *
 * @param contact  the constants
 * @param speedMps v₁ [m/s]
 * @param gravity  g [m/s²]
 * @returns        the four quantities [m/s², m, s, 1]
 * @source         `wheelBlow`
 * @checked        tests/fitting/contactFit.test.ts
 */
export function blowValues(contact: WheelContact, speedMps: number, gravity: number): number[] {
  const blow = wheelBlow(contact, speedMps, gravity);
  return blowQuantities.map((quantity) => blow[quantity.of]);
}

function solve(observations: readonly Observation[], from: WheelContact, free: readonly number[], gravity: number, misfit: number): Solved {
  // One blow gives four quantities, and the same constants are asked for again and again.
  const blows = new Map<string, number[]>();
  let last = "";
  const valuesAt = (contact: WheelContact, speed: number): number[] => {
    const constants = keys.map((key) => contact[key]).join();
    if (constants !== last) blows.clear();
    last = constants;
    const known = blows.get(String(speed)) ?? blowValues(contact, speed, gravity);
    blows.set(String(speed), known);
    return known;
  };
  const model = (i: number, values: readonly number[]): number => {
    const { speed, quantity } = observations[i] as Observation;
    return valuesAt(contactWith(from, free, values), speed)[quantity] as number;
  };
  const doubts = observations.map(({ speed, quantity, own, speedOwn, value }) => {
    const step = 1e-3 * speed;
    const slope = ((valuesAt(from, speed + step)[quantity] as number) - (valuesAt(from, speed - step)[quantity] as number)) / (2 * step);
    return Math.max(1e-9 * Math.abs(value), Math.hypot(own, Number.isFinite(slope) ? slope * speedOwn : 0, misfit * value));
  });
  const pick = (all: readonly number[]): number[] => free.map((place) => all[place] as number);
  const result = curveFit({ model, x: observations.map((_, i) => i), y: observations.map((one) => one.value), standardUncertainties: doubts, start: pick(keys.map((key) => from[key])), lower: pick(lower), upper: pick(upper), maximumSteps: 60 });
  const contact = contactWith(from, free, result.parameters);
  const predicted = observations.map(({ speed, quantity }) => valuesAt(contact, speed)[quantity] as number);
  const bySpeed = observations.map(({ speed, quantity }) => ((blowValues(contact, speed * 1.001, gravity)[quantity] as number) - (blowValues(contact, speed * 0.999, gravity)[quantity] as number)) / (0.002 * speed));
  return { contact, contactValues: keys.map((key) => contact[key]), result, predicted, bySpeed, gravity };
}

/** τ that makes χ² its degrees of freedom; 0 where the drops' own uncertainties already do. */
function misfitOf(observations: readonly Observation[], { predicted, bySpeed }: Solved, degreesOfFreedom: number): number {
  const chi = (misfit: number): number => observations.reduce((sum, { value, own, speedOwn }, i) => sum + (value - (predicted[i] as number)) ** 2 / (own ** 2 + ((bySpeed[i] as number) * speedOwn) ** 2 + (misfit * value) ** 2), 0);
  if (chi(0) <= degreesOfFreedom) return 0;
  let low = 0;
  let high = 1;
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2;
    if (chi(middle) > degreesOfFreedom) low = middle;
    else high = middle;
  }
  return high;
}

function reported(drops: readonly ContactDrop[], refused: readonly FitPoint[], observations: readonly Observation[], solved: Solved, free: readonly number[], misfit: number, degreesOfFreedom: number, heights: number): ContactFit {
  const { contact, result, predicted, bySpeed } = solved;
  const doubts = observations.map(({ own, speedOwn, value }, i) => Math.hypot(own, (bySpeed[i] as number) * speedOwn, misfit * value));
  const points = observations.map(({ drop, value, speed }, i): FitPoint => ({ run: drop.run, x: speed, y: value / (predicted[i] as number), yUncertainty: (doubts[i] as number) / (predicted[i] as number), kept: true, reason: "" }));
  const rows = slopesOf(observations, solved, free, drops);
  const shifts = sharedShifts(drops, observations, bySpeed, rows, doubts);
  const method = `weighted least squares over ${drops.length} drops from ${heights} heights`;
  const ownCause = `own uncertainty, scatter and misfit of ${drops.map((drop) => drop.run).join(", ")}`;
  const estimates = parameterEstimates(free.map((place) => contact[keys[place] as (typeof keys)[number]]), free.map((place) => names[place] as ParameterName), result.covariance, degreesOfFreedom, ownCause, shifts, method);
  const bound = free.filter((_, i) => result.atLimit[i]).map((place) => names[place]?.symbol);
  const left = [2, 3].filter((place) => !free.includes(place));
  const findings: Finding[] = [];
  if (misfit > 0.02) findings.push(finding("contact-misfit", "note", `Drops and model differ by ${(100 * misfit).toFixed(1)} % beyond the drops' own uncertainties: the wheel's contact is not quite of this form. That much is in every prediction's band.`, { measured: misfit }));
  const verdict = bound.length > 0 ? "atLimit" : misfit > largestMisfit ? "undetermined" : "determined";
  const dissipation = left.length === 0 ? "a loss that grows with the speed and a viscous one" : left.length === 2 ? "no loss" : left.includes(2) ? "a viscous loss alone" : "a loss that grows with the speed alone (Hunt and Crossley)";
  const sentence = {
    atLimit: `${bound.join(" and ")} ended on the limit of what is allowed; these drops do not show the form of the contact.`,
    undetermined: `The model misses the drops by ${(100 * misfit).toFixed(0)} %, more than ${100 * largestMisfit} %; the wheel's contact is not of this form.`,
    determined: `${drops.length} drops from ${heights} heights show a push that grows with the compression to the power ${contact.exponent.toFixed(2)}, with ${dissipation}; ${misfit === 0 ? "their own uncertainties explain what is left" : `beyond their own uncertainties they leave ${(100 * misfit).toFixed(1)} %`}.`,
  }[verdict];
  return { contact, free, misfit, fit: { model: "contact of a dropped wheel", formula: formulaOf(contact), ...estimates, points: [...points, ...refused], residuals: points.map((point) => point.y - 1), degreesOfFreedom, verdict, sentence, findings } };
}

function formulaOf(contact: WheelContact | null): string {
  const reference = contact === null ? "" : `, d₀ = ${(1000 * contact.referenceM).toPrecision(4)} mm, v₀ = ${contact.referenceMps.toPrecision(4)} m/s`;
  return `F/m = A (d/d₀)^p (1 + β ḋ/v₀) + 2ζ √(A/d₀) ḋ${reference}; A [m/s²], p, β, ζ without unit; points: measured over fitted peak acceleration, compression, duration and restitution against contact speed`;
}

/** ∂f/∂constant, observation by observation. */
function slopesOf(observations: readonly Observation[], { contact, gravity }: Solved, free: readonly number[], drops: readonly ContactDrop[]): number[][] {
  const columns = free.map((place) => {
    const value = contact[keys[place] as (typeof keys)[number]];
    const step = 1e-4 * Math.max(value, 0.01);
    const at = (shift: number) => new Map(drops.map((drop) => [drop.run, blowValues(withValue(contact, place, value + shift), drop.speed.value, gravity)]));
    return { high: at(step), low: at(-step), step };
  });
  return observations.map(({ drop, quantity }) => columns.map(({ high, low, step }) => ((high.get(drop.run)?.[quantity] as number) - (low.get(drop.run)?.[quantity] as number)) / (2 * step)));
}

/** What the drops share, as shifts of the constants: through the quantities, and through the contact speed. */
function sharedShifts(drops: readonly ContactDrop[], observations: readonly Observation[], bySpeed: readonly number[], rows: readonly (readonly number[])[], doubts: readonly number[]): ParameterShift[] {
  const onValue = sharedEffects(drops.flatMap((drop) => drop.observed));
  const onSpeed = sharedEffects(observations.map(({ drop }) => drop.speed));
  const causes = [...onValue, ...onSpeed.filter((cause) => !onValue.some((known) => known.cause === cause.cause))];
  const weights = doubts.map((doubt) => 1 / doubt ** 2);
  return causes.map((cause) => {
    const effect = (from: readonly SharedEffect[], i: number): number => from.find((known) => known.cause === cause.cause)?.effects[i] ?? 0;
    const moved = observations.map((_, i) => effect(onValue, i) - (bySpeed[i] as number) * effect(onSpeed, i));
    return { cause: cause.cause, sharedBy: cause.sharedBy, degreesOfFreedom: cause.degreesOfFreedom, shifts: leastSquares(rows, moved, weights).solution };
  });
}
