import { estimateFrom } from "../../src/core/estimate.ts";
import type { Estimate } from "../../src/core/estimate.ts";
import type { Unit } from "../../src/core/units.ts";
import type { ContactDrop } from "../../src/fitting/contactDrops.ts";
import { wheelBlow } from "../../src/models/wheelBlow.ts";
import type { WheelContact } from "../../src/models/wheelBlow.ts";
import { seededRandom } from "../../src/numerics/random.ts";

export const madeGravity = 9.81;
export const madeContact: WheelContact = { push: 120, exponent: 1.4, loss: 0.2, viscous: 0.08, referenceM: 0.006, referenceMps: 1.2 };

/** An estimate with a part of its own and a part shared with all others, as shares of it. */
export function madeEstimate(value: number, unit: Unit, cause: string, own: number, shared = 0): Estimate {
  const gain = "calibration A-1";
  return estimateFrom(value, unit, "made for the test", [
    { cause, effect: own * value, sharedBy: null, degreesOfFreedom: Infinity },
    ...(shared > 0 ? [{ cause: gain, effect: shared * value, sharedBy: gain, degreesOfFreedom: Infinity }] : []),
  ]);
}

/** Drops from 25, 50, 100 and 200 mm, three each, blown by the model itself, noise in what is observed. */
export function madeDrops(seed: number, noise: number, contact = madeContact, heights: readonly number[] = [0.025, 0.05, 0.1, 0.2]): ContactDrop[] {
  const random = seededRandom(seed);
  return heights.flatMap((heightM) =>
    [1, 2, 3].map((repeat): ContactDrop => {
      const run = `D${1000 * heightM}-${repeat}`;
      const speed = Math.sqrt(2 * madeGravity * heightM);
      const blow = wheelBlow(contact, speed, madeGravity);
      const seen = (value: number, unit: Unit): Estimate => madeEstimate(value * (1 + noise * random.normal()), unit, `own ${unit}, ${run}`, Math.max(noise, 1e-4), unit === "m/s2" || unit === "m" ? 0.01 : 0);
      return { run, heightM, speed: madeEstimate(speed, "m/s", `own speed, ${run}`, 1e-4, 0.01), observed: [seen(blow.peakAcceleration, "m/s2"), seen(blow.compression, "m"), seen(blow.duration, "s"), seen(blow.restitution, "1")] };
    }),
  );
}
