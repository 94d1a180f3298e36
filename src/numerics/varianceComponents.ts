import { symmetricInverse } from "./linearAlgebra.ts";

/** Residuals of a fit, and how they may belong together. */
export interface GroupedResiduals {
  readonly residuals: readonly number[];
  /** slopes by the fitted parameters, one row a residual, and the parameters' covariance */
  readonly jacobian: readonly (readonly number[])[];
  readonly covariance: readonly (readonly number[])[];
  /** known variance of each */
  readonly known: readonly number[];
  /** each datum's weight: divides its known and its own unknown variance; 1 = as it is */
  readonly weights: readonly number[];
  /** which unknown variance of its own each datum has */
  readonly kinds: readonly string[];
  /** one list a grouping: the group of each datum; null = a group of its own */
  readonly groupings: readonly (readonly (string | null)[])[];
}

/** Unknown variances. */
export interface Components {
  /** from datum to datum, by kind */
  readonly own: Readonly<Record<string, number>>;
  /** from group to group, one a grouping */
  readonly groups: readonly number[];
}

const steepest = 10;

/**
 * Covariance of grouped data.
 *
 *   V_ij = [i = j] (known_i + own_kind)/w_i + Σ_g σ_g² [i and j in one group of g]
 *
 * @param data         known variances, weights, kinds, groupings
 * @param components   the unknown ones
 * @returns            V, in the square of the data's unit
 * @source             random intercepts; textbook
 * @checked            tests/numerics/varianceComponents.test.ts
 */
export function groupedCovariance({ known, weights, kinds, groupings }: Omit<GroupedResiduals, "residuals" | "jacobian" | "covariance">, { own, groups }: Components): number[][] {
  return known.map((variance, i) => known.map((_, j) => {
    let sum = i === j ? (variance + (own[kinds[i] as string] as number)) / (weights[i] as number) : 0;
    groupings.forEach((names, g) => {
      if (i === j || (names[i] !== null && names[i] === names[j])) sum += groups[g] as number;
    });
    return sum;
  }));
}

/**
 * Inverse of `groupedCovariance`, by way of the groups, which are fewer than the data.
 *
 *   V = D + Z G Zᵀ        V⁻¹ = D⁻¹ − D⁻¹ Z (G⁻¹ + Zᵀ D⁻¹ Z)⁻¹ Zᵀ D⁻¹
 *
 * @param data         known variances, weights, kinds, groupings
 * @param components   the unknown ones, those of groups above zero
 * @returns            V⁻¹; null where it has none
 * @source             M. A. Woodbury 1950; textbook
 * @checked            tests/numerics/varianceComponents.test.ts
 */
export function groupedInverse({ known, weights, kinds, groupings }: Omit<GroupedResiduals, "residuals" | "jacobian" | "covariance">, { own, groups }: Components): number[][] | null {
  const places = new Map<string, number>();
  const variances: number[] = [];
  const placesOf = known.map((_, i) => groupings.flatMap((names, g) => {
    const name = names[i] as string | null;
    if (name === null) return [];
    const key = `${g} ${name}`;
    if (!places.has(key)) {
      places.set(key, variances.length);
      variances.push(groups[g] as number);
    }
    return [places.get(key) as number];
  }));
  const precisions = known.map((variance, i) => 1 / ((variance + (own[kinds[i] as string] as number)) / (weights[i] as number) + groupings.reduce((sum, names, g) => (names[i] === null ? sum + (groups[g] as number) : sum), 0)));
  if (!precisions.every((precision) => precision > 0 && precision < Infinity)) return null;
  const inner = variances.map((variance, a) => variances.map((_, b) => (a === b ? 1 / variance : 0)));
  placesOf.forEach((mine, i) => {
    for (const a of mine) for (const b of mine) (inner[a] as number[])[b] = ((inner[a] as number[])[b] as number) + (precisions[i] as number);
  });
  const middle = symmetricInverse(inner);
  if (middle === null) return null;
  return precisions.map((left, i) => {
    const mine = placesOf[i] as number[];
    return precisions.map((right, j) => {
      const others = placesOf[j] as number[];
      let through = 0;
      for (let a = 0; a < mine.length; a++) for (let b = 0; b < others.length; b++) through += (middle[mine[a] as number] as number[])[others[b] as number] as number;
      return (i === j ? left : 0) - left * right * through;
    });
  });
}

/**
 * How much residuals vary on their own and how much by group: restricted maximum likelihood, by its fixed point.
 *
 *   P = V⁻¹ − V⁻¹ J C Jᵀ V⁻¹        σ_g² ← σ_g² · Σ (Zᵀ V⁻¹ r)² / tr(Zᵀ P Z)        Z: which datum is in which group
 *
 * P leaves out what the parameters have taken up: with few groups they take up much of what groups differ by.
 * A component ends at nothing by shrinking tenfold a step at most; it is never negative.
 *
 * @param data     residuals at the fit, its slopes and covariance, and the groups
 * @param start    all above zero
 * @param steps    of the fixed point
 * @param least    no component is set below this
 * @returns        the components, in the square of the data's unit; the start where V cannot be inverted
 * @source         H. D. Patterson and R. Thompson, Biometrika 58 (1971) 545; fixed point: D. A. Harville, J. Am. Stat. Assoc. 72 (1977) 320; both from memory
 * @checked        tests/numerics/varianceComponents.test.ts
 */
export function varianceComponents(data: GroupedResiduals, start: Components, steps: number, least: number): Components {
  const { residuals, jacobian, covariance, weights, kinds, groupings } = data;
  const pairsOf = groupings.map(together);
  let components = start;
  for (let step = 0; step < steps; step++) {
    const inverse = groupedInverse(data, components);
    if (inverse === null) return components;
    const pulled = inverse.map((row) => dot(row, residuals));
    const slopes = product(inverse, jacobian);
    const taken = product(slopes, covariance);
    /** found over expected, for data weighed and paired as the component has them */
    const moved = (now: number, pairs: readonly (readonly [number, number])[], weightOf: (i: number) => number): number => {
      let [found, expected] = [0, 0];
      for (const [i, j] of pairs) {
        const weight = weightOf(i);
        found += weight * (pulled[i] as number) * (pulled[j] as number);
        expected += weight * (((inverse[i] as number[])[j] as number) - dot(taken[i] as number[], slopes[j] as number[]));
      }
      return expected > 0 ? Math.max(least, now * Math.min(steepest, Math.max(1 / steepest, found / expected))) : now;
    };
    const own = Object.entries(components.own).map(([kind, now]) => [kind, moved(now, kinds.flatMap((name, i): [number, number][] => (name === kind ? [[i, i]] : [])), (i) => 1 / (weights[i] as number))] as const);
    const groups = components.groups.map((now, g) => moved(now, pairsOf[g] as [number, number][], () => 1));
    components = { own: Object.fromEntries(own), groups };
  }
  return components;
}

/** Which data are in one group, each with itself. */
function together(names: readonly (string | null)[]): [number, number][] {
  const pairs: [number, number][] = [];
  for (let i = 0; i < names.length; i++) {
    for (let j = 0; j < names.length; j++) if (i === j || (names[i] !== null && names[i] === names[j])) pairs.push([i, j]);
  }
  return pairs;
}

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let k = 0; k < a.length; k++) sum += (a[k] as number) * (b[k] as number);
  return sum;
}

/** A B, by rows. */
function product(a: readonly (readonly number[])[], b: readonly (readonly number[])[]): number[][] {
  return a.map((row) => {
    const out = new Array<number>(b[0]?.length ?? 0).fill(0);
    for (let k = 0; k < row.length; k++) {
      const of = b[k] as readonly number[];
      for (let j = 0; j < out.length; j++) out[j] = (out[j] as number) + (row[k] as number) * (of[j] as number);
    }
    return out;
  });
}
