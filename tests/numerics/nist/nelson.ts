import type { CurveReference } from "./curveReference.ts";

// eight times [weeks], four temperatures [°C] at each, four pieces at each of these
const times = [1, 2, 4, 8, 16, 32, 48, 64].flatMap((week) => new Array<number>(16).fill(week));
const temperatures = times.map((_, i) => [180, 225, 250, 275][Math.floor(i / 4) % 4] as number);

/** log y = b1 − b2 x₁ exp(−b3 x₂); x is the row, y the logarithm */
export const nelson: CurveReference = {
  source: "NIST StRD, nonlinear regression, Nelson",
  model: (row, b) => (b[0] as number) - (b[1] as number) * (times[row] as number) * Math.exp(-(b[2] as number) * (temperatures[row] as number)),
  starts: [
    [2, 0.0001, -0.01],
    [2.5, 0.000000005, -0.05],
  ],
  parameters: [2.5906836021, 5.6177717026e-9, -5.7701013174e-2],
  standardDeviations: [1.9149996413e-2, 6.1124096540e-9, 3.9572366543e-3],
  residualSumOfSquares: 3.7976833176,
  residualSd: 1.7430280130e-1,
  x: times.map((_, i) => i),
  y: [
    15, 17, 15.5, 16.5, 15.5, 15, 16, 14.5, 15, 14.5, 12.5, 11, 14, 13, 14, 11.5, 14, 16, 13, 13.5, 13, 13.5, 12.5, 12.5, 12.5, 12, 11.5, 12, 13,
    11.5, 13, 12.5, 13.5, 17.5, 17.5, 13.5, 12.5, 12.5, 15, 13, 12, 13, 12, 13.5, 10, 11.5, 11, 9.5, 15, 15, 15.5, 16, 13, 10.5, 13.5, 14, 12.5, 12,
    11.5, 11.5, 6.5, 5.5, 6, 6, 18.5, 17, 15.3, 16, 13, 14, 12.5, 11, 12, 12, 11.5, 12, 6, 6, 5, 5.5, 12.5, 13, 16, 12, 11, 9.5, 11, 11, 11, 10,
    10.5, 10.5, 2.7, 2.7, 2.5, 2.4, 13, 13.5, 16.5, 13.6, 11.5, 10.5, 13.5, 12, 7, 6.9, 8.8, 7.9, 1.2, 1.5, 1, 1.5, 13, 12.5, 16.5, 16, 11, 11.5,
    10.5, 10, 7.27, 7.5, 6.7, 7.6, 1.5, 1, 1.2, 1.2,
  ].map(Math.log),
};
