import { expect, test } from "vitest";
import { powerLawGoodness, sinkagePowerLaw, stiffnessAtExponent } from "../../../src/processing/measures/sinkagePowerLaw.ts";
import { agrees } from "../../helpers/agrees.ts";

const sinkages = [5, 10, 20, 30, 40, 50];
const points = (millimetres: readonly number[], kilopascals: readonly number[]) => millimetres.map((mm, i) => ({ sinkageM: mm / 1000, pressurePa: 1000 * (kilopascals[i] as number) }));
const formula = "Wong's p²-weighted procedure (J. Terramechanics 17(1), 1980, formula from memory), worked by an independent program";

test("noise-free points give back the power law", () => {
  for (const [widthM, k] of [[0.05, 7341], [0.1, 6321]] as const) {
    const law = sinkagePowerLaw(points(sinkages, sinkages.map((mm) => (102 / widthM + 5301) * (mm / 1000) ** 0.79)));
    agrees(law.exponent, { expected: 0.79, relative: 1e-8, source: formula });
    agrees(law.stiffness / 1000, { expected: k, relative: 1e-8, source: formula });
    agrees(powerLawGoodness(points(sinkages, sinkages.map((mm) => (102 / widthM + 5301) * (mm / 1000) ** 0.79)), law.exponent, law.stiffness), { expected: 1, within: 1e-8, source: formula });
  }
});

const small = points(sinkages, [118, 182, 345, 452, 588, 679]);
const large = points(sinkages, [91, 172, 279, 408, 492, 604]);

test("scattered points of two plates", () => {
  const [first, second] = [sinkagePowerLaw(small), sinkagePowerLaw(large)];
  agrees(first.exponent, { expected: 0.78, within: 5e-5, source: formula });
  agrees(first.stiffness / 1000, { expected: 7096.9, relative: 1e-4, source: formula });
  agrees(second.exponent, { expected: 0.8024, within: 5e-5, source: formula });
  agrees(second.stiffness / 1000, { expected: 6640.42, relative: 1e-4, source: formula });
  const shared = (first.exponent + second.exponent) / 2;
  agrees(stiffnessAtExponent(small, shared) / 1000, { expected: 7364.48, relative: 1e-4, source: formula });
  agrees(stiffnessAtExponent(large, shared) / 1000, { expected: 6399.69, relative: 1e-4, source: formula });
  agrees(powerLawGoodness(small, shared, stiffnessAtExponent(small, shared)), { expected: 0.97001, within: 5e-6, source: formula });
  agrees(powerLawGoodness(large, shared, stiffnessAtExponent(large, shared)), { expected: 0.97195, within: 5e-6, source: formula });
});

const cullinanSinkages = [2, 5, 10, 15, 20, 25, 30, 40, 50, 60, 70, 79];
const cullinan = "R. Kruger, P. S. Els, H. A. Hamersma, J. Terramechanics 109 (2023) 45–62, open data CC BY 4.0 (Cullinan sand, 0.018 m² round plate); fit worked by an independent program";

test.each([
  ["densest but one", [87.1, 151.9, 198.5, 234.2, 267.7, 297.2, 331.3, 390.7, 435.1, 482.6, 541.9, 596.9], 0.5359, 2233.49, 0.9594, 0.5014, 1985.18],
  ["medium", [70.4, 84, 99.8, 116, 133.4, 151.5, 172.7, 218, 268.1, 324.5, 388.1, 431.1], 0.6923, 2324.18, 0.8655, 0.5093, 1206.16],
  ["loose", [39.4, 59.8, 76.5, 94.4, 110.8, 128.6, 149.9, 190, 235.9, 290.7, 350.1, 412.7], 0.8529, 3338.71, 0.888, 0.6316, 1572.18],
] as const)("real sand, %s: weighted and unweighted", (_name, pressures, n, k, goodness, plainN, plainK) => {
  const law = sinkagePowerLaw(points(cullinanSinkages, pressures));
  agrees(law.exponent, { expected: n, relative: 1e-3, source: cullinan });
  agrees(law.stiffness / 1000, { expected: k, relative: 1e-3, source: cullinan });
  agrees(powerLawGoodness(points(cullinanSinkages, pressures), law.exponent, law.stiffness), { expected: goodness, relative: 1e-3, source: cullinan });
  const plain = sinkagePowerLaw(points(cullinanSinkages, pressures), "none");
  agrees(plain.exponent, { expected: plainN, relative: 1e-3, source: cullinan });
  agrees(plain.stiffness / 1000, { expected: plainK, relative: 1e-3, source: cullinan });
});

test("wrong calls", () => {
  expect(() => sinkagePowerLaw(small.slice(0, 2))).toThrow(/at least 3/);
  expect(() => sinkagePowerLaw([...small, { sinkageM: 0, pressurePa: 1 }])).toThrow(/above zero/);
  expect(() => sinkagePowerLaw(small.map((point) => ({ ...point, sinkageM: 0.01 })))).toThrow(/differing/);
  expect(() => stiffnessAtExponent([], 1)).toThrow(/at least one/);
});
