import type { CurveReference } from "./curveReference.ts";
import { lanczos1 } from "./lanczos1.ts";

/** the model of Lanczos1, to 5 digits */
export const lanczos3: CurveReference = {
  source: "NIST StRD, nonlinear regression, Lanczos3",
  model: lanczos1.model,
  starts: [
    [1.2, 0.3, 5.6, 5.5, 6.5, 7.6],
    [0.5, 0.7, 3.6, 4.2, 4, 6.3],
  ],
  parameters: [8.6816414977e-2, 9.5498101505e-1, 8.4400777463e-1, 2.9515951832, 1.5825685901, 4.9863565084],
  standardDeviations: [1.7197908859e-2, 9.7041624475e-2, 4.1488663282e-2, 1.0766312506e-1, 5.8371576281e-2, 3.4436403035e-2],
  residualSumOfSquares: 1.6117193594e-8,
  residualSd: 2.9923229172e-5,
  x: lanczos1.x,
  y: [
    2.5134, 2.0443, 1.6684, 1.3664, 1.1232, 0.9269, 0.7679, 0.6389, 0.5338, 0.4479, 0.3776, 0.3197, 0.272, 0.2325, 0.1997, 0.1723, 0.1493, 0.1301,
    0.1138, 0.1, 0.0883, 0.0783, 0.0698, 0.0624,
  ],
};
