import { seededRandom } from "../../src/numerics/random.ts";

/** A plate pressed at 0.5 mm/s and 50 samples a second into soil of p = k zⁿ; 2 mm of approach; one unloading at half depth if asked. */
export function plateLog(seed: number, soil: { readonly k: number; readonly n: number; readonly areaM2: number }, depthM = 0.04, noise: { readonly forceN: number; readonly displacementM: number } = { forceN: 1, displacementM: 2e-6 }, unload = true): { readonly force: number[]; readonly displacement: number[] } {
  const random = seededRandom(seed);
  const force: number[] = [];
  const displacement: number[] = [];
  let deepest = 0;
  const add = (z: number): void => {
    deepest = Math.max(deepest, z);
    // stiff unloading: the pressure is gone after 10 % of the sinkage
    const virgin = soil.k * Math.max(0, deepest) ** soil.n;
    const pressure = z >= deepest || deepest === 0 ? virgin : Math.max(0, virgin * (1 - (deepest - z) / (0.1 * deepest)));
    displacement.push(0.01 + z + noise.displacementM * random.normal());
    force.push(4 + pressure * soil.areaM2 + noise.forceN * random.normal());
  };
  const step = 1e-5;
  for (let z = -0.002; z < depthM / 2; z += step) add(z);
  if (unload) {
    for (let z = depthM / 2; z > 0.4 * depthM; z -= step) add(z);
    for (let z = 0.4 * depthM; z < depthM / 2; z += step) add(z);
  }
  for (let z = depthM / 2; z < depthM; z += step) add(z);
  for (let z = depthM; z > 0.8 * depthM; z -= step) add(z);
  return { force, displacement };
}
