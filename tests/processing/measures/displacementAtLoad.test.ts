import { expect, test } from "vitest";
import { displacementAtLoad } from "../../../src/processing/measures/displacementAtLoad.ts";

const displacement = Array.from({ length: 401 }, (_, index) => index * 1e-5);
const curve = { displacement, force: displacement.map((x) => 2e4 * x * (1 + 50 * x)), timesS: displacement.map((_, index) => index) };
const cycle = { valley: 0, peak: 400, end: null };

test("reads the branch where it passes the load", () => {
  // F = 20 N/mm · x (1 + 50 x): at 60 N, x = (−1 + √(1 + 4·50·60/2e4)) / 100
  expect(Math.abs(displacementAtLoad(curve, cycle, 60) - (Math.sqrt(1.6) - 1) / 100)).toBeLessThan(1e-6);
});

test("refuses a load that was not reached, and reads 2 % past the peak", () => {
  expect(displacementAtLoad(curve, cycle, 96 * 1.03)).toBeNaN();
  expect(displacementAtLoad(curve, cycle, 0)).toBeNaN();
  expect(Math.abs(displacementAtLoad(curve, cycle, 96 * 1.01) - 0.004) / 0.004).toBeLessThan(0.01);
});

test("too few samples near the load give no answer", () => {
  const sparse = { displacement: [0, 0.004], force: [0, 96], timesS: [0, 1] };
  expect(displacementAtLoad(sparse, { valley: 0, peak: 1, end: null }, 50)).toBeNaN();
});
