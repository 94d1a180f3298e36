import type { CurveReference } from "./curveReference.ts";

/** y = b1 / (1 + exp(b2 − b3 x))^(1/b4) */
export const rat43: CurveReference = {
  source: "NIST StRD, nonlinear regression, Rat43",
  model: (x, b) => (b[0] as number) / (1 + Math.exp((b[1] as number) - (b[2] as number) * x)) ** (1 / (b[3] as number)),
  starts: [
    [100, 10, 1, 1],
    [700, 5, 0.75, 1.3],
  ],
  parameters: [6.9964151270e2, 5.2771253025, 7.5962938329e-1, 1.2792483859],
  standardDeviations: [1.6302297817e1, 2.0828735829, 1.9566123451e-1, 6.8761936385e-1],
  residualSumOfSquares: 8.7864049080e3,
  residualSd: 2.8262414662e1,
  x: [
    1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 11.0, 12.0, 13.0, 14.0, 15.0,
  ],
  y: [
    16.08, 33.83, 65.80, 97.20, 191.55, 326.20, 386.87, 520.53, 590.03, 651.92, 724.93, 699.56, 689.96, 637.56, 717.41,
  ],
};
