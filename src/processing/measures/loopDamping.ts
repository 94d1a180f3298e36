import type { Estimate } from "../../core/estimate.ts";
import { fromDetermined } from "./fromDetermined.ts";

/**
 * Damping ratio from the loop of the first contact, taken as half a cycle.
 *
 *   ζ = ΔW / (2π U),   U = W_m − ΔW/2
 *
 * [1]. ΔW: area of the loop; W_m: work up to the largest compression; U: energy stored there, under the line halfway between
 * loading and unloading. Equivalent viscous damping: exact to first order in ζ for a linear wheel (3 % low at ζ = 0.1); for
 * another wheel a number for this height only, which holds every loss of the contact.
 *
 * @param loop    ΔW [J]
 * @param loading W_m [J]
 * @returns       ζ
 * @source        S. S. Rao, Mechanical Vibrations, energy dissipated per cycle (from memory), for half a cycle
 * @checked       tests/processing/measures/dropContact.test.ts
 */
export function loopDampingRatio(loop: Estimate<"J">, loading: Estimate<"J">): Estimate<"1"> {
  return fromDetermined([loop, loading], (dw, wm) => dw / (2 * Math.PI * (wm - dw / 2)), "1", "area of the first contact's loop over 2π times the energy stored at the largest compression, the contact taken as half a cycle");
}

/**
 * Equivalent viscous damping of the first contact.
 *
 *   c = 2 ΔW / (π ω d_m²),   ω = π / t_c
 *
 * [N·s/m]. The linear damper that takes the same energy in half a harmonic cycle of the contact's duration t_c and largest
 * compression d_m.
 *
 * @param loop        ΔW [J]
 * @param compression d_m [m]
 * @param duration    t_c [s]
 * @returns           c
 * @source            viscous energy per cycle π c ω X²: S. S. Rao, Mechanical Vibrations (from memory)
 * @checked           tests/processing/measures/dropContact.test.ts
 */
export function equivalentDamping(loop: Estimate<"J">, compression: Estimate<"m">, duration: Estimate<"s">): Estimate<"N.s/m"> {
  return fromDetermined([loop, compression, duration], (dw, d, t) => (2 * dw * t) / (Math.PI ** 2 * d * d), "N.s/m", "linear damper that takes the loop's energy in half a harmonic cycle of the same duration and compression");
}
