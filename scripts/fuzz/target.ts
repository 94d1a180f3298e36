import type { Random } from "../../src/numerics/random.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import type { Build } from "./built.ts";
import { pick } from "./hostile.ts";
import type { Spoil } from "./spoilBytes.ts";

/** A good file and how it is read. `read` throws InputError where it refuses, and anything else where it fails. */
export interface FuzzSample {
  readonly name: string;
  readonly bytes: Uint8Array;
  readonly read: (bytes: Uint8Array) => Promise<void>;
}

/** One reader: good files, ways to spoil them, and files made hostile from the start. */
export interface Target {
  readonly name: string;
  readonly samples: readonly FuzzSample[];
  readonly spoils: Readonly<Record<string, Spoil>>;
  readonly built?: Readonly<Record<string, Build>>;
}

/** What one trial feeds to a reader; the same for the same seed. */
export interface Trial {
  readonly how: string;
  readonly sample: FuzzSample;
  readonly bytes: Uint8Array;
}

export async function trialOf(target: Target, seed: number): Promise<Trial> {
  const random = seededRandom(seed);
  const sample = pick(target.samples, random);
  const builds = Object.entries(target.built ?? {});
  if (builds.length > 0 && random.integer(8) === 0) {
    const [how, build] = pick(builds, random);
    return { how, sample, bytes: await build(random) };
  }
  return { sample, ...spoilt(target, sample.bytes, random) };
}

/** Now and then two kinds of damage at once. */
function spoilt(target: Target, bytes: Uint8Array, random: Random): { readonly how: string; readonly bytes: Uint8Array } {
  const [how, spoil] = pick(Object.entries(target.spoils), random);
  const once = spoil(bytes, random);
  if (once.length > 5_000_000 || random.integer(4) > 0) return { how, bytes: once };
  const [also, again] = pick(Object.entries(target.spoils), random);
  try {
    return { how: `${how}, ${also}`, bytes: again(once, random) };
  } catch {
    // A container that is broken already cannot be opened to break what is inside.
    return { how, bytes: once };
  }
}
