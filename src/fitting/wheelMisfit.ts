import { groupedCovariance, varianceComponents } from "../numerics/varianceComponents.ts";
import type { GroupedResiduals } from "../numerics/varianceComponents.ts";
import { symmetricInverse } from "../numerics/linearAlgebra.ts";
import { whitening } from "../numerics/whitening.ts";
import type { Whitening } from "../numerics/whitening.ts";
import { quantities } from "./wheelObservations.ts";
import type { WheelObservation, WheelQuantity, WheelSubject } from "./wheelObservations.ts";

/** What a model misses beyond the runs' own uncertainties, as standard deviations of shares. */
export interface Misfit {
  /** from datum to datum, by `missKey` */
  readonly single: Readonly<Record<string, number>>;
  /** from one prepared bed to the next, the same in all its runs; 0 where the runs cannot tell it */
  readonly beds: Readonly<Record<WheelQuantity, number>>;
  /** from wheel to wheel, the same in all its runs; 0 where the runs cannot tell it */
  readonly wheels: Readonly<Record<WheelQuantity, number>>;
}

/** A datum of the fit: its run, its quantity, and the kind of misfit it has for itself. */
export interface MisfitRow {
  readonly observation: WheelObservation;
  readonly quantity: WheelQuantity;
  readonly kind: string;
}

/**
 * Names the misfit a datum belongs to: misfits are judged apart by quantity, and for rigid and flexible wheels, since a
 * model may describe the one and not the other.
 *
 * @param quantity   pull, torque or sinkage
 * @param wheel      rigid where it has no load–deflection curve
 * @returns          "pull", or "pull, flexible"
 * @source           common practice
 * @checked          tests/fitting/wheelSoilFit.test.ts
 */
export function missKey(quantity: WheelQuantity, wheel: WheelSubject): string {
  return wheel.curve === null ? quantity : `${quantity}, flexible`;
}

/** A misfit is not told from fewer groups than this. */
const fewestGroups = 3;
/** an own variance of a share below it is nothing */
const least = 1e-8;
const pointSteps = 3;
/** of Student's t that robust fits take errors for: the usual four */
const studentFreedom = 4;
const first = 0.03;

const groupingsOf: readonly ((row: MisfitRow) => string | null)[] = [({ observation }) => observation.bed, ({ observation }) => observation.wheel.id];

/**
 * The misfit a fit begins with: three hundredths of each kind, and a hundredth between groups where groups can be told.
 *
 * @param rows   the data
 * @returns      a start for `misfitOf`; groups that the runs cannot tell are 0 and stay 0
 * @source       common practice
 * @checked      tests/fitting/wheelMisfit.test.ts
 */
export function firstMisfit(rows: readonly MisfitRow[]): Misfit {
  const [beds, wheels] = groupingsOf.map((nameOf) => byQuantity((quantity) => {
    const mine = rows.filter((row) => row.quantity === quantity);
    const names = new Set(mine.map(nameOf).filter((name) => name !== null));
    return names.size >= fewestGroups && mine.filter((row) => nameOf(row) !== null).length > names.size ? first / 3 : 0;
  })) as [Misfit["beds"], Misfit["wheels"]];
  return { single: Object.fromEntries([...new Set(rows.map(({ kind }) => kind))].map((kind) => [kind, first])), beds, wheels };
}

/**
 * What the residuals of a fit say of the misfit: on its own, by bed and by wheel.
 *
 * Runs on one prepared bed share what that bed deviates by, runs of one wheel what the model does not see of it. Both are
 * counted once a bed and once a wheel, so that more runs on the same bed do not narrow what only more beds could.
 *
 * @param rows         the data
 * @param fit          residuals, slopes and the parameters' covariance
 * @param own          the runs' own standard uncertainties
 * @param weights      from `outlierWeights`, or 1
 * @param now          the misfit before
 * @returns            the misfit after a few steps towards restricted maximum likelihood
 * @source             `varianceComponents`
 * @checked            tests/fitting/wheelMisfit.test.ts
 */
export function misfitOf(rows: readonly MisfitRow[], fit: Pick<GroupedResiduals, "residuals" | "jacobian" | "covariance">, own: readonly number[], weights: readonly number[], now: Misfit): Misfit {
  const single: Record<string, number> = {};
  const [beds, wheels] = [{ ...now.beds }, { ...now.wheels }];
  for (const quantity of quantities) {
    const { at, data, told, start } = block(rows, own, weights, now, quantity);
    if (at.length === 0) continue;
    const chosen = <T>(values: readonly T[]): T[] => at.map((i) => values[i] as T);
    const { own: alone, groups } = varianceComponents({ ...data, residuals: chosen(fit.residuals), jacobian: chosen(fit.jacobian), covariance: fit.covariance }, start, pointSteps, least);
    for (const [kind, variance] of Object.entries(alone)) single[kind] = root(variance);
    told.forEach((target, g) => ([beds, wheels][target] as Record<WheelQuantity, number>)[quantity] = root(groups[g] as number));
  }
  return { single, beds, wheels };
}

/**
 * The data's covariance under a misfit, ready to whiten them: one block a quantity.
 *
 * @param rows      the data
 * @param own       the runs' own standard uncertainties
 * @param weights   as in `misfitOf`
 * @param misfit    single, by bed and by wheel
 * @returns         as `whitening`
 * @source          `groupedCovariance`
 * @checked         tests/fitting/wheelMisfit.test.ts
 */
export function misfitWhitening(rows: readonly MisfitRow[], own: readonly number[], weights: readonly number[], misfit: Misfit): Whitening {
  return whitening(covariances(rows, own, weights, misfit));
}

/**
 * Weights of a robust fit: errors as Student's t of four degrees of freedom, what bed and wheel share taken off first.
 *
 *   w = 5/(4 + z²)        z = ê/√(own² + δ²),  ê = D V⁻¹ r
 *
 * A datum at z = 1 counts as it is; at z = 5 as a sixth of one.
 *
 * @param rows        the data
 * @param residuals   at the fit
 * @param own         the runs' own standard uncertainties
 * @param weights     those before
 * @param misfit      single, by bed and by wheel
 * @returns           one weight a datum, 1.25 at most
 * @source            K. L. Lange, R. J. A. Little and J. M. G. Taylor, J. Am. Stat. Assoc. 84 (1989) 881, from memory
 * @checked           tests/fitting/wheelMisfit.test.ts
 */
export function outlierWeights(rows: readonly MisfitRow[], residuals: readonly number[], own: readonly number[], weights: readonly number[], misfit: Misfit): number[] {
  const out = rows.map(() => 1);
  for (const { indices, covariance } of covariances(rows, own, weights, misfit)) {
    const inverse = symmetricInverse(covariance);
    if (inverse === null) continue;
    indices.forEach((index, i) => {
      const variance = (own[index] as number) ** 2 + (misfit.single[(rows[index] as MisfitRow).kind] as number) ** 2;
      const pulled = (inverse[i] as number[]).reduce((sum, value, j) => sum + value * (residuals[indices[j] as number] as number), 0);
      const z = (Math.sqrt(variance) / (weights[index] as number)) * pulled;
      out[index] = (studentFreedom + 1) / (studentFreedom + z ** 2);
    });
  }
  return out;
}

/**
 * How far two misfits are apart, as a share of the larger; parts below a hundredth of a per cent count as equal.
 *
 * @param a    the one
 * @param b    the other
 * @returns    the greatest relative difference
 * @source     common practice
 * @checked    tests/fitting/wheelMisfit.test.ts
 */
export function misfitChange(a: Misfit, b: Misfit): number {
  const pairs = (["single", "beds", "wheels"] as const).flatMap((part) => Object.keys(a[part]).map((key) => [(a[part] as Record<string, number>)[key] as number, (b[part] as Record<string, number>)[key] as number] as const));
  return Math.max(...pairs.map(([left, right]) => Math.abs(left - right) / Math.max(left, right, 10 * Math.sqrt(least))));
}

/**
 * The whole misfit of a further measurement on another bed, by kind.
 *
 *   √(δ² + σ_bed² + σ_wheel²)
 *
 * @param rows     the data
 * @param misfit   single, by bed and by wheel
 * @returns        by `missKey`
 * @source         JCGM 100:2008, 5.1.2
 * @checked        tests/fitting/wheelMisfit.test.ts
 */
export function wholeMisfit(rows: readonly MisfitRow[], { single, beds, wheels }: Misfit): Record<string, number> {
  const quantityOf = new Map(rows.map(({ kind, quantity }) => [kind, quantity]));
  return Object.fromEntries(Object.entries(single).map(([kind, delta]) => {
    const quantity = quantityOf.get(kind) as WheelQuantity;
    return [kind, Math.hypot(delta, beds[quantity], wheels[quantity])];
  }));
}

const root = (variance: number): number => (variance > 1.5 * least ? Math.sqrt(variance) : 0);

function byQuantity(of: (quantity: WheelQuantity) => number): Record<WheelQuantity, number> {
  return { pull: of("pull"), torque: of("torque"), sinkage: of("sinkage") };
}

/** The data of one quantity as variance components see them, with the groupings that can be told. */
function block(rows: readonly MisfitRow[], own: readonly number[], weights: readonly number[], misfit: Misfit, quantity: WheelQuantity) {
  const at = rows.flatMap((row, i) => (row.quantity === quantity ? [i] : []));
  const mine = at.map((i) => rows[i] as MisfitRow);
  const spreads = [misfit.beds[quantity], misfit.wheels[quantity]];
  const told = groupingsOf.flatMap((_, g) => ((spreads[g] as number) > 0 ? [g] : []));
  const kinds = mine.map(({ kind }) => kind);
  const data = { known: at.map((i) => (own[i] as number) ** 2), weights: at.map((i) => weights[i] as number), kinds, groupings: told.map((g) => mine.map(groupingsOf[g] as (row: MisfitRow) => string | null)) };
  const start = { own: Object.fromEntries([...new Set(kinds)].map((kind) => [kind, Math.max(least, (misfit.single[kind] as number) ** 2)])), groups: told.map((g) => (spreads[g] as number) ** 2) };
  return { at, data, told, start };
}

function covariances(rows: readonly MisfitRow[], own: readonly number[], weights: readonly number[], misfit: Misfit) {
  return quantities.flatMap((quantity) => {
    const { at, data, start } = block(rows, own, weights, misfit, quantity);
    return at.length === 0 ? [] : [{ indices: at, covariance: groupedCovariance(data, start) }];
  });
}
