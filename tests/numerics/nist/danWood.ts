import type { CurveReference } from "./curveReference.ts";

/** y = b1 x^b2 */
export const danWood: CurveReference = {
  source: "NIST StRD, nonlinear regression, DanWood",
  model: (x, b) => (b[0] as number) * x ** (b[1] as number),
  starts: [
    [1, 5],
    [0.7, 4],
  ],
  parameters: [7.6886226176e-1, 3.8604055871],
  standardDeviations: [1.8281973860e-2, 5.1726610913e-2],
  residualSumOfSquares: 4.3173084083e-3,
  residualSd: 3.2853114039e-2,
  x: [
    1.309, 1.471, 1.490, 1.565, 1.611, 1.680,
  ],
  y: [
    2.138, 3.421, 3.597, 4.340, 4.882, 5.660,
  ],
};
