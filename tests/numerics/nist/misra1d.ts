import type { CurveReference } from "./curveReference.ts";
import { misra1a } from "./misra1a.ts";

/** y = b1 b2 x / (1 + b2 x), the data of Misra1a */
export const misra1d: CurveReference = {
  source: "NIST StRD, nonlinear regression, Misra1d",
  model: (x, b) => ((b[0] as number) * (b[1] as number) * x) / (1 + (b[1] as number) * x),
  starts: [
    [500, 0.0001],
    [450, 0.0003],
  ],
  parameters: [4.3736970754e2, 3.0227324449e-4],
  standardDeviations: [3.6489174345, 2.9334354479e-6],
  residualSumOfSquares: 5.6419295283e-2,
  residualSd: 6.8568272111e-2,
  x: misra1a.x,
  y: misra1a.y,
};
