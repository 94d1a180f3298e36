import type { CurveReference } from "./curveReference.ts";

/** y = b1 exp(b2/(x + b3)) */
export const mgh10: CurveReference = {
  source: "NIST StRD, nonlinear regression, MGH10",
  model: (x, b) => (b[0] as number) * Math.exp((b[1] as number) / (x + (b[2] as number))),
  starts: [
    [2, 400000, 25000],
    [0.02, 4000, 250],
  ],
  parameters: [5.6096364710e-3, 6.1813463463e3, 3.4522363462e2],
  standardDeviations: [1.5687892471e-4, 2.3309021107e1, 7.8486103508e-1],
  residualSumOfSquares: 8.7945855171e1,
  residualSd: 2.6009740065,
  x: [
    50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 105, 110, 115, 120, 125,
  ],
  y: [
    34780, 28610, 23650, 19630, 16370, 13720, 11540, 9744, 8261, 7030, 6005, 5147, 4427, 3820, 3307, 2872,
  ],
};
