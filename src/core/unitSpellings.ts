import type { Unit } from "./units.ts";

/**
 * Other names of the units, as UCUM codes, loggers and spreadsheets write them, with plain signs: u for µ, a full stop for ·, 2 for ².
 * A name that may be a mass or a force, like lbs, or an angle or a length, like ', is not among them.
 */
export const unitSpellings: Readonly<Record<string, Unit>> = {
  "-": "1", "–": "1", none: "1", ratio: "1", "{}": "1", "V/V": "1",
  // UCUM codes
  "[lbf_av]": "lbf", "[lb_av]": "lb", "[oz_av]": "oz", "[in_i]": "in", "[ft_i]": "ft", "[sin_i]": "in2", "[in_i]2": "in2", "[psi]": "psi", "[g]": "gn", "[degF]": "degF",
  "[in_i]/s": "in/s", "[ft_i]/s": "ft/s", "[ft_i]/min": "ft/min", "[ft_i]/s2": "ft/s2", "[lbf_av].[ft_i]": "lbf.ft", "[ft_i].[lbf_av]": "lbf.ft", "[lbf_av].[in_i]": "lbf.in", "[lbf_av]/[in_i]": "lbf/in",
  "[lb_av]/[ft_i]3": "lb/ft3", "{rev}/min": "rpm", "{rev}/s": "rev/s", "{rev}": "rev", circ: "rev", "circ/min": "rpm", "{count}": "count", "{counts}": "count", "W.h/km": "Wh/km",
  // force and torque
  kp: "kgf", "lb_f": "lbf", "oz_f": "ozf",
  Nm: "N.m", "N m": "N.m", mNm: "mN.m", "mN m": "mN.m", kNm: "kN.m", "kN m": "kN.m", Ncm: "N.cm", "N cm": "N.cm", Nmm: "N.mm", "N mm": "N.mm",
  "ft.lbf": "lbf.ft", "ft-lbf": "lbf.ft", "lbf-ft": "lbf.ft", "ft-lb": "lbf.ft", "lb-ft": "lbf.ft", "in.lbf": "lbf.in", "in-lbf": "lbf.in", "lbf-in": "lbf.in", "in-lb": "lbf.in", "lb-in": "lbf.in", "oz-in": "ozf.in", "in.ozf": "ozf.in", "kgf-cm": "kgf.cm", "kgf-m": "kgf.m",
  // length, area, time
  inch: "in", inches: "in", "\"": "in", "″": "in", feet: "ft", foot: "ft", micron: "um", sec: "s", msec: "ms", hr: "h",
  "sq in": "in2",
  // speed and acceleration
  "m/sec": "m/s", "mm/sec": "mm/s", "cm/sec": "cm/s", "m.s-1": "m/s", "m s-1": "m/s", kph: "km/h", "km/hr": "km/h", fps: "ft/s", fpm: "ft/min", ips: "in/s",
  "m/s/s": "m/s2", "m/sec2": "m/s2", "m.s-2": "m/s2", "m s-2": "m/s2", g_n: "gn", g0: "gn", "g-unit": "gn",
  // turning
  "°": "deg", degree: "deg", degrees: "deg", "°/s": "deg/s", "deg/sec": "deg/s", "°/sec": "deg/s", dps: "deg/s", "deg.s-1": "deg/s", "rad/sec": "rad/s", "rad.s-1": "rad/s", "rad s-1": "rad/s", "°/s2": "deg/s2", "rad.s-2": "rad/s2",
  "1/min": "rpm", "/min": "rpm", "min-1": "rpm", "r/min": "rpm", "U/min": "rpm", "rev/min": "rpm", "tr/min": "rpm", RPM: "rpm", rps: "rev/s", "r/s": "rev/s", revs: "rev", "kg m2": "kg.m2",
  // pressure, gradient, density, stiffness, damping
  "N/m2": "Pa", "kN/m2": "kPa", "N/mm2": "MPa", "MN/m2": "MPa", "lbf/in2": "psi", "[lbf_av]/[in_i]2": "psi", hPa: "mbar", "kN/m3": "kPa/m", "N/cm3": "MPa/m", "g/cc": "g/cm3", "kg/dm3": "g/cm3", "kg/L": "g/cm3", "t/m3": "g/cm3", "Mg/m3": "g/cm3", pcf: "lb/ft3",
  "Ns/m": "N.s/m", "N s/m": "N.s/m",
  // temperature, electricity, strain, counts
  "°C": "Cel", degC: "Cel", "°F": "degF", volt: "V", volts: "V", amp: "A", microstrain: "um/m", ustrain: "um/m", ue: "um/m", "uε": "um/m", counts: "count", cnt: "count", cts: "count",
};
