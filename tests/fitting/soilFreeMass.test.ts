import { expect, test } from "vitest";
import { soilFreeMass } from "../../src/fitting/soilFreeMass.ts";
import { agrees } from "../helpers/agrees.ts";
import { inspection } from "./inspections.ts";

const scales = { massUncertainty: 0.0003, soilMassUncertainty: 0.0004 };

test("the soil that stuck to the wheel is taken off, with its doubt", () => {
  const mass = soilFreeMass(inspection(1000, { massKg: 1.62, soilMassKg: 0.03 }), scales);
  expect(mass.value).toBeCloseTo(1.59, 12);
  agrees(mass.standardUncertainty ?? Number.NaN, { expected: 0.0005, relative: 1e-12, source: "by hand: 3, 4, 5" });
  expect(mass.budget.map((row) => row.cause)).toEqual(["mass of the soil, wheel W1 after 1 km", "weighing, wheel W1 after 1 km"]);
});

test("a mass after cleaning counts before one with soil", () => {
  const mass = soilFreeMass(inspection(1000, { massKg: 1.62, soilMassKg: 0.03, cleanedMassKg: 1.588 }), scales);
  expect([mass.value, mass.standardUncertainty]).toEqual([1.588, 0.0003]);
});

test("clean is a new wheel, or one whose soil is stated as none", () => {
  expect(soilFreeMass(inspection(0, { massKg: 1.6 }), scales)).toMatchObject({ value: 1.6, standardUncertainty: 0.0003 });
  expect(soilFreeMass(inspection(5, { massKg: 1.6, soilMassKg: 0 }), { massUncertainty: 0.0003 })).toMatchObject({ value: 1.6, standardUncertainty: 0.0003 });
});

test("not determined says why", () => {
  expect(soilFreeMass(inspection(5), scales)).toMatchObject({ value: Number.NaN, method: "the wheel was not weighed" });
  expect(soilFreeMass(inspection(5, { massKg: 1.6 }), scales)).toMatchObject({ value: Number.NaN, standardUncertainty: null });
  const bare = soilFreeMass(inspection(5, { massKg: 1.6, soilMassKg: 0.1 }), undefined);
  expect(bare).toMatchObject({ value: 1.5, standardUncertainty: null });
  expect(bare.method).toContain("no massUncertainty and no soilMassUncertainty");
});
