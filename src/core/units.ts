import { UsageError } from "./errors.ts";
import { unitSpellings } from "./unitSpellings.ts";

/** One row of the unit table: what is measured, and how to reach the SI unit of that kind: si = value · factor + offset. */
interface UnitRow {
  readonly kind: string;
  readonly factor: number;
  readonly offset?: number;
}

// Exact by definition: international avoirdupois pound and inch (1959), standard gravity (3rd CGPM, 1901).
const standardGravity = 9.80665;
const pound = 0.45359237;
const lbf = pound * standardGravity;
const inch = 0.0254;
const foot = 0.3048;
const rpm = (2 * Math.PI) / 60;

/** Every unit drawbar knows. Two units convert into each other only when they are of the same kind. */
export const units = {
  "1": { kind: "ratio", factor: 1 },
  "%": { kind: "ratio", factor: 0.01 },
  N: { kind: "force", factor: 1 },
  mN: { kind: "force", factor: 1e-3 },
  kN: { kind: "force", factor: 1e3 },
  cN: { kind: "force", factor: 1e-2 },
  daN: { kind: "force", factor: 10 },
  kgf: { kind: "force", factor: standardGravity },
  gf: { kind: "force", factor: standardGravity / 1000 },
  lbf: { kind: "force", factor: lbf },
  ozf: { kind: "force", factor: lbf / 16 },
  m: { kind: "length", factor: 1 },
  km: { kind: "length", factor: 1e3 },
  cm: { kind: "length", factor: 1e-2 },
  mm: { kind: "length", factor: 1e-3 },
  um: { kind: "length", factor: 1e-6 },
  in: { kind: "length", factor: inch },
  ft: { kind: "length", factor: foot },
  m2: { kind: "area", factor: 1 },
  cm2: { kind: "area", factor: 1e-4 },
  mm2: { kind: "area", factor: 1e-6 },
  in2: { kind: "area", factor: inch ** 2 },
  "m/s": { kind: "speed", factor: 1 },
  "mm/s": { kind: "speed", factor: 1e-3 },
  "cm/s": { kind: "speed", factor: 1e-2 },
  "m/min": { kind: "speed", factor: 1 / 60 },
  "mm/min": { kind: "speed", factor: 1e-3 / 60 },
  "km/h": { kind: "speed", factor: 1 / 3.6 },
  "in/s": { kind: "speed", factor: inch },
  "ft/s": { kind: "speed", factor: foot },
  "ft/min": { kind: "speed", factor: foot / 60 },
  "m/s2": { kind: "acceleration", factor: 1 },
  "mm/s2": { kind: "acceleration", factor: 1e-3 },
  "ft/s2": { kind: "acceleration", factor: foot },
  gn: { kind: "acceleration", factor: standardGravity },
  s: { kind: "time", factor: 1 },
  ms: { kind: "time", factor: 1e-3 },
  us: { kind: "time", factor: 1e-6 },
  min: { kind: "time", factor: 60 },
  h: { kind: "time", factor: 3600 },
  d: { kind: "time", factor: 86400 },
  Hz: { kind: "frequency", factor: 1 },
  kHz: { kind: "frequency", factor: 1e3 },
  rad: { kind: "angle", factor: 1 },
  deg: { kind: "angle", factor: Math.PI / 180 },
  mrad: { kind: "angle", factor: 1e-3 },
  rev: { kind: "angle", factor: 2 * Math.PI },
  "rad/s": { kind: "angular speed", factor: 1 },
  "deg/s": { kind: "angular speed", factor: Math.PI / 180 },
  rpm: { kind: "angular speed", factor: rpm },
  "rev/s": { kind: "angular speed", factor: 2 * Math.PI },
  "rad/s2": { kind: "angular acceleration", factor: 1 },
  "deg/s2": { kind: "angular acceleration", factor: Math.PI / 180 },
  kg: { kind: "mass", factor: 1 },
  g: { kind: "mass", factor: 1e-3 },
  lb: { kind: "mass", factor: pound },
  oz: { kind: "mass", factor: pound / 16 },
  "kg/m": { kind: "mass per distance", factor: 1 },
  "g/km": { kind: "mass per distance", factor: 1e-6 },
  "m3/(N.m)": { kind: "specific wear rate", factor: 1 },
  "mm3/(N.m)": { kind: "specific wear rate", factor: 1e-9 },
  "kg.m2": { kind: "moment of inertia", factor: 1 },
  "N.m": { kind: "torque", factor: 1 },
  "mN.m": { kind: "torque", factor: 1e-3 },
  "kN.m": { kind: "torque", factor: 1e3 },
  "N.cm": { kind: "torque", factor: 1e-2 },
  "N.mm": { kind: "torque", factor: 1e-3 },
  "kgf.m": { kind: "torque", factor: standardGravity },
  "kgf.cm": { kind: "torque", factor: standardGravity / 100 },
  "lbf.ft": { kind: "torque", factor: lbf * foot },
  "lbf.in": { kind: "torque", factor: lbf * inch },
  "ozf.in": { kind: "torque", factor: (lbf / 16) * inch },
  J: { kind: "energy", factor: 1 },
  "J/m": { kind: "energy per distance", factor: 1 },
  "Wh/km": { kind: "energy per distance", factor: 3.6 },
  W: { kind: "power", factor: 1 },
  Pa: { kind: "pressure", factor: 1 },
  kPa: { kind: "pressure", factor: 1e3 },
  MPa: { kind: "pressure", factor: 1e6 },
  bar: { kind: "pressure", factor: 1e5 },
  mbar: { kind: "pressure", factor: 100 },
  psi: { kind: "pressure", factor: lbf / inch ** 2 },
  "N/cm2": { kind: "pressure", factor: 1e4 },
  "kN/cm2": { kind: "pressure", factor: 1e7 },
  "kgf/cm2": { kind: "pressure", factor: standardGravity * 1e4 },
  "Pa/m": { kind: "pressure gradient", factor: 1 },
  "kPa/mm": { kind: "pressure gradient", factor: 1e6 },
  "MPa/m": { kind: "pressure gradient", factor: 1e6 },
  "kPa/m": { kind: "pressure gradient", factor: 1e3 },
  "psi/in": { kind: "pressure gradient", factor: lbf / inch ** 3 },
  "1/s": { kind: "rate of change", factor: 1 },
  "1/m": { kind: "per length", factor: 1 },
  "N/m": { kind: "stiffness", factor: 1 },
  "N/mm": { kind: "stiffness", factor: 1e3 },
  "kN/m": { kind: "stiffness", factor: 1e3 },
  "lbf/in": { kind: "stiffness", factor: lbf / inch },
  "N.s/m": { kind: "damping coefficient", factor: 1 },
  "kg/m3": { kind: "density", factor: 1 },
  "g/cm3": { kind: "density", factor: 1e3 },
  "lb/ft3": { kind: "density", factor: pound / foot ** 3 },
  Cel: { kind: "temperature", factor: 1, offset: 273.15 },
  K: { kind: "temperature", factor: 1 },
  degF: { kind: "temperature", factor: 5 / 9, offset: (459.67 * 5) / 9 },
  V: { kind: "voltage", factor: 1 },
  mV: { kind: "voltage", factor: 1e-3 },
  uV: { kind: "voltage", factor: 1e-6 },
  "mV/V": { kind: "bridge output", factor: 1e-3 },
  "uV/V": { kind: "bridge output", factor: 1e-6 },
  "m/m": { kind: "strain", factor: 1 },
  "um/m": { kind: "strain", factor: 1e-6 },
  A: { kind: "current", factor: 1 },
  mA: { kind: "current", factor: 1e-3 },
  count: { kind: "count", factor: 1 },
  // Bekker's constants: the power of metre follows the sinkage exponent n, so these never convert without n.
  "N/m^(n+1)": { kind: "Bekker k_c", factor: 1 },
  "N/m^(n+2)": { kind: "Bekker k_phi", factor: 1 },
} as const satisfies Record<string, UnitRow>;

export type Unit = keyof typeof units;

export interface Quantity<U extends Unit = Unit> {
  readonly value: number;
  readonly unit: U;
}

/** The unit a text names, or undefined. Never guesses: "g" is gram, "gn" is standard gravity, "lbs" is neither mass nor force for sure. */
export function parseUnit(text: string): Unit | undefined {
  const trimmed = text.trim();
  if (Object.hasOwn(units, trimmed)) return trimmed as Unit;
  const plain = plainSigns(trimmed);
  if (Object.hasOwn(units, plain)) return plain as Unit;
  return Object.hasOwn(unitSpellings, plain) ? unitSpellings[plain] : undefined;
}

/** Signs that mean the same: µ (two code points) and u; ·, ⋅, * and a full stop; ², ^2 and 2. */
function plainSigns(text: string): string {
  return text.replace(/[µμ]/g, "u").replace(/[·⋅*]/g, ".").replace(/²/g, "2").replace(/³/g, "3").replace(/⁻¹/g, "-1").replace(/\^(?=-?[123])/g, "");
}

export function unitKind(unit: Unit): string {
  return units[unit].kind;
}

/** All units of the same kind, for messages. */
export function unitsOfKind(kind: string): Unit[] {
  return (Object.keys(units) as Unit[]).filter((unit) => units[unit].kind === kind);
}

/** Multiplier and summand that take a value in `from` to `to`. @throws UsageError when the kinds differ. */
export function conversion(from: Unit, to: Unit): { readonly factor: number; readonly summand: number } {
  const a: UnitRow = units[from];
  const b: UnitRow = units[to];
  if (a.kind !== b.kind) throw new UsageError(`expected a unit of ${b.kind} like "${to}", found "${from}" (${a.kind})`);
  return { factor: a.factor / b.factor, summand: ((a.offset ?? 0) - (b.offset ?? 0)) / b.factor };
}

/** `value` in `from`, expressed in `to`. @throws UsageError when the kinds differ. */
export function convert(value: number, from: Unit, to: Unit): number {
  if (from === to) return value;
  const { factor, summand } = conversion(from, to);
  return value * factor + summand;
}

/** How a unit is shown to people: N·m, m/s², °C. */
export function showUnit(unit: Unit): string {
  if (unit === "1" || unit === "count") return unit === "1" ? "–" : "counts";
  if (unit === "Cel" || unit === "degF") return unit === "Cel" ? "°C" : "°F";
  return unit.replace(/^u(?=[msV])/, "µ").replaceAll(".", "·").replace(/(?<=[a-z])2$/, "²").replace(/(?<=[a-z])3(?=$|\/)/, "³").replace("^(n+1)", "ⁿ⁺¹").replace("^(n+2)", "ⁿ⁺²");
}
