import { UsageError } from "../core/errors.ts";

/** What stands on the command line of a load: as a force, or as a mass with where it weighs. */
export interface LoadWords {
  readonly load?: string;
  readonly mass?: string;
  readonly gravity?: string;
}

const mostValues = 50;
const mostSlips = 500;

/** Loads [N], or masses [kg] with the gravity that makes loads of them; null gravity = that of the card. */
export function askedLoads({ load, mass, gravity }: LoadWords): { readonly loadsN: readonly number[]; readonly massesKg: readonly number[] | null; readonly gravityMps2: number | null } {
  if ((load === undefined) === (mass === undefined)) throw new UsageError(`expected either --load or --mass, found ${load === undefined ? "neither" : "both"}. A load is the force on the wheel [N]; a mass [kg] weighs by --gravity, or by the gravity of the day`);
  if (load !== undefined && gravity !== undefined) throw new UsageError("expected --mass with --gravity, found --load: a load is a force already, and gravity changes nothing about it");
  const gravityMps2 = gravity === undefined ? null : positive("--gravity", gravity, "m/s²");
  return load !== undefined ? { loadsN: many("--load", load, "N"), massesKg: null, gravityMps2 } : { loadsN: [], massesKg: many("--mass", mass as string, "kg"), gravityMps2 };
}

/** "0.1,0.2" or "from:to:step"; each above −1 and up to 1. */
export function askedSlips(option: string, words: string): number[] {
  const range = words.split(":");
  const slips = range.length === 3 ? steps(option, range.map(Number) as [number, number, number], words) : words.split(",").map(Number);
  const wrong = slips.findIndex((slip) => !(slip > -1 && slip <= 1));
  if (wrong >= 0 || slips.length > mostSlips || words.trim() === "") throw new UsageError(`expected ${option} as slips above −1 and up to 1, such as 0.1,0.2 or -0.2:0.6:0.05, found "${words}". A slip in per cent is divided by 100`);
  return slips;
}

function steps(option: string, [from, to, step]: readonly [number, number, number], words: string): number[] {
  if (!(step > 0 && to >= from)) throw new UsageError(`expected ${option} as from:to:step with a step above 0 and its end not below its start, found "${words}"`);
  const count = Math.min(mostSlips, Math.floor((to - from) / step + 1e-9));
  // a step of 0.05 shall give 0.15, not 0.15000000000000002
  return Array.from({ length: count + 1 }, (_, i) => Number((from + i * step).toPrecision(12)));
}

function many(option: string, words: string, unit: string): number[] {
  const values = words.split(",").map((word) => positive(option, word, unit));
  if (values.length > mostValues) throw new UsageError(`expected at most ${mostValues} values of ${option}, found ${values.length}`);
  return values;
}

function positive(option: string, words: string, unit: string): number {
  const value = words.trim() === "" ? Number.NaN : Number(words);
  if (!(value > 0 && Number.isFinite(value))) throw new UsageError(`expected ${option} as numbers above 0 [${unit}], found "${words}"`);
  return value;
}
