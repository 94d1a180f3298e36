import { derive } from "./reading.ts";
import type { Reading } from "./reading.ts";

/**
 * Sinkage of a wheel from its hub's drop since first touch.
 *
 *   z = (h_touch − h) − δ(W)
 *
 * A flexible wheel's hub also drops by the wheel's own deflection δ at that load, which is not sinkage and is taken off;
 * a rigid wheel has δ = 0.
 *
 * @param hubDrop     how far the hub stands below its height at first touch [m]
 * @param deflection  deflection of the wheel on a hard plate at the load of the window [m]
 * @returns           [m], positive into the soil
 * @source            common practice
 * @checked           tests/processing/measures/sinkage.test.ts
 */
export function sinkage(hubDrop: Reading<"m">, deflection: Reading<"m">): Reading<"m"> {
  return derive([hubDrop, deflection], (drop = Number.NaN, delta = Number.NaN) => drop - delta, "m");
}
