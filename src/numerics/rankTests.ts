import { normalCdf } from "./distributions.ts";

/** A comparison by ranks. */
export interface RankTest {
  /** W⁺: sum of the ranks of positive differences; U: pairs in which the first sample's value is the greater, ties half */
  readonly statistic: number;
  /** two-sided chance of so uneven ranks or worse where there is no difference */
  readonly probability: number;
  /** false = by the normal approximation, because values tie or are many */
  readonly exact: boolean;
}

/** Up to so many values the chances are counted out. */
const mostExact = 50;

/**
 * Wilcoxon's signed ranks of pairs, for values that are not normal.
 *
 *   d = x − y, zeros left out; |d| ranked, ties share their mean rank; W⁺ = Σ ranks with d > 0
 *
 * Dimensionless. Differences symmetric about their median. Counted out for up to 50 untied differences; otherwise normal with
 * σ² = n(n + 1)(2n + 1)/24 − Σ(t³ − t)/48, without a correction for continuity.
 *
 * @param first  values
 * @param second as many, in the same order
 * @returns      W⁺ and its two-sided probability; NaN probability where every difference is zero
 * @throws       RangeError if the samples differ in length
 * @source       Wilcoxon, Biometrics Bull. 1 (1945) 80; Pratt's treatment of zeros is not used (from memory)
 * @checked      tests/numerics/rankTests.test.ts
 */
export function signedRankTest(first: readonly number[], second: readonly number[]): RankTest {
  if (first.length !== second.length) throw new RangeError(`signedRankTest: expected as many values in both samples, found ${first.length} and ${second.length}`);
  const differences = first.map((value, i) => value - (second[i] as number)).filter((difference) => difference !== 0);
  const n = differences.length;
  const { ranks, ties } = ranked(differences.map(Math.abs));
  const statistic = ranks.reduce((sum, rank, i) => sum + ((differences[i] as number) > 0 ? rank : 0), 0);
  const most = (n * (n + 1)) / 2;
  if (ties === 0 && n === first.length && n > 0 && n <= mostExact) return { statistic, probability: counted(signedRankCounts(n), statistic), exact: true };
  const sigma = Math.sqrt((n * (n + 1) * (2 * n + 1)) / 24 - ties / 48);
  return { statistic, probability: twoSided((statistic - most / 2) / sigma), exact: false };
}

/**
 * Mann and Whitney's ranks of two independent samples.
 *
 *   U = R₁ − n(n + 1)/2,   R₁ = sum of the first sample's ranks among all values, ties at their mean rank
 *
 * Dimensionless. Counted out for up to 50 untied values in all; otherwise normal with a correction for continuity and
 * σ² = nm/12 · [N + 1 − Σ(t³ − t)/(N(N − 1))].
 *
 * @param first  at least one value
 * @param second at least one value
 * @returns      U of the first sample and its two-sided probability
 * @throws       RangeError if a sample is empty
 * @source       Mann & Whitney, Ann. Math. Stat. 18 (1947) 50 (from memory)
 * @checked      tests/numerics/rankTests.test.ts
 */
export function rankSumTest(first: readonly number[], second: readonly number[]): RankTest {
  const [n, m] = [first.length, second.length];
  if (n === 0 || m === 0) throw new RangeError("rankSumTest: expected a value in either sample");
  const { ranks, ties } = ranked([...first, ...second]);
  const statistic = ranks.slice(0, n).reduce((sum, rank) => sum + rank, 0) - (n * (n + 1)) / 2;
  const all = n + m;
  if (ties === 0 && all <= mostExact) return { statistic, probability: counted(rankSumCounts(n, m), statistic), exact: true };
  const sigma = Math.sqrt(((n * m) / 12) * (all + 1 - ties / (all * (all - 1))));
  return { statistic, probability: twoSided(Math.max(0, Math.abs(statistic - (n * m) / 2) - 0.5) / sigma), exact: false };
}

/** Ranks from 1, equal values at their mean rank; ties = Σ(t³ − t). */
function ranked(values: readonly number[]): { readonly ranks: readonly number[]; readonly ties: number } {
  const order = values.map((_, i) => i).sort((a, b) => (values[a] as number) - (values[b] as number));
  const ranks = new Array<number>(values.length).fill(0);
  let ties = 0;
  for (let from = 0; from < order.length; ) {
    let to = from;
    while (to < order.length && values[order[to] as number] === values[order[from] as number]) to++;
    for (let i = from; i < to; i++) ranks[order[i] as number] = (from + 1 + to) / 2;
    ties += (to - from) ** 3 - (to - from);
    from = to;
  }
  return { ranks, ties };
}

function twoSided(z: number): number {
  return Number.isNaN(z) ? Number.NaN : Math.min(1, 2 * normalCdf(-Math.abs(z)));
}

/** Two-sided chance of a statistic from how many arrangements give each of its values. */
function counted(counts: readonly number[], statistic: number): number {
  const total = counts.reduce((sum, count) => sum + count, 0);
  const upTo = counts.slice(0, Math.floor(statistic) + 1).reduce((sum, count) => sum + count, 0);
  const from = counts.slice(Math.ceil(statistic)).reduce((sum, count) => sum + count, 0);
  return Math.min(1, (2 * Math.min(upTo, from)) / total);
}

/** How many of the 2ⁿ sign patterns give each rank sum. */
function signedRankCounts(n: number): number[] {
  let counts = [1];
  for (let rank = 1; rank <= n; rank++) counts = Array.from({ length: counts.length + rank }, (_, sum) => (counts[sum] ?? 0) + (counts[sum - rank] ?? 0));
  return counts;
}

/** How many of the arrangements of n and m values give each U: those with the largest value in the first sample, and in the second. */
function rankSumCounts(n: number, m: number): number[] {
  let rows: number[][] = Array.from({ length: m + 1 }, () => [1]);
  for (let i = 1; i <= n; i++) {
    const next: number[][] = [[1]];
    for (let j = 1; j <= m; j++) next.push(Array.from({ length: i * j + 1 }, (_, u) => ((rows[j] as number[])[u - j] ?? 0) + ((next[j - 1] as number[])[u] ?? 0)));
    rows = next;
  }
  return rows[m] as number[];
}
