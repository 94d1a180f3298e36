import { seededRandom } from "../../src/numerics/random.ts";

/** A shear plate at 1 mm/s and 50 samples a second: 2 s at rest, then the stress curve; forces with noise. */
export function shearLog(seed: number, stressPa: (j: number) => number, rest: { readonly areaM2?: number; readonly travelM?: number; readonly normalN?: number; readonly noiseN?: number } = {}): { readonly shearForce: number[]; readonly shearDisplacement: number[]; readonly normalForce: number[] } {
  const { areaM2 = 0.01, travelM = 0.06, normalN = 100, noiseN = 0.3 } = rest;
  const random = seededRandom(seed);
  const shearDisplacement = Array.from({ length: 100 + Math.round(travelM / 2e-5) }, (_, i) => Math.max(0, i - 100) * 2e-5);
  return {
    shearDisplacement,
    shearForce: shearDisplacement.map((j) => 1.5 + stressPa(j) * areaM2 + noiseN * random.normal()),
    normalForce: shearDisplacement.map(() => normalN + 0.5 * random.normal()),
  };
}
