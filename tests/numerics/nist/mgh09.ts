import type { CurveReference } from "./curveReference.ts";

/** y = b1 (x² + x b2) / (x² + x b3 + b4) */
export const mgh09: CurveReference = {
  source: "NIST StRD, nonlinear regression, MGH09",
  model: (x, b) => ((b[0] as number) * (x * x + x * (b[1] as number))) / (x * x + x * (b[2] as number) + (b[3] as number)),
  starts: [
    [25, 39, 41.5, 39],
    [0.25, 0.39, 0.415, 0.39],
  ],
  parameters: [1.9280693458e-1, 1.9128232873e-1, 1.2305650693e-1, 1.3606233068e-1],
  standardDeviations: [1.1435312227e-2, 1.9633220911e-1, 8.0842031232e-2, 9.0025542308e-2],
  residualSumOfSquares: 3.0750560385e-4,
  residualSd: 6.6279236551e-3,
  x: [
    4.000000, 2.000000, 1.000000, 5.000000e-1, 2.500000e-1, 1.670000e-1, 1.250000e-1, 1.000000e-1, 8.330000e-2, 7.140000e-2, 6.250000e-2,
  ],
  y: [
    1.957000e-1, 1.947000e-1, 1.735000e-1, 1.600000e-1, 8.440000e-2, 6.270000e-2, 4.560000e-2, 3.420000e-2, 3.230000e-2, 2.350000e-2, 2.460000e-2,
  ],
};
