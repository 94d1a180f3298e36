import { UsageError } from "./errors.ts";

/** One row of the unit table: what is measured, and how to reach the SI unit of that kind: si = value · factor + offset. */
interface UnitRow {
  readonly kind: string;
  readonly factor: number;
  readonly offset?: number;
}

// kgf, lbf, in, psi: exact by definition (international avoirdupois pound, 1959; standard gravity 9.80665 m/s²).
const lbf = 0.45359237 * 9.80665;

/** Every unit drawbar knows. Two units convert into each other only when they are of the same kind. */
export const units = {
  "1": { kind: "ratio", factor: 1 },
  "%": { kind: "ratio", factor: 0.01 },
  N: { kind: "force", factor: 1 },
  mN: { kind: "force", factor: 1e-3 },
  kN: { kind: "force", factor: 1e3 },
  kgf: { kind: "force", factor: 9.80665 },
  lbf: { kind: "force", factor: lbf },
  m: { kind: "length", factor: 1 },
  cm: { kind: "length", factor: 1e-2 },
  mm: { kind: "length", factor: 1e-3 },
  um: { kind: "length", factor: 1e-6 },
  in: { kind: "length", factor: 0.0254 },
  m2: { kind: "area", factor: 1 },
  cm2: { kind: "area", factor: 1e-4 },
  mm2: { kind: "area", factor: 1e-6 },
  "m/s": { kind: "speed", factor: 1 },
  "mm/s": { kind: "speed", factor: 1e-3 },
  "cm/s": { kind: "speed", factor: 1e-2 },
  "m/s2": { kind: "acceleration", factor: 1 },
  gn: { kind: "acceleration", factor: 9.80665 },
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
  rev: { kind: "angle", factor: 2 * Math.PI },
  "rad/s": { kind: "angular speed", factor: 1 },
  "deg/s": { kind: "angular speed", factor: Math.PI / 180 },
  rpm: { kind: "angular speed", factor: (2 * Math.PI) / 60 },
  kg: { kind: "mass", factor: 1 },
  g: { kind: "mass", factor: 1e-3 },
  "kg.m2": { kind: "moment of inertia", factor: 1 },
  "N.m": { kind: "torque", factor: 1 },
  "mN.m": { kind: "torque", factor: 1e-3 },
  "kN.m": { kind: "torque", factor: 1e3 },
  J: { kind: "energy", factor: 1 },
  "J/m": { kind: "energy per distance", factor: 1 },
  "Wh/km": { kind: "energy per distance", factor: 3.6 },
  W: { kind: "power", factor: 1 },
  Pa: { kind: "pressure", factor: 1 },
  kPa: { kind: "pressure", factor: 1e3 },
  MPa: { kind: "pressure", factor: 1e6 },
  bar: { kind: "pressure", factor: 1e5 },
  psi: { kind: "pressure", factor: lbf / 0.0254 ** 2 },
  "N/cm2": { kind: "pressure", factor: 1e4 },
  "Pa/m": { kind: "pressure gradient", factor: 1 },
  "kPa/mm": { kind: "pressure gradient", factor: 1e6 },
  "MPa/m": { kind: "pressure gradient", factor: 1e6 },
  "N/m": { kind: "stiffness", factor: 1 },
  "N/mm": { kind: "stiffness", factor: 1e3 },
  "N.s/m": { kind: "damping coefficient", factor: 1 },
  "kg/m3": { kind: "density", factor: 1 },
  "g/cm3": { kind: "density", factor: 1e3 },
  Cel: { kind: "temperature", factor: 1, offset: 273.15 },
  K: { kind: "temperature", factor: 1 },
  V: { kind: "voltage", factor: 1 },
  mV: { kind: "voltage", factor: 1e-3 },
  "mV/V": { kind: "bridge output", factor: 1e-3 },
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

// Spellings that loggers and spreadsheets use for the units above.
const spellings: Readonly<Record<string, Unit>> = {
  "-": "1", "–": "1", none: "1", ratio: "1",
  Nm: "N.m", "N·m": "N.m", "N*m": "N.m", "N m": "N.m", mNm: "mN.m", "mN·m": "mN.m", kNm: "kN.m",
  "m/s²": "m/s2", "m/s^2": "m/s2", "µm": "um", "μm": "um", "µs": "us", "μs": "us", sec: "s",
  "m²": "m2", "m^2": "m2", "cm²": "cm2", "cm^2": "cm2", "mm²": "mm2", "mm^2": "mm2",
  "kg/m³": "kg/m3", "kg/m^3": "kg/m3", "g/cm³": "g/cm3", "g/cm^3": "g/cm3", "g/cc": "g/cm3",
  "°": "deg", "°/s": "deg/s", "°C": "Cel", degC: "Cel", "1/min": "rpm", "r/min": "rpm", "U/min": "rpm",
  "kg·m²": "kg.m2", "kg.m^2": "kg.m2", "N/cm²": "N/cm2", "N/cm^2": "N/cm2",
  counts: "count", cnt: "count", "g_n": "gn", "g0": "gn", "[g]": "gn", inch: "in", "\"": "in",
  "N·s/m": "N.s/m", "Ns/m": "N.s/m", "V/V": "1", volt: "V",
};

/** The unit a text names, or undefined. Never guesses: "g" is gram, "gn" is standard gravity. */
export function parseUnit(text: string): Unit | undefined {
  const trimmed = text.trim();
  if (Object.hasOwn(units, trimmed)) return trimmed as Unit;
  return Object.hasOwn(spellings, trimmed) ? spellings[trimmed] : undefined;
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
  if (unit === "Cel") return "°C";
  if (unit === "um") return "µm";
  if (unit === "us") return "µs";
  return unit.replaceAll(".", "·").replace(/(?<=[a-z])2$/, "²").replace(/(?<=[a-z])3$/, "³").replace("^(n+1)", "ⁿ⁺¹").replace("^(n+2)", "ⁿ⁺²");
}
