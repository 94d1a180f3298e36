/** Where to evaluate an integrand over −1 … 1, and with which weight. */
export interface GaussRule {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

/**
 * Nodes and weights of Gauss–Legendre quadrature.
 *
 *   ∫₋₁¹ f dx ≈ Σ wᵢ f(xᵢ),  exact for polynomials up to degree 2n − 1
 *
 * Dimensionless. Nodes are the zeros of the Legendre polynomial, found by Newton steps from their cosine estimates.
 *
 * @param count   n ≥ 1, whole
 * @returns       nodes in rising order and their weights, which add up to 2
 * @throws        RangeError if the count is not a whole number of at least 1
 * @source        Abramowitz & Stegun 25.4.29 (from memory)
 * @checked       tests/numerics/gaussLegendre.test.ts
 */
export function gaussLegendre(count: number): GaussRule {
  if (!(Number.isInteger(count) && count >= 1)) throw new RangeError(`gaussLegendre: expected a whole number of nodes of at least 1, found ${count}`);
  const nodes = new Float64Array(count);
  const weights = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    let x = -Math.cos((Math.PI * (i + 0.75)) / (count + 0.5));
    let slope = 0;
    for (let step = 0; step < 20; step++) {
      let [before, value] = [0, 1];
      for (let k = 1; k <= count; k++) [before, value] = [value, ((2 * k - 1) * x * value - (k - 1) * before) / k];
      slope = (count * (x * value - before)) / (x * x - 1);
      const move = value / slope;
      x -= move;
      if (Math.abs(move) < 1e-15) break;
    }
    nodes[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  return { nodes, weights };
}
