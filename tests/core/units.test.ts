import { describe, expect, it } from "vitest";
import { UsageError } from "../../src/core/errors.ts";
import { conversion, convert, parseUnit, showUnit, unitKind, units, unitsOfKind } from "../../src/core/units.ts";
import type { Unit } from "../../src/core/units.ts";
import { agrees } from "../helpers/agrees.ts";

const guide = "NIST Special Publication 811 (2008), appendix B.8; from memory";

describe("units", () => {
  it.each([
    ["lbf", "N", 4.4482216152605],
    ["kgf", "N", 9.80665],
    ["gn", "m/s2", 9.80665],
    ["in", "m", 0.0254],
    ["psi", "Pa", 6894.757293168],
    ["bar", "Pa", 1e5],
    ["rpm", "rad/s", 0.10471975511965977],
    ["h", "s", 3600],
    ["d", "s", 86400],
    ["g/cm3", "kg/m3", 1000],
    ["kPa/mm", "MPa/m", 1],
    ["Wh/km", "J/m", 3.6],
    ["N/cm2", "kPa", 10],
  ] as const)("1 %s is the published number of %s", (from, to, expected) => {
    // 13 digits are printed at most; the rest is rounding of one division.
    agrees(convert(1, from, to), { expected, relative: 1e-13, source: guide });
  });

  it("adds the offset of temperatures only", () => {
    agrees(convert(20, "Cel", "K"), { expected: 293.15, within: 1e-12, source: "kelvin and degree Celsius: ITS-90 definition, 0 °C = 273.15 K" });
    agrees(convert(293.15, "K", "Cel"), { expected: 20, within: 1e-12, source: "kelvin and degree Celsius: ITS-90 definition, 0 °C = 273.15 K" });
    expect(conversion("kN", "N")).toEqual({ factor: 1000, summand: 0 });
  });

  it("returns to the start for every pair of one kind", () => {
    for (const from of Object.keys(units) as Unit[]) {
      for (const to of unitsOfKind(unitKind(from))) expect(convert(convert(7, from, to), to, from)).toBeCloseTo(7, 9);
    }
  });

  it("refuses to convert between kinds", () => {
    expect(() => convert(1, "N", "m")).toThrow(UsageError);
    expect(() => convert(1, "N", "m")).toThrow('expected a unit of length like "m", found "N" (force)');
    // The power of metre hangs on the exponent, so k_c never turns into k_phi.
    expect(() => convert(1, "N/m^(n+1)", "N/m^(n+2)")).toThrow(UsageError);
  });

  it("reads the spellings of loggers and never guesses", () => {
    expect(parseUnit(" N·m ")).toBe("N.m");
    expect(parseUnit("°C")).toBe("Cel");
    expect(parseUnit("µm")).toBe("um");
    expect(parseUnit("g")).toBe("g");
    expect(unitKind("g")).toBe("mass");
    expect(unitKind("gn")).toBe("acceleration");
    expect(parseUnit("lbs")).toBeUndefined();
    expect(parseUnit("")).toBeUndefined();
    expect(parseUnit("constructor")).toBeUndefined();
  });

  it("shows units as people write them", () => {
    expect(["N.m", "m/s2", "kg/m3", "Cel", "um", "1", "cm2"].map((unit) => showUnit(unit as Unit))).toEqual(["N·m", "m/s²", "kg/m³", "°C", "µm", "–", "cm²"]);
  });
});
