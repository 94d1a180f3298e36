import type { CurveReference } from "./curveReference.ts";
import { lanczos1 } from "./lanczos1.ts";

/** the model of Lanczos1, to 6 digits */
export const lanczos2: CurveReference = {
  source: "NIST StRD, nonlinear regression, Lanczos2",
  model: lanczos1.model,
  starts: [
    [1.2, 0.3, 5.6, 5.5, 6.5, 7.6],
    [0.5, 0.7, 3.6, 4.2, 4, 6.3],
  ],
  parameters: [9.6251029939e-2, 1.0057332849, 8.6424689056e-1, 3.0078283915, 1.5529016879, 5.0028798100],
  standardDeviations: [6.6770575477e-4, 3.3989646176e-3, 1.7185846685e-3, 4.1707005856e-3, 2.3744381417e-3, 1.3958787284e-3],
  residualSumOfSquares: 2.2299428125e-11,
  residualSd: 1.1130395851e-6,
  x: lanczos1.x,
  y: [
    2.5134, 2.04433, 1.6684, 1.36642, 1.12323, 0.92689, 0.767934, 0.638878, 0.533784, 0.447936, 0.377585, 0.319739, 0.272013, 0.232497, 0.199659,
    0.17227, 0.149341, 0.13007, 0.113812, 0.100042, 0.0883321, 0.0783354, 0.0697669, 0.0623931,
  ],
};
