import type { CurveReference } from "./curveReference.ts";
import { misra1a } from "./misra1a.ts";

/** y = b1 (1 − (1 + b2 x/2)^(−2)), the data of Misra1a */
export const misra1b: CurveReference = {
  source: "NIST StRD, nonlinear regression, Misra1b",
  model: (x, b) => (b[0] as number) * (1 - (1 + ((b[1] as number) * x) / 2) ** -2),
  starts: [
    [500, 0.0001],
    [300, 0.0002],
  ],
  parameters: [3.3799746163e2, 3.9039091287e-4],
  standardDeviations: [3.1643950207, 4.2547321834e-6],
  residualSumOfSquares: 7.5464681533e-2,
  residualSd: 7.9301471998e-2,
  x: misra1a.x,
  y: misra1a.y,
};
