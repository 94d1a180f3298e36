import { UsageError } from "../../core/errors.ts";

/**
 * Base area of a penetrometer cone.
 *
 *   A = π d²/4     [m²]
 *
 * Worn cones are smaller than their name: use the measured diameter (3 % wear makes the index 6 % low).
 *
 * @param diameterM   d, base diameter [m], > 0
 * @returns           A [m²]
 * @throws            UsageError when the diameter is not above zero
 * @source            ASAE S313.3: 30° cones of 20.27 mm and 12.83 mm
 * @checked           tests/processing/measures/coneIndex.test.ts
 */
export function coneBaseArea(diameterM: number): number {
  if (!(diameterM > 0)) throw new UsageError(`coneBaseArea: expected a diameter above 0 m, found ${diameterM}`);
  return (Math.PI * diameterM ** 2) / 4;
}
