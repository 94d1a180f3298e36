import type { CurveReference } from "./curveReference.ts";

/** y = b1 (1 − exp(−b2 x)) */
export const misra1a: CurveReference = {
  source: "NIST StRD, nonlinear regression, Misra1a",
  model: (x, b) => (b[0] as number) * (1 - Math.exp(-(b[1] as number) * x)),
  starts: [
    [500, 0.0001],
    [250, 0.0005],
  ],
  parameters: [2.3894212918e2, 5.5015643181e-4],
  standardDeviations: [2.7070075241, 7.2668688436e-6],
  residualSumOfSquares: 1.2455138894e-1,
  residualSd: 1.0187876330e-1,
  x: [
    77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0,
  ],
  y: [
    10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78,
  ],
};
