import { units } from "../core/units.ts";

/** Elapsed time as written, in seconds. */
export function columnTimes(values: Float64Array, unit: "s" | "ms" | "us" | "min" | "h" | "d"): Float64Array {
  if (unit === "s") return values;
  const { factor } = units[unit];
  // Dividing by 1000 rounds once; multiplying by 0.001, which no double holds exactly, would round twice.
  const divisor = factor < 1 ? Math.round(1 / factor) : 0;
  return divisor > 0 ? values.map((value) => value / divisor) : values.map((value) => value * factor);
}

/** Seconds since the first stamp, from whole nanoseconds. */
export function stampTimes(stampsNs: Float64Array): Float64Array {
  const first = stampsNs[0] ?? 0;
  for (let i = 0; i < stampsNs.length; i++) stampsNs[i] = ((stampsNs[i] as number) - first) / 1e9;
  return stampsNs;
}

export function rateTimes(count: number, rateHz: number): Float64Array {
  const times = new Float64Array(count);
  for (let i = 0; i < count; i++) times[i] = i / rateHz;
  return times;
}
