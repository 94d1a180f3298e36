/**
 * Chances of several comparisons made at once, raised so that the chance of even one false difference stays below the level.
 *
 *   sorted p₍₁₎ ≤ … ≤ p₍ₘ₎:   p̃₍ᵢ₎ = max over j ≤ i of min(1, (m − j + 1) p₍ⱼ₎)
 *
 * Holds however the comparisons depend on each other.
 *
 * @param probabilities  one per comparison, 0 … 1; NaN = not made, and stays NaN
 * @returns              adjusted, in the same order
 * @source               Holm, Scand. J. Statist. 6 (1979) 65 (from memory)
 * @checked              tests/numerics/holm.test.ts
 */
export function holm(probabilities: readonly number[]): number[] {
  const order = probabilities.flatMap((p, i) => (Number.isNaN(p) ? [] : [i])).sort((a, b) => (probabilities[a] as number) - (probabilities[b] as number));
  const adjusted = probabilities.map(() => Number.NaN);
  let least = 0;
  order.forEach((index, rank) => {
    least = Math.max(least, Math.min(1, (order.length - rank) * (probabilities[index] as number)));
    adjusted[index] = least;
  });
  return adjusted;
}
