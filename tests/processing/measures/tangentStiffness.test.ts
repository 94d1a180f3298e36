import { expect, test } from "vitest";
import { tangentStiffness } from "../../../src/processing/measures/tangentStiffness.ts";
import { seededRandom } from "../../../src/numerics/random.ts";
import { agrees } from "../../helpers/agrees.ts";

const displacement = Array.from({ length: 401 }, (_, index) => index * 1e-5);
const cycle = { valley: 0, peak: 400, end: null };

test("a spring that hardens gives its own slope, inside and at the end of the branch", () => {
  const curve = { displacement, force: displacement.map((x) => 2e4 * x * (1 + 50 * x)), timesS: displacement };
  // F = 60 N at x = (√1.6 − 1)/100
  agrees(tangentStiffness(curve, cycle, 60).stiffness, { expected: 2e4 * Math.sqrt(1.6), relative: 1e-4, source: "dF/dx = 2e4 (1 + 100 x)" });
  agrees(tangentStiffness(curve, cycle, 96).stiffness, { expected: 2e4 * 1.4, relative: 1e-4, source: "dF/dx = 2e4 (1 + 100 x) at x = 4 mm" });
});

test("noise of the displacement does not flatten a stiff wheel, and its standard error is stated", () => {
  const random = seededRandom(3);
  const values = Array.from({ length: 200 }, () => {
    const noisy = displacement.map((x) => x / 10 + 4e-6 * random.normal());
    return tangentStiffness({ displacement: noisy, force: displacement.map((x) => 4e4 * x), timesS: displacement }, cycle, 160);
  });
  const average = values.reduce((sum, value) => sum + value.stiffness, 0) / values.length;
  const spread = Math.sqrt(values.reduce((sum, value) => sum + (value.stiffness - average) ** 2, 0) / (values.length - 1));
  agrees(average, { expected: 4e5, within: (4 * spread) / Math.sqrt(200), source: "made so; four standard errors of the mean" });
  agrees(values.reduce((sum, value) => sum + value.standardError, 0) / values.length, { expected: spread, relative: 0.2, source: "scatter of 200 made curves, known to 5 %" });
});

test("a load that was not reached has none", () => {
  const curve = { displacement, force: displacement.map((x) => 2e4 * x), timesS: displacement };
  expect(tangentStiffness(curve, cycle, 120).stiffness).toBeNaN();
});
