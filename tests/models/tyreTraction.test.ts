import { expect, test } from "vitest";
import { tractionConstants } from "../../src/models/mobilityNumber.ts";
import { brixiusNumber, brixiusTraction, wismerLuthTraction } from "../../src/models/tyreTraction.ts";
import { agrees } from "../helpers/agrees.ts";

const brixius = "Brixius 1987 / ASABE D497, formula from memory; arithmetic by an independent program";

test("Brixius's number", () => {
  const tyre = { coneIndexPa: 900e3, widthM: 0.467, diameterM: 1.746, loadN: 20e3, deflectionM: 0.081, sectionHeightM: 0.367 };
  agrees(brixiusNumber(tyre), { expected: 42.8225, relative: 1e-5, source: brixius });
  expect(() => brixiusNumber({ ...tyre, loadN: 0 })).toThrow(/loadN/);
});

test.each([
  [20, 0.1, 0.4415, 0.1012, 0.3403, 0.6937],
  [20, 0.2, 0.6311, 0.1124, 0.5188, 0.6576],
  [40, 0.1, 0.4958, 0.0729, 0.4229, 0.7677],
  [55, 0.1, 0.5024, 0.0649, 0.4375, 0.7837],
  [80, 0.1, 0.5042, 0.0581, 0.4461, 0.7963],
])("Brixius at B_n %d and slip %d", (number, slip, gross, resistance, net, efficiency) => {
  const found = brixiusTraction(number, slip);
  agrees(found.grossTraction, { expected: gross, within: 5e-5, source: brixius });
  agrees(found.motionResistance, { expected: resistance, within: 5e-5, source: brixius });
  agrees(found.netTraction, { expected: net, within: 5e-5, source: brixius });
  agrees(found.efficiency, { expected: efficiency, within: 5e-5, source: brixius });
});

test("Wismer and Luth at C_n 30 and 10 % slip", () => {
  const source = "Wismer & Luth 1973, formula from memory; arithmetic by an independent program";
  const found = wismerLuthTraction(30, 0.1);
  agrees(found.grossTraction, { expected: 0.44507, within: 5e-6, source });
  agrees(found.motionResistance, { expected: 0.08, within: 1e-12, source });
  agrees(found.netTraction, { expected: 0.36507, within: 5e-6, source });
  expect(wismerLuthTraction(30, 0).efficiency).toBeNaN();
});

test("the other two soil classes of the published table follow from their own rate", () => {
  const source = "Gee-Clough et al., J. Terramechanics 15(2), 1978; table seen in a worked textbook question (askfilo.com)";
  for (const [rate, traction, resistance] of [[5.43, 0.7, 0.08], [6.1, 0.75, 0.06]] as const) {
    const constants = tractionConstants((rate - 4.838) / 0.061);
    agrees(constants.greatestTraction, { expected: traction, within: 0.005, source });
    agrees(constants.rollingResistance, { expected: resistance, within: 0.005, source });
  }
});

test("wrong calls", () => {
  expect(() => brixiusTraction(0, 0.1)).toThrow(/mobility number/);
  expect(() => wismerLuthTraction(30, 1.2)).toThrow(/slip from 0 to 1/);
});
