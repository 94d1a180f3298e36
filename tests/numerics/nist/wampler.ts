/** NIST StRD, linear regression, Wampler 1 to 5: polynomials of degree 5 at x = 0 … 20, coefficients in ascending powers. */
export interface WamplerSet {
  readonly source: string;
  readonly coefficients: readonly number[];
  readonly standardDeviations: readonly number[];
  readonly residualSd: number;
  readonly y: readonly number[];
}

export const wamplerX = Array.from({ length: 21 }, (_, i) => i);

const ones = [1, 1, 1, 1, 1, 1];
const none = [0, 0, 0, 0, 0, 0];
const polynomial = wamplerX.map((x) => 1 + x + x ** 2 + x ** 3 + x ** 4 + x ** 5);
/** deviations of Wampler3; those of Wampler4 and Wampler5 are 10² and 10⁴ times as large, with their standard deviations */
const deviations = [759, -2048, 2048, -2048, 2523, -2048, 2048, -2048, 1838, -2048, 2048, -2048, 1838, -2048, 2048, -2048, 2523, -2048, 2048, -2048, 759];
const deviating = (name: string, factor: number): WamplerSet => ({
  source: `NIST StRD, linear regression, ${name}`,
  coefficients: ones,
  standardDeviations: [2152.3262467817, 2363.55173469681, 779.343524331583, 101.47550755035, 5.64566512170752, 0.112324854679312].map((sd) => factor * sd),
  residualSd: factor * 2360.14502379268,
  y: polynomial.map((value, i) => value + factor * (deviations[i] as number)),
});

export const wampler: readonly WamplerSet[] = [
  { source: "NIST StRD, linear regression, Wampler1", coefficients: ones, standardDeviations: none, residualSd: 0, y: polynomial },
  { source: "NIST StRD, linear regression, Wampler2", coefficients: [1, 0.1, 0.01, 0.001, 0.0001, 0.00001], standardDeviations: none, residualSd: 0, y: wamplerX.map((x) => Number((1 + 0.1 * x + 0.01 * x ** 2 + 0.001 * x ** 3 + 0.0001 * x ** 4 + 0.00001 * x ** 5).toFixed(5))) },
  deviating("Wampler3", 1),
  deviating("Wampler4", 100),
  deviating("Wampler5", 10_000),
];
