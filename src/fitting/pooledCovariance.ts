/** Scatter of repeats, pooled over groups. */
export interface PooledCovariance {
  /** null when no group has a repeat */
  readonly covariance: readonly (readonly number[])[] | null;
  /** Σ (members − 1) */
  readonly degreesOfFreedom: number;
}

/**
 * Covariance of single members about their own group's mean, pooled over the groups.
 *
 *   S = Σ_g Σ_i (x_gi − x̄_g)(x_gi − x̄_g)ᵀ / Σ_g (m_g − 1)
 *
 * Takes the scatter to be alike in all groups; so put in logarithms what scatters as a share of itself.
 *
 * @param groups   groups of members, each a vector of one length
 * @returns        S and its degrees of freedom
 * @source         common practice (pooled within-group covariance)
 * @checked        tests/fitting/pooledCovariance.test.ts
 */
export function pooledCovariance(groups: readonly (readonly (readonly number[])[])[]): PooledCovariance {
  const size = groups.flat()[0]?.length ?? 0;
  const sum = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  let degreesOfFreedom = 0;
  for (const group of groups) {
    if (group.length < 2) continue;
    degreesOfFreedom += group.length - 1;
    const centre = Array.from({ length: size }, (_, i) => group.reduce((total, member) => total + (member[i] as number), 0) / group.length);
    for (const member of group) {
      for (let i = 0; i < size; i++) {
        for (let j = 0; j < size; j++) (sum[i] as number[])[j] = ((sum[i] as number[])[j] as number) + ((member[i] as number) - (centre[i] as number)) * ((member[j] as number) - (centre[j] as number));
      }
    }
  }
  return { covariance: degreesOfFreedom === 0 ? null : sum.map((row) => row.map((value) => value / degreesOfFreedom)), degreesOfFreedom };
}
