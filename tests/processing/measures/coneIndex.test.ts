import { expect, test } from "vitest";
import { coneBaseArea } from "../../../src/processing/measures/coneIndex.ts";
import { agrees } from "../../helpers/agrees.ts";

test("the two standard cones", () => {
  const source = "ASAE S313.3 cone diameters and areas (0.5 and 0.2 square inch), USDA Forest Service summary";
  agrees(coneBaseArea(0.02027) * 1e6, { expected: 322.58, within: 0.3, source });
  agrees(coneBaseArea(0.01283) * 1e6, { expected: 129.03, within: 0.3, source });
});

test("no diameter, no area", () => {
  expect(() => coneBaseArea(0)).toThrow(/above 0/);
});
