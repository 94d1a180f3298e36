import type { CurveReference } from "./curveReference.ts";
import { misra1a } from "./misra1a.ts";

/** y = b1 (1 − (1 + 2 b2 x)^(−½)), the data of Misra1a */
export const misra1c: CurveReference = {
  source: "NIST StRD, nonlinear regression, Misra1c",
  model: (x, b) => (b[0] as number) * (1 - (1 + 2 * (b[1] as number) * x) ** -0.5),
  starts: [
    [500, 0.0001],
    [600, 0.0002],
  ],
  parameters: [6.3642725809e2, 2.0813627256e-4],
  standardDeviations: [4.6638326572, 1.7728423155e-6],
  residualSumOfSquares: 4.0966836971e-2,
  residualSd: 5.8428615257e-2,
  x: misra1a.x,
  y: misra1a.y,
};
