import { UsageError } from "../core/errors.ts";

/** n₀, spatial frequency at which a roughness is stated [1/m] */
const referencePerM = 0.1;
/** G_d(n₀) of class A's middle [m³]; each further class has four times the one before */
const middleOfA = 16e-6;
const classes = "ABCDEFGH";

/**
 * Class of a ground by the roughness of its profile.
 *
 *   middle of the class G_d(n₀) = 16·10⁻⁶ m³ · 4^k, k = 0 for A; from half of it to twice of it; A downwards and H upwards open
 *
 * @param level   G_d(n₀), displacement density of the profile at n₀ = 0.1 cycles per metre [m³], > 0
 * @returns       A to H
 * @throws        UsageError when the level is not above zero
 * @source        ISO 8608:2016, annex, from memory
 * @checked       tests/models/groundRoughness.test.ts
 */
export function roughnessClass(level: number): string {
  requireLevel("roughnessClass", level);
  const k = Math.floor(Math.log2((2 * level) / middleOfA) / 2);
  return classes[Math.min(classes.length - 1, Math.max(0, k))] as string;
}

/**
 * Root mean square of a ground's height within a band of wavelengths.
 *
 *   G_d(n) = G_d(n₀) (n/n₀)⁻²      rms = √[G_d(n₀) n₀² (1/n₁ − 1/n₂)]
 *
 * @param level     G_d(n₀) [m³], > 0
 * @param fromPerM  n₁ [1/m], > 0
 * @param toPerM    n₂ [1/m], above n₁
 * @returns         [m]
 * @throws          UsageError when the level is not above zero or the band is empty
 * @source          integral of the profile law of ISO 8608, derived
 * @checked         tests/models/groundRoughness.test.ts
 */
export function roughnessRms(level: number, fromPerM: number, toPerM: number): number {
  requireLevel("roughnessRms", level);
  if (!(fromPerM > 0 && toPerM > fromPerM)) throw new UsageError(`roughnessRms: expected a band of frequencies above 0, rising, found ${fromPerM} to ${toPerM} per metre`);
  return Math.sqrt(level * referencePerM ** 2 * (1 / fromPerM - 1 / toPerM));
}

/**
 * Density of the slope of such a ground: the same at every spatial frequency. Times the speed it is the density, per
 * hertz, of the speed at which a wheel that follows the profile rises and falls.
 *
 *   (2π n)² G_d(n) = (2π n₀)² G_d(n₀)
 *
 * @param level   G_d(n₀) [m³], > 0
 * @returns       [m]
 * @throws        UsageError when the level is not above zero
 * @source        derivative of the profile law of ISO 8608, derived
 * @checked       tests/models/groundRoughness.test.ts
 */
export function slopeDensity(level: number): number {
  requireLevel("slopeDensity", level);
  return (2 * Math.PI * referencePerM) ** 2 * level;
}

function requireLevel(name: string, level: number): void {
  if (!(level > 0)) throw new UsageError(`${name}: expected a roughness above 0 m³, found ${level}`);
}
