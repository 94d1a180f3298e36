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
  /** one list a grouping: how much of its group's deviation each datum bears; left out: all of it */
  readonly loadings?: readonly (readonly number[])[];
}

/** Unknown variances. */
export interface Components {
  /** from datum to datum, by kind */
  readonly own: Readonly<Record<string, number>>;
  /** from group to group, one a grouping */
  readonly groups: readonly number[];
}

const steepest = 10;

/** Group of a datum, and how much of its deviation the datum bears. */
interface Placed {
  readonly place: number;
  readonly share: number;
}

const loading = (loadings: GroupedResiduals["loadings"], grouping: number, datum: number): number => loadings?.[grouping]?.[datum] ?? 1;

/**
 * Covariance of grouped data.
 *
 *   V_ij = [i = j] (known_i + own_kind)/w_i + Σ_g σ_g² l_gi l_gj [i and j in one group of g]        l: loadings, or 1
 *
 * @param data         known variances, weights, kinds, groupings and their loadings
 * @param components   the unknown ones
 * @returns            V, in the square of the data's unit
 * @source             random intercepts; textbook
 * @checked            tests/numerics/varianceComponents.test.ts
 */
export function groupedCovariance({ known, weights, kinds, groupings, loadings }: Omit<GroupedResiduals, "residuals" | "jacobian" | "covariance">, { own, groups }: Components): number[][] {
  return known.map((variance, i) => known.map((_, j) => {
    let sum = i === j ? (variance + (own[kinds[i] as string] as number)) / (weights[i] as number) : 0;
    groupings.forEach((names, g) => {
      if (i === j || (names[i] !== null && names[i] === names[j])) sum += (groups[g] as number) * loading(loadings, g, i) * loading(loadings, g, j);
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
export function groupedInverse({ known, weights, kinds, groupings, loadings }: Omit<GroupedResiduals, "residuals" | "jacobian" | "covariance">, { own, groups }: Components): number[][] | null {
  const places = new Map<string, number>();
  const variances: number[] = [];
  const placesOf = known.map((_, i): Placed[] => groupings.flatMap((names, g) => {
    const name = names[i] as string | null;
    if (name === null) return [];
    const key = `${g} ${name}`;
    if (!places.has(key)) {
      places.set(key, variances.length);
      variances.push(groups[g] as number);
    }
    return [{ place: places.get(key) as number, share: loading(loadings, g, i) }];
  }));
  const precisions = known.map((variance, i) => 1 / ((variance + (own[kinds[i] as string] as number)) / (weights[i] as number) + groupings.reduce((sum, names, g) => (names[i] === null ? sum + (groups[g] as number) * loading(loadings, g, i) ** 2 : sum), 0)));
  if (!precisions.every((precision) => precision > 0 && precision < Infinity)) return null;
  const inner = variances.map((variance, a) => variances.map((_, b) => (a === b ? 1 / variance : 0)));
  placesOf.forEach((mine, i) => {
    for (const a of mine) for (const b of mine) (inner[a.place] as number[])[b.place] = ((inner[a.place] as number[])[b.place] as number) + a.share * b.share * (precisions[i] as number);
  });
  const middle = symmetricInverse(inner);
  if (middle === null) return null;
  return precisions.map((left, i) => {
    const mine = placesOf[i] as Placed[];
    return precisions.map((right, j) => {
      let through = 0;
      for (const a of mine) for (const b of placesOf[j] as Placed[]) through += a.share * b.share * ((middle[a.place] as number[])[b.place] as number);
      return (i === j ? left : 0) - left * right * through;
    });
  });
}

/**
 * How much residuals vary on their own and how much by group: restricted maximum likelihood, by its fixed point.
 *
 *   P = V⁻¹ − V⁻¹ J C Jᵀ V⁻¹        σ_g² ← σ_g² · Σ (Zᵀ V⁻¹ r)² / tr(Zᵀ P Z)        Z: which datum is in which group, times its loading
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
  const { residuals, jacobian, covariance, weights, kinds, groupings, loadings } = data;
  const pairsOf = groupings.map((names, g) => together(names, (i) => loading(loadings, g, i)));
  let components = start;
  for (let step = 0; step < steps; step++) {
    const inverse = groupedInverse(data, components);
    if (inverse === null) return components;
    const pulled = inverse.map((row) => dot(row, residuals));
    const slopes = product(inverse, jacobian);
    const taken = product(slopes, covariance);
    /** found over expected, for data weighed and paired as the component has them */
    const moved = (now: number, pairs: readonly Pair[]): number => {
      let [found, expected] = [0, 0];
      for (const [i, j, weight] of pairs) {
        found += weight * (pulled[i] as number) * (pulled[j] as number);
        expected += weight * (((inverse[i] as number[])[j] as number) - dot(taken[i] as number[], slopes[j] as number[]));
      }
      return expected > 0 ? Math.max(least, now * Math.min(steepest, Math.max(1 / steepest, found / expected))) : now;
    };
    const own = Object.entries(components.own).map(([kind, now]) => [kind, moved(now, kinds.flatMap((name, i): Pair[] => (name === kind ? [[i, i, 1 / (weights[i] as number)]] : [])))] as const);
    const groups = components.groups.map((now, g) => moved(now, pairsOf[g] as Pair[]));
    components = { own: Object.fromEntries(own), groups };
  }
  return components;
}

/** Two data, and with what weight they count. */
type Pair = readonly [number, number, number];

/** Every pair of data of one group, and a datum with itself. */
function together(names: readonly (string | null)[], share: (datum: number) => number): Pair[] {
  const members = new Map<string | number, number[]>();
  names.forEach((name, i) => members.set(name ?? i, [...(members.get(name ?? i) ?? []), i]));
  return [...members.values()].flatMap((group) => group.flatMap((i) => group.map((j): Pair => [i, j, share(i) * share(j)])));
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
