import type { CurveReference } from "./curveReference.ts";

/** y = b1 (1 − exp(−b2 x)) */
export const boxBod: CurveReference = {
  source: "NIST StRD, nonlinear regression, BoxBOD",
  model: (x, b) => (b[0] as number) * (1 - Math.exp(-(b[1] as number) * x)),
  starts: [
    [1, 1],
    [100, 0.75],
  ],
  parameters: [2.1380940889e2, 5.4723748542e-1],
  standardDeviations: [1.2354515176e1, 1.0455993237e-1],
  residualSumOfSquares: 1.1680088766e3,
  residualSd: 1.7088072423e1,
  x: [
    1, 2, 3, 5, 7, 10,
  ],
  y: [
    109, 149, 149, 191, 213, 224,
  ],
};
