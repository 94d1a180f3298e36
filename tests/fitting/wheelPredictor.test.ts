import { describe, expect, test } from "vitest";
import { slipRadiusOn } from "../../src/fitting/slipRadiusOn.ts";
import { wheelPredictor } from "../../src/fitting/wheelPredictor.ts";
import type { WheelOutcome } from "../../src/fitting/wheelPredictor.ts";
import { agrees } from "../helpers/agrees.ts";
import { madeSoil, trueShares } from "../helpers/madeWheelRuns.ts";
import { cardConstants, flexible, rigid, soilCard } from "../helpers/soilCard.ts";

const bare = { ...rigid, lugHeightM: 0 };
const outcome = (found: ReturnType<ReturnType<typeof wheelPredictor>>): WheelOutcome => {
  if ("reason" in found) throw new Error(found.reason);
  return found;
};

test("pull, torque and sinkage are those of the same soil summed by the midpoint rule", () => {
  const predict = wheelPredictor(soilCard(), bare);
  const source = "the stress integrals summed at 600 points in tests/helpers/madeWheelRuns.ts, apart from src/";
  for (const [loadN, slip] of [[30, 0.1], [60, 0.3], [100, 0.6]] as const) {
    const truth = trueShares(madeSoil, bare, slip, loadN);
    const found = outcome(predict(loadN, slip));
    agrees(found.pullN / loadN, { expected: truth.pull, within: 2e-4, source });
    agrees(found.torqueNm / (0.15 * loadN), { expected: truth.torque, within: 2e-4, source });
    agrees(found.sinkageM / 0.15, { expected: truth.sinkage, within: 2e-4, source });
    agrees(found.efficiency, { expected: (truth.pull / truth.torque) * (1 - slip), within: 1e-3, source: `${source}; η = P(1 − s)/(T/R)` });
  }
});

test("a braked wheel and one that must be pushed have no efficiency, one that spins on the spot an efficiency of nothing", () => {
  const predict = wheelPredictor(soilCard(), bare);
  expect(outcome(predict(60, -0.2)).efficiency).toBeNaN();
  expect(outcome(predict(60, 0)).pullN).toBeLessThan(0);
  expect(outcome(predict(60, 0)).efficiency).toBeNaN();
  expect(outcome(predict(60, 1)).efficiency).toBe(0);
});

test("no balance is an answer with its reason", () => {
  expect(wheelPredictor(soilCard(), bare)(1e6, 0.2)).toEqual({ reason: "the soil does not carry 1000000 N before the wheel is in up to its axle" });
  expect(wheelPredictor(soilCard(), flexible)(200, 0.2)).toEqual({ reason: "the load–deflection curve ends below 200 N; measure it further" });
});

test("the flexible wheel follows the form of its card, and sinks less than the rigid one", () => {
  const [wider, flat] = (["wider circle", "flat contact"] as const).map((flexibleForm) => outcome(wheelPredictor({ ...soilCard(), flexibleForm }, flexible)(60, 0.2)));
  expect(wider?.sinkageM).not.toBe(flat?.sinkageM);
  expect(wider?.sinkageM).toBeLessThan(outcome(wheelPredictor(soilCard(), bare)(60, 0.2)).sinkageM);
});

test("constants are taken by name, in whatever order the card has them; one that is missing is named", () => {
  const card = soilCard();
  const turned = { ...card, fitted: { ...card.fitted, names: [...card.fitted.names].reverse(), values: [...cardConstants].reverse() } };
  expect(wheelPredictor(turned, bare)(60, 0.2)).toEqual(wheelPredictor(card, bare)(60, 0.2));
  expect(() => wheelPredictor({ ...card, fitted: { ...card.fitted, names: card.fitted.names.map((name) => (name === "cohesion" ? "stickiness" : name)) } }, bare)).toThrow(/found none called cohesion/);
});

describe("radius of slip", () => {
  test("to the rim or the tips, less nothing, half or all of the deflection", () => {
    const source = "by hand: 60 N lies 0.6 of the way from 30 to 80 N, δ = 2 + 0.6 · 3 mm";
    const at = (policy: "unloaded" | "loaded" | "effective"): number => 1000 * slipRadiusOn({ policy, lugs: "with" }, flexible, 60);
    agrees(at("unloaded"), { expected: 150, within: 1e-9, source });
    agrees(at("loaded"), { expected: 146.2, within: 1e-9, source });
    agrees(at("effective"), { expected: 148.1, within: 1e-9, source });
    agrees(slipRadiusOn({ policy: "loaded", lugs: "with" }, rigid, 60), { expected: 0.155, within: 1e-12, source: "rim and lugs, by hand" });
    agrees(slipRadiusOn({ policy: "loaded", lugs: "without" }, rigid, 60), { expected: 0.15, within: 1e-12, source: "rim, by hand" });
  });
});
