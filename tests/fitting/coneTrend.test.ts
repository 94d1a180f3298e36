import { expect, test } from "vitest";
import { estimateFrom, undetermined } from "../../src/core/estimate.ts";
import { coneTrendFrom } from "../../src/fitting/coneTrend.ts";
import { agrees } from "../helpers/agrees.ts";

const beds = (values: readonly number[]) => values.map((value, i) => ({ bed: `B${i + 1}`, value: Number.isNaN(value) ? undetermined("Pa/m", "no profile") : estimateFrom(value, "Pa/m", "made", []) }));

test("a line through beds that grow firmer, its slope by the textbook's sums", () => {
  const fit = coneTrendFrom(beds([3.0e6, 3.1e6, 3.05e6, 3.2e6, 3.25e6]), "gradient");
  // x = 0 … 4: Sxx = 10, Sxy = −2·3.0 − 1·3.1 + 1·3.2 + 2·3.25 = 0.6
  agrees(fit?.parameters[1]?.estimate.value ?? 0, { expected: 0.06e6, relative: 1e-9, source: "least squares by hand: Sxy/Sxx = 0.6e6/10" });
  expect(fit?.verdict).toBe("determined");
  expect(fit?.sentence).toContain("rises by 8.0 %");
});

test("scatter is no trend, few beds show none, a bed without gradient keeps its place", () => {
  expect(coneTrendFrom(beds([3.0e6, 3.2e6, 2.9e6, 3.1e6, 3.0e6]), "gradient")?.verdict).toBe("undetermined");
  expect(coneTrendFrom(beds([3.0e6, 3.2e6, 2.9e6]), "gradient")?.sentence).toContain("3 beds");
  expect(coneTrendFrom(beds([3.0e6]), "gradient")).toBeNull();
  expect(coneTrendFrom(beds([3.0e6, Number.NaN, 3.1e6, 3.2e6, 3.3e6]), "gradient")?.points.map((point) => point.x)).toEqual([1, 3, 4, 5]);
});

test("the mean index has its own name and unit", () => {
  const fit = coneTrendFrom([200e3, 210e3, 205e3, 220e3].map((value, i) => ({ bed: `B${i + 1}`, value: estimateFrom(value, "Pa", "made", []) })), "mean index");
  expect(fit?.formula).toBe("CI = CI1 + s · (i − 1); i number of the bed, CI1 and s in Pa");
  expect(fit?.parameters.map((parameter) => parameter.estimate.unit)).toEqual(["Pa", "Pa"]);
  expect(fit?.sentence).toContain("4 beds");
});
