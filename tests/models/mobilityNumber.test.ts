import { expect, test } from "vitest";
import { bestTyreEfficiency, mobilityNumber, sandNumber, tractionConstants } from "../../src/models/mobilityNumber.ts";
import { agrees } from "../helpers/agrees.ts";

const table = "Gee-Clough et al., J. Terramechanics 15(2), 1978; table seen in a worked textbook question (askfilo.com, soil class Bad)";
const tyre = { coneIndexPa: 200e3, widthM: 0.24, diameterM: 1.04, loadN: 7e3, deflectionRatio: 0.2 };

test("mobility number of a 9.5 × 24 tyre", () => {
  agrees(mobilityNumber(tyre), { expected: 2.8593, relative: 1e-4, source: "Turnage 1972, form from memory; worked question with these inputs (askfilo.com)" });
});

test("a rigid wheel and a tyre on sand", () => {
  const source = "WES sand number G (b d)^1.5/W (Freitag, form from memory), worked by hand: 4 MN/m³, 0.1 m by 0.2 m, 100 N";
  const wheel = { gradientPaPerM: 4e6, widthM: 0.1, diameterM: 0.2, loadN: 100 };
  agrees(sandNumber(wheel), { expected: 113.137, relative: 1e-5, source });
  agrees(sandNumber({ ...wheel, deflectionRatio: 0.2 }), { expected: 22.627, within: 6e-4, source });
});

test("traction constants in bad soil", () => {
  const { greatestTraction, rollingResistance, rate } = tractionConstants(mobilityNumber(tyre));
  agrees(greatestTraction, { expected: 0.47, within: 0.005, source: table });
  agrees(rollingResistance, { expected: 0.15, within: 0.005, source: table });
  agrees(rate * greatestTraction, { expected: 5.01, within: 0.005, source: table });
});

test("the slope of the printed table turned round gives the mobility, and from it the table's other columns", () => {
  for (const [slope, mobility, greatest, resistance, printed] of [[5.43, 9.705, 0.7012, 0.0786, [0.7, 0.08]], [6.1, 20.69, 0.7515, 0.0629, [0.75, 0.06]]] as const) {
    const found = (slope - 4.838) / 0.061;
    agrees(found, { expected: mobility, within: 6e-3, source: "k C_Tmax = 4.838 + 0.061 M turned round, worked by hand" });
    const { greatestTraction, rollingResistance } = tractionConstants(found);
    agrees(greatestTraction, { expected: greatest, within: 6e-5, source: "0.796 − 0.92/M, worked by hand" });
    agrees(rollingResistance, { expected: resistance, within: 6e-5, source: "0.049 + 0.287/M, worked by hand" });
    agrees(greatestTraction, { expected: printed[0], within: 0.005, source: table.replace("Bad", "Average and Good") });
    agrees(rollingResistance, { expected: printed[1], within: 0.005, source: table.replace("Bad", "Average and Good") });
  }
});

test("best efficiency of the three soil classes", () => {
  const bad = bestTyreEfficiency(tractionConstants(mobilityNumber(tyre)));
  agrees(bad.efficiency, { expected: 0.61, within: 0.006, source: table });
  agrees(bad.slip, { expected: 0.1256, within: 1e-4, source: "maximum of the formula over slip, found by an independent program" });
  const average = bestTyreEfficiency({ greatestTraction: 0.7, rate: 5.43 / 0.7, rollingResistance: 0.08 });
  agrees(average.efficiency, { expected: 0.74, within: 0.006, source: table.replace("Bad", "Average") });
  agrees(average.slip, { expected: 0.1019, within: 1e-4, source: "maximum of the formula over slip, found by an independent program" });
  const good = bestTyreEfficiency({ greatestTraction: 0.75, rate: 6.1 / 0.75, rollingResistance: 0.06 });
  agrees(good.efficiency, { expected: 0.79, within: 0.006, source: table.replace("Bad", "Good") });
});

test("wrong calls", () => {
  expect(() => mobilityNumber({ ...tyre, loadN: 0 })).toThrow(/loadN/);
  expect(() => sandNumber({ gradientPaPerM: 0, widthM: 1, diameterM: 1, loadN: 1 })).toThrow(/gradientPaPerM/);
  expect(() => tractionConstants(1)).toThrow(/1.16/);
  expect(() => bestTyreEfficiency({ greatestTraction: 0.5, rate: 0, rollingResistance: 0.1 })).toThrow(/rate/);
});
