import { expect, test } from "vitest";
import { chooseSlipCurve } from "../../src/fitting/chooseSlipCurve.ts";
import { exact, made, truth } from "./slipPoints.ts";

const shapeOf = (of: (slip: number) => number, seed: number): string => chooseSlipCurve(made(seed, 2, 0.004, 0.004, of), [], "P/W").curve.shape;

test("the saturating form is comparable where it is the truth, given up where the pull falls again", () => {
  const kept = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10].filter((seed) => chooseSlipCurve(made(seed, 2, 0.004, 0.004), [], "P/W").candidates[0]?.comparable);
  expect(kept.length).toBeGreaterThanOrEqual(8);
  const falling = (slip: number): number => 0.75 * (1 - Math.exp(-slip / 0.08)) - 0.12 - 0.8 * slip;
  const seen = [1, 2, 3, 4, 5].filter((seed) => shapeOf(falling, seed) === "saturatingFall");
  expect(seen.length).toBeGreaterThanOrEqual(4);
});

test("a step that no formula follows is left to the monotone form", () => {
  const step = (slip: number): number => (slip < 0.25 ? 0.05 * slip : 0.3 + 0.05 * slip);
  expect(chooseSlipCurve(made(1, 3, 0.002, 0.002, step), [], "P/W").curve.shape).toBe("monotone");
});

test("every form is kept with its error, the chosen one marked, and the sentence says why", () => {
  const { candidates, choice, curve } = chooseSlipCurve(made(3, 2, 0.004, 0.004), [], "P/W");
  expect(candidates.map(({ shape }) => shape)).toEqual(["saturating", "saturatingFall", "monotone"]);
  expect(candidates.filter(({ chosen }) => chosen).map(({ shape }) => shape)).toEqual([curve.shape]);
  expect(Math.min(...candidates.map(({ heldOutError }) => heldOutError ?? Infinity))).toBe(candidates.find(({ chosen }) => chosen)?.heldOutError);
  for (const { heldOutError } of candidates) {
    expect(heldOutError).toBeGreaterThan(0);
    expect(heldOutError).toBeLessThan(0.1);
  }
  expect(choice).toContain("left out in turn");
});

test("without points, or with too few slips, nothing is scored and the simplest stands", () => {
  const none = chooseSlipCurve([], [], "P/W");
  expect(none.curve.fit.verdict).toBe("undetermined");
  expect(none.choice).toContain("No form could be scored");
  const few = chooseSlipCurve(exact(truth, [0, 0.1, 0.3]), [], "P/W");
  expect(few.candidates.every(({ heldOutError }) => heldOutError === null)).toBe(true);
  expect(few.curve.shape).toBe("saturating");
});
