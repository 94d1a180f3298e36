import { mean } from "./statistics.ts";

/**
 * How far chains still differ from each other and from themselves earlier on (split R̂).
 *
 *   R̂ = √[((m − 1)/m · W + B/m) / W]        m draws in each half chain
 *   W: mean variance within the halves      B/m: variance of their means
 *
 * Near 1 the chains tell the same story; above 1.01 run them longer.
 *
 * @param chains   draws of one parameter, chain by chain; equal lengths of at least 4, two chains or more say more than one
 * @returns        R̂ [1]; 1 where nothing varies at all
 * @throws         RangeError if there is no chain, a chain is too short or the lengths differ
 * @source         A. Gelman et al., Bayesian Data Analysis, 3rd ed., 11.4, from memory
 * @checked        tests/numerics/chainDiagnostics.test.ts
 */
export function splitRhat(chains: readonly (readonly number[])[]): number {
  const halves = split("splitRhat", chains);
  const { within, between, length } = variances(halves);
  return within === 0 ? (between === 0 ? 1 : Infinity) : Math.sqrt((((length - 1) / length) * within + between) / within);
}

/**
 * Independent draws that would say as much about the mean as these correlated ones.
 *
 *   N / (1 + 2 Σ ρ_t),  ρ_t = 1 − (W − mean autocovariance at lag t)/V,  V = (m − 1)/m W + B/m
 *   the sum runs in pairs of lags while they are positive, each no greater than the one before
 *
 * @param chains   as for `splitRhat`
 * @returns        effective number of draws, at most N log₁₀ N; 0 where nothing varies
 * @throws         RangeError as `splitRhat`
 * @source         C. J. Geyer, Statist. Sci. 7 (1992) 473, initial monotone sequence; A. Gelman et al., Bayesian Data Analysis, 3rd ed., 11.5; from memory
 * @checked        tests/numerics/chainDiagnostics.test.ts
 */
export function effectiveDraws(chains: readonly (readonly number[])[]): number {
  const halves = split("effectiveDraws", chains);
  const { within, between, length, means } = variances(halves);
  const total = ((length - 1) / length) * within + between;
  if (total === 0) return 0;
  const lagged = (lag: number): number => {
    const covariance = mean(halves.map((half, c) => {
      let sum = 0;
      for (let i = lag; i < length; i++) sum += ((half[i] as number) - (means[c] as number)) * ((half[i - lag] as number) - (means[c] as number));
      return sum / length;
    }));
    return 1 - (within - covariance) / total;
  };
  let sum = 0;
  let before = Infinity;
  for (let lag = 0; lag + 1 < length; lag += 2) {
    const pair = Math.min(before, lagged(lag) + lagged(lag + 1));
    if (pair <= 0) break;
    sum += pair;
    before = pair;
  }
  const count = halves.length * length;
  return Math.min(count / Math.max(2 * sum - 1, 1 / Math.log10(count)), count * Math.log10(count));
}

function split(name: string, chains: readonly (readonly number[])[]): (readonly number[])[] {
  const length = chains[0]?.length ?? 0;
  if (length < 4 || chains.some((chain) => chain.length !== length)) throw new RangeError(`${name}: expected chains of equal length of at least 4`);
  const half = Math.floor(length / 2);
  return chains.flatMap((chain) => [chain.slice(0, half), chain.slice(length - half)]);
}

/** Mean variance within, variance of the means, of equally long rows. */
function variances(rows: readonly (readonly number[])[]): { within: number; between: number; length: number; means: number[] } {
  const length = (rows[0] as readonly number[]).length;
  const means = rows.map((row) => mean(row));
  const grand = mean(means);
  const within = mean(rows.map((row, i) => row.reduce((sum, value) => sum + (value - (means[i] as number)) ** 2, 0) / (length - 1)));
  return { within, between: means.reduce((sum, value) => sum + (value - grand) ** 2, 0) / (rows.length - 1), length, means };
}
