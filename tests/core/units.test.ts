import { describe, expect, it } from "vitest";
import { UsageError } from "../../src/core/errors.ts";
import { conversion, convert, parseUnit, showUnit, unitKind, units, unitsOfKind } from "../../src/core/units.ts";
import { unitSpellings } from "../../src/core/unitSpellings.ts";
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

  // Rounded to seven digits in the table, so half a unit in the seventh is 5e-7 of a number that begins with 1.
  it.each([
    ["lbf", "N", 4.448222],
    ["ozf", "N", 0.2780139],
    ["kgf", "N", 9.80665],
    ["gf", "N", 9.80665e-3],
    ["lbf.in", "N.m", 0.1129848],
    ["lbf.ft", "N.m", 1.355818],
    ["ozf.in", "N.m", 7.061552e-3],
    ["kgf.m", "N.m", 9.80665],
    ["kgf.cm", "N.m", 9.80665e-2],
    ["ft", "m", 0.3048],
    ["in2", "m2", 6.4516e-4],
    ["km/h", "m/s", 0.2777778],
    ["in/s", "m/s", 0.0254],
    ["ft/s", "m/s", 0.3048],
    ["ft/min", "m/s", 5.08e-3],
    ["ft/s2", "m/s2", 0.3048],
    ["lb", "kg", 0.4535924],
    ["oz", "kg", 0.02834952],
    ["kgf/cm2", "Pa", 98066.5],
    ["mbar", "Pa", 100],
    ["lbf/in", "N/m", 175.1268],
    ["lb/ft3", "kg/m3", 16.01846],
    ["psi/in", "Pa/m", 271447.1],
    ["deg", "rad", 0.01745329],
  ] as const)("1 %s is %s: %d in the printed table", (from, to, expected) => {
    agrees(convert(1, from, to), { expected, relative: 5e-7, source: from === "psi/in" ? "6894.757 Pa over 0.0254 m, both NIST Special Publication 811; from memory" : guide });
  });

  it.each([
    ["daN", "N", 10], ["cN", "N", 0.01], ["N.cm", "N.m", 0.01], ["N.mm", "N.m", 0.001], ["kN/cm2", "MPa", 10], ["kN/m", "N/mm", 1], ["kPa/m", "Pa/m", 1000],
    ["m/min", "mm/min", 1000], ["mm/s2", "m/s2", 0.001], ["mrad", "rad", 0.001], ["uV", "V", 1e-6], ["uV/V", "mV/V", 1e-3], ["um/m", "m/m", 1e-6], ["rev/s", "rpm", 60],
  ] as const)("1 %s is a plain multiple of %s", (from, to, expected) => {
    agrees(convert(1, from, to), { expected, relative: 1e-14, source: "SI Brochure, 9th edition (2019), table 7: prefixes; 60 s a minute; from memory" });
  });

  it("degrees Fahrenheit meet Celsius at the fixed points", () => {
    const source = "definition t/°C = (t/°F − 32)/1.8 (NIST Special Publication 811, B.8; from memory)";
    agrees(convert(32, "degF", "Cel"), { expected: 0, within: 1e-10, source });
    agrees(convert(212, "degF", "Cel"), { expected: 100, within: 1e-10, source });
    agrees(convert(-40, "degF", "Cel"), { expected: -40, within: 1e-10, source });
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
    // a mass or a force; an angle or a length; kilogram or kelvin-gram
    for (const doubtful of ["lbs", "'", "Kg", "G", "kg/cm2", "t"]) expect(parseUnit(doubtful)).toBeUndefined();
    expect(parseUnit("")).toBeUndefined();
    expect(parseUnit("constructor")).toBeUndefined();
  });

  it.each([
    ["[lbf_av]", "lbf"], ["[lb_av]", "lb"], ["[oz_av]", "oz"], ["[psi]", "psi"], ["[in_i]", "in"], ["[ft_i]", "ft"], ["deg", "deg"], ["[g]", "gn"], ["m/s2", "m/s2"], ["m.s-2", "m/s2"],
    ["kg", "kg"], ["g", "g"], ["bar", "bar"], ["kN/cm2", "kN/cm2"], ["gf", "gf"], ["kgf", "kgf"], ["[degF]", "degF"], ["Cel", "Cel"], ["/min", "rpm"], ["{rev}/min", "rpm"], ["um/m", "um/m"], ["mm2", "mm2"],
  ] as const)("the UCUM code %s is %s", (code, unit) => expect(parseUnit(code)).toBe(unit));

  it.each([
    ["N·m", "N.m"], ["N*m", "N.m"], ["N⋅m", "N.m"], ["m/s²", "m/s2"], ["m/s^2", "m/s2"], ["kg·m²", "kg.m2"], ["g/cm³", "g/cm3"], ["µm", "um"], ["μm", "um"], ["µm/m", "um/m"], ["µε", "um/m"], ["min⁻¹", "rpm"], ["m s^-1", "m/s"],
    ["°/s", "deg/s"], ["dps", "deg/s"], ["RPM", "rpm"], ["U/min", "rpm"], ["kp", "kgf"], ["ft-lb", "lbf.ft"], ["in·lbf", "lbf.in"], ["lbf/in²", "psi"], ["kN/m²", "kPa"], ["N/mm²", "MPa"], ["hPa", "mbar"], ["t/m³", "g/cm3"], ["g-unit", "gn"], ["kN/m³", "kPa/m"], ["N/cm³", "MPa/m"],
  ] as const)("%s is written for %s", (text, unit) => expect(parseUnit(text)).toBe(unit));

  it("every spelling leads to a unit, and hides none that has the name itself", () => {
    for (const [spelling, unit] of Object.entries(unitSpellings)) {
      expect(Object.hasOwn(units, unit), spelling).toBe(true);
      expect(Object.hasOwn(units, spelling), spelling).toBe(false);
      expect(parseUnit(spelling), spelling).toBe(unit);
    }
  });

  it("shows units as people write them", () => {
    expect(["N.m", "m/s2", "kg/m3", "Cel", "um", "1", "cm2", "degF", "um/m", "kgf/cm2", "uV", "mm3/(N.m)"].map((unit) => showUnit(unit as Unit))).toEqual(["N·m", "m/s²", "kg/m³", "°C", "µm", "–", "cm²", "°F", "µm/m", "kgf/cm²", "µV", "mm³/(N·m)"]);
  });
});
