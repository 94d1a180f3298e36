import { expect, test } from "vitest";
import { slipKnots, slipShape } from "../../src/fitting/slipShapes.ts";
import { curveOf, exact, made, truth } from "./slipPoints.ts";

test("the monotone form goes through its knots, never falls, and its slopes are those of the curve", () => {
  const shape = slipShape("monotone", [0, 0.1, 0.3]);
  const p = [-0.1, 0.2, 0.15];
  [-0.1, 0.1, 0.25].forEach((value, i) => expect(shape.value([0, 0.1, 0.3][i] as number, p)).toBeCloseTo(value, 12));
  const { byConstants, bySlip } = shape.slopes(0.17, p);
  const moved = (j: number, by: number): number => shape.value(0.17, p.map((value, k) => (k === j ? value + by : value)));
  byConstants.forEach((slope, j) => expect(slope).toBeCloseTo((moved(j, 1e-4) - moved(j, -1e-4)) / 2e-4, 5));
  expect(bySlip).toBeCloseTo((shape.value(0.1701, p) - shape.value(0.1699, p)) / 2e-4, 5);
});

test("a fit of the monotone form lies flat where the points fall, and follows a truth no formula names", () => {
  const hump = curveOf(made(5, 3, 0.002, 0, (slip) => (slip < 0.3 ? slip : 0.3 - 0.2 * (slip - 0.3))), "monotone");
  expect(hump.fit.verdict).toBe("determined");
  const rises = hump.fit.parameters.slice(1).map(({ estimate }) => estimate.value);
  expect(Math.min(...rises)).toBe(0);
  const shape = slipShape(hump.shape, hump.knots);
  for (let slip = 0; slip < 0.6; slip += 0.02) expect(shape.slopes(slip, hump.fit.parameters.map(({ estimate }) => estimate.value)).bySlip).toBeGreaterThanOrEqual(-1e-9);
  const line = curveOf(made(6, 3, 0.001, 0, truth), "monotone");
  expect(Math.abs(slipShape("monotone", line.knots).value(0.15, line.fit.parameters.map(({ estimate }) => estimate.value)) - truth(0.15))).toBeLessThan(0.01);
});

test("knots stand at the ends and between, six at most", () => {
  expect(slipKnots([0.1, 0.2, 0.3, 0.4], 4)).toEqual([0.1, 0.2, 0.30000000000000004, 0.4].map((value) => expect.closeTo(value, 9)));
  const many = slipKnots(exact(truth, Array.from({ length: 40 }, (_, i) => i / 50)).map(({ slip }) => slip.value), 40);
  expect(many).toHaveLength(6);
  expect(many[0]).toBe(0);
  expect(many.at(-1)).toBeCloseTo(0.78, 9);
});
