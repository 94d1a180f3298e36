import { expect, test } from "vitest";
import { convert } from "../../../src/core/units.ts";
import { coneBaseArea } from "../../../src/processing/measures/coneIndex.ts";
import { agrees } from "../../helpers/agrees.ts";

test("the two standard cones", () => {
  const source = "ASAE S313.3 cone diameters and areas (0.5 and 0.2 square inch), USDA Forest Service summary";
  agrees(coneBaseArea(0.02027) * 1e6, { expected: 322.58, within: 0.3, source });
  agrees(coneBaseArea(0.01283) * 1e6, { expected: 129.03, within: 0.3, source });
});

test("index of 100 N on either, and what wear takes from it when the nominal area is kept", () => {
  const source = "ASAE S313.3 diameters and its limit of 3 % wear (USDA Forest Service summary), F/A worked by hand";
  for (const [diameterM, kilopascals] of [[0.02027, 309.886], [0.01283, 773.494]] as const) {
    agrees(100 / coneBaseArea(diameterM) / 1000, { expected: kilopascals, relative: 2e-6, source });
    agrees(coneBaseArea(0.97 * diameterM) / coneBaseArea(diameterM), { expected: 0.9409, relative: 1e-9, source });
  }
  agrees(convert(1, "psi/in", "kPa/mm"), { expected: 0.271447, within: 6e-7, source: "1 lbf = 4.4482216 N, 1 in = 25.4 mm, worked by hand" });
});

test("no diameter, no area", () => {
  expect(() => coneBaseArea(0)).toThrow(/above 0/);
});
